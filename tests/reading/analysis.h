// SPDX-License-Identifier: GPL-3.0-or-later
// Whether delivered detail is the one number: where each cause's hits fall through one half, beside distance's.
//   Model    thresholds are fixed on the first half by least squares of ln(half point / distance's) over a grid
#pragma once
#include <span>
#include <string>
#include <vector>

#include "experiment.h"

namespace sightfall::reading {

inline constexpr double kAgree = 0.15;

struct Row {
  std::string cause;
  Ranged<double> half;   ///< px/m delivered at which one half is read; 0: read where no detail is left
  Ranged<double> ratio;  ///< to distance's
  bool agrees() const { return ratio.nominal >= 1 - kAgree && ratio.nominal <= 1 + kAgree; }
};

/// What is known of one level under thresholds, of one reader and half.
std::vector<Measured> measured(const Series& series, size_t reader, Half half, const Thresholds& thresholds);

/// A row a cause, with 90 % intervals.
std::vector<Row> rows_of(std::span<const Series> all, size_t reader, Half half, const Thresholds& thresholds);

struct ThresholdBounds {
  Ranged<double> contrast, noise;
};
inline constexpr ThresholdBounds kStated{{0.10, 0.20, 0.25}, {5, 6, 8}};  ///< data/typical.json
inline constexpr ThresholdBounds kNoiseAlone{{0.20, 0.20, 0.20}, {1, 6, 60}};
inline constexpr ThresholdBounds kAnyReader{{0.01, 0.20, 0.40}, {1, 6, 60}};  ///< as far as a reader might be off

/// The thresholds that bring the causes nearest to distance on the first half.
Thresholds fitted_thresholds(std::span<const Series> all, size_t reader, const ThresholdBounds& bounds);

}  // namespace sightfall::reading
