// SPDX-License-Identifier: GPL-3.0-or-later
#include "statistics.h"

#include <algorithm>
#include <cmath>

namespace sightfall::reading {
namespace {

double logistic(double t) { return 1 / (1 + std::exp(-t)); }

/// Middle and steepness of a logistic in ln(detail).
struct Curve {
  double middle = 0, steepness = 0;
};

/// Newton's method on the likelihood, held back by a weak prior on the steepness where every point is all or nothing.
Curve fitted(std::span<const Measured> points) {
  constexpr double kUsual = 8, kSpread = 8;  // of the steepness
  constexpr int kSteps = 60;
  double offset = 0, steepness = kUsual, mean = 0;
  for (const Measured& p : points) mean += std::log(std::max(p.detail, kLeastDetail));
  mean /= static_cast<double>(points.size());
  for (int step = 0; step < kSteps; ++step) {
    double g0 = 0, g1 = (kUsual - steepness) / (kSpread * kSpread), h00 = 1e-9, h01 = 0, h11 = 1 / (kSpread * kSpread);
    for (const Measured& p : points) {
      const double x = std::log(std::max(p.detail, kLeastDetail)) - mean;
      const double share = logistic(offset + steepness * x), weight = p.tally.shown * share * (1 - share);
      const double left = p.tally.hits - p.tally.shown * share;
      g0 += left, g1 += left * x;
      h00 += weight, h01 += weight * x, h11 += weight * x * x;
    }
    const double det = h00 * h11 - h01 * h01;
    const auto held = [](double change) { return std::clamp(change, -2.0, 2.0); };
    offset += held((h11 * g0 - h01 * g1) / det);
    steepness = std::max(steepness + held((h00 * g1 - h01 * g0) / det), 0.1);
  }
  return {std::exp(mean - offset / steepness), steepness};
}

}  // namespace

Ranged<double> wilson(const Tally& tally) {
  constexpr double kDeviations = 1.6449;  // 90 %
  const double n = std::max(tally.shown, 1), p = tally.share(), z2 = kDeviations * kDeviations / n;
  const double middle = (p + z2 / 2) / (1 + z2), half = std::sqrt(z2 * (p * (1 - p) + z2 / 4)) / (1 + z2);
  return {std::max(0.0, middle - half), p, std::min(1.0, middle + half)};
}

double half_point(std::span<const Measured> points) {
  const bool without_detail = std::any_of(points.begin(), points.end(), [](const Measured& p) {
    return p.detail <= kLeastDetail && 2 * p.tally.hits >= p.tally.shown;
  });
  return without_detail ? 0 : fitted(points).middle;
}

double drawn_half_point(std::span<const Measured> points, std::mt19937_64& random) {
  std::vector<Measured> drawn{points.begin(), points.end()};
  for (Measured& p : drawn) p.tally.hits = std::binomial_distribution<int>{p.tally.shown, p.tally.share()}(random);
  return half_point(drawn);
}

Ranged<double> interval(std::vector<double> values, double nominal) {
  std::sort(values.begin(), values.end());
  const auto at = [&](double share) {
    return values[static_cast<size_t>(share * static_cast<double>(values.size() - 1))];
  };
  return {std::min(at(0.05), nominal), nominal, std::max(at(0.95), nominal)};
}

}  // namespace sightfall::reading
