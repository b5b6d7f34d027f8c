// SPDX-License-Identifier: GPL-3.0-or-later
// Reckoning with 90 % ranges: what several inputs do together is the root-sum-square of what each does alone, in
// logarithms, to either side.
//   Checked  ranges_test.cpp
#pragma once
#include <functional>
#include <initializer_list>
#include <vector>

#include "base/ranged.h"

namespace sightfall::loads {

/// Of a positive function of the inputs. Each input is moved to its ends alone; whichever end gives less counts down.
Ranged<double> spread(const std::vector<Ranged<double>>& inputs,
                      const std::function<double(const std::vector<double>&)>& of);

/// The product of positive ranges.
Ranged<double> product(std::initializer_list<Ranged<double>> factors);

/// Sums go by their ends, which is wider than a 90 % range.
template <class T>
Ranged<T> added(const Ranged<T>& a, const Ranged<T>& b) {
  return {a.low + b.low, a.nominal + b.nominal, a.high + b.high};
}

template <class T, class Of>
auto each(const Ranged<T>& range, Of of) {
  using Result = decltype(of(range.nominal));
  return Ranged<Result>{of(range.low), of(range.nominal), of(range.high)};
}

}  // namespace sightfall::loads
