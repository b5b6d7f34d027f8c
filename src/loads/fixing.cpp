// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/fixing.h"

#include <cmath>

namespace sightfall::loads {
namespace {

constexpr Length kInch{0.0254};
constexpr Force kPound{4.4482216152605};

bool is_screw(const site::Fixing& fixing) {
  return fixing.kind == site::FixingKind::kWoodScrew || fixing.kind == site::FixingKind::kLagScrew;
}

Force screw_allowable(site::FixingKind kind, double gravity, Length diameter, Length depth) {
  return kind == site::FixingKind::kWoodScrew ? wood_screw_allowable(gravity, diameter, depth)
                                              : lag_screw_allowable(gravity, diameter, depth);
}

}  // namespace

Force wood_screw_allowable(double gravity, Length diameter, Length depth) {
  return 2850 * gravity * gravity * (diameter / kInch) * (depth / kInch) * kPound;
}

Force lag_screw_allowable(double gravity, Length diameter, Length depth) {
  return 1800 * std::pow(gravity, 1.5) * std::pow(diameter / kInch, 0.75) * (depth / kInch) * kPound;
}

std::optional<Ranged<Force>> allowable(const site::Fixing& fixing, const Ranged<double>& gravity) {
  if (fixing.allowable) return Ranged<Force>::exact(*fixing.allowable);
  if (!is_screw(fixing) || !fixing.diameter || !fixing.depth) return std::nullopt;
  const auto in = [&](double g) { return screw_allowable(fixing.kind, g, *fixing.diameter, *fixing.depth); };
  if (fixing.gravity) return Ranged<Force>::exact(in(*fixing.gravity));
  return Ranged<Force>{in(gravity.low), in(gravity.nominal), in(gravity.high)};
}

std::optional<Length> depth_for(const site::Fixing& fixing, double gravity, Force pull) {
  if (!is_screw(fixing) || !fixing.diameter) return std::nullopt;
  const Length unit{1e-3};
  return pull / screw_allowable(fixing.kind, fixing.gravity.value_or(gravity), *fixing.diameter, unit) * unit;
}

}  // namespace sightfall::loads
