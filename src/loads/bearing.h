// SPDX-License-Identifier: GPL-3.0-or-later
// One load beside what carries it: met when even the high end of the load is carried, missed when its low end is not,
// marginal between; unknown, with what to find out, when there is nothing to compare with.
//   Checked  bearing_test.cpp
#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "base/ranged.h"

namespace sightfall::loads {

enum class Held { kMet, kMarginal, kMissed, kUnknown };

/// `met`, `marginal`, `missed` or `unknown`.
std::string_view in_words(Held held);

/// The worse of two: missed, unknown, marginal, met.
Held worse(Held a, Held b);

/// How a load that is known within a range is held by a capacity. Both in one unit.
template <class T>
Held judge(const Ranged<T>& load, T capacity) {
  if (load.high <= capacity) return Held::kMet;
  return load.low > capacity ? Held::kMissed : Held::kMarginal;
}

template <class T>
struct Bearing {
  Ranged<T> load;
  std::optional<T> capacity;  ///< unset: unknown
  Held held = Held::kUnknown;
  std::string rule;    ///< what was compared, and where the rule comes from
  std::string remedy;  ///< what would mend it, or what to find out; empty when met

  /// What is left of the capacity at the nominal load; negative when it falls short.
  std::optional<T> margin() const { return capacity ? std::optional(*capacity - load.nominal) : std::nullopt; }
};

template <class T>
Bearing<T> bear(const Ranged<T>& load, std::optional<T> capacity, std::string rule) {
  return {load, capacity, capacity ? judge(load, *capacity) : Held::kUnknown, std::move(rule), {}};
}

}  // namespace sightfall::loads
