// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/conduit.h"

#include <cmath>
#include <numeric>

#include "base/check.h"

namespace sightfall::loads {
namespace {

/// The circles' areas without the common factor.
Area squares(const std::vector<Length>& outer) {
  return std::accumulate(outer.begin(), outer.end(), Area{0}, [](Area sum, Length one) { return sum + one * one; });
}

}  // namespace

Angle bends(const std::vector<geom::PlanPoint>& line) {
  Angle sum{0};
  for (size_t i = 2; i < line.size(); ++i) {
    const geom::PlanPoint before = line[i - 1] - line[i - 2], after = line[i] - line[i - 1];
    sum = sum + Angle{std::abs(std::atan2(cross(before, after), dot(before, after)))};
  }
  return sum;
}

double most_fill(int cables) {
  CHECK_GT(cables, 0);
  if (cables == 1) return 0.53;
  return cables == 2 ? 0.31 : 0.40;
}

Ranged<double> fill(const std::vector<Length>& outer, Length bore) {
  const double nominal = squares(outer) / (bore * bore);
  const auto with = [&](double tolerance) { return nominal * tolerance * tolerance; };
  return {with(kOuterTolerance.low), with(kOuterTolerance.nominal), with(kOuterTolerance.high)};
}

Length bore_for(const std::vector<Length>& outer) {
  const double share = most_fill(static_cast<int>(outer.size()));
  return Length{std::sqrt(squares(outer).si() / share) * kOuterTolerance.high};
}

}  // namespace sightfall::loads
