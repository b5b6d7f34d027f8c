// SPDX-License-Identifier: GPL-3.0-or-later
#include "analysis.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace sightfall::reading {
namespace {

/// Sum of squares of the causes' distances from distance, in logarithms; what is read without detail is far off.
double disagreement(std::span<const Series> all, size_t reader, const Thresholds& thresholds) {
  constexpr double kFar = 3;
  const double distance = half_point(measured(all.front(), reader, kFirst, thresholds));
  double sum = 0;
  for (const Series& series : all.subspan(1)) {
    const double half = half_point(measured(series, reader, kFirst, thresholds));
    const double off = half > 0 && distance > 0 ? std::min(std::abs(std::log(half / distance)), kFar) : kFar;
    sum += off * off;
  }
  return sum;
}

double between(const Ranged<double>& range, int step, int steps) {
  return range.low * std::pow(range.high / range.low, static_cast<double>(step) / steps);
}

}  // namespace

std::vector<Measured> measured(const Series& series, size_t reader, Half half, const Thresholds& thresholds) {
  std::vector<Measured> points;
  for (size_t i = 0; i < series.cause.levels.size(); ++i)
    points.push_back({delivered(series.cause.levels[i].setting, thresholds), series.score[reader][i].half.at(half)});
  return points;
}

std::vector<Row> rows_of(std::span<const Series> all, size_t reader, Half half, const Thresholds& thresholds) {
  constexpr int kDraws = 400;
  constexpr uint64_t kSeed = 20261126;
  std::mt19937_64 random{kSeed};
  const std::vector<Measured> distance = measured(all.front(), reader, half, thresholds);
  const double against = half_point(distance);
  std::vector<Row> rows;
  for (const Series& series : all) {
    const std::vector<Measured> points = measured(series, reader, half, thresholds);
    std::vector<double> halves, ratios;
    for (int draw = 0; draw < kDraws; ++draw) {
      halves.push_back(drawn_half_point(points, random));
      ratios.push_back(halves.back() / drawn_half_point(distance, random));
    }
    const double found = half_point(points);
    rows.push_back({series.cause.name, interval(halves, found), interval(ratios, found / against)});
  }
  rows.front().ratio = Ranged<double>::exact(1);
  return rows;
}

Thresholds fitted_thresholds(std::span<const Series> all, size_t reader, const ThresholdBounds& bounds) {
  constexpr int kSteps = 30;
  Thresholds best;
  double least = std::numeric_limits<double>::infinity();
  for (int i = 0; i <= kSteps; ++i)
    for (int j = 0; j <= kSteps; ++j) {
      const Thresholds tried{between(bounds.contrast, i, kSteps), between(bounds.noise, j, kSteps)};
      const double off = disagreement(all, reader, tried);
      if (off < least) {
        least = off;
        best = tried;
      }
    }
  return best;
}

}  // namespace sightfall::reading
