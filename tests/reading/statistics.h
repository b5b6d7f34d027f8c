// SPDX-License-Identifier: GPL-3.0-or-later
// Shares of hits with their intervals, and the place where a share falls through one half.
//   Model    Wilson's interval; a logistic in the logarithm of the detail, by maximum likelihood; intervals of its
//            middle by drawing every point's hits anew from its share (parametric bootstrap), seeded
//   Source   E. B. Wilson, Probable inference, J. Am. Stat. Assoc. 22 (1927); the formulas from memory
//   Checked  statistics_test.cpp
#pragma once
#include <cstdint>
#include <random>
#include <span>
#include <vector>

#include "base/ranged.h"

namespace sightfall::reading {

struct Tally {
  int shown = 0, hits = 0;
  double share() const { return shown > 0 ? static_cast<double>(hits) / shown : 0; }
};

/// 90 % interval of the true share, with the share found as nominal.
Ranged<double> wilson(const Tally& tally);

struct Measured {
  double detail = 0;  ///< px/m
  Tally tally;
};

inline constexpr double kLeastDetail = 1;  ///< px/m: less counts as this

/// The detail at which the share is one half. 0 where it is not below one half even at kLeastDetail: hits where no
/// detail is left.
double half_point(std::span<const Measured> points);

/// The same with hits drawn anew.
double drawn_half_point(std::span<const Measured> points, std::mt19937_64& random);

/// The 5 % and 95 % quantiles of values, with a nominal value between.
Ranged<double> interval(std::vector<double> values, double nominal);

}  // namespace sightfall::reading
