// SPDX-License-Identifier: GPL-3.0-or-later
// A value that is known only within a range: the 90 % range low..high around a nominal value. Ranges travel: what is
// computed from a ranged value is a range again (root-sum-square of logarithms, see need/trial.h).
#pragma once
#include <string>
#include <utility>

namespace sightfall {

template <class T>
struct Ranged {
  T low{};
  T nominal{};
  T high{};

  static Ranged exact(T value) { return {value, value, value}; }
  bool operator==(const Ranged&) const = default;
};

/// An assumption about a camera or a subject, as it is printed: what was taken, from where, and how to settle it.
struct Assumption {
  std::string what;    ///< such as `focus distance of "gate": 70 m (49-105 m)`
  std::string settle;  ///< such as `measure it, or ask the maker for the focus setting`
};

}  // namespace sightfall
