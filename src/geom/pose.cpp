// SPDX-License-Identifier: GPL-3.0-or-later
#include "geom/pose.h"

#include <cmath>
#include <numbers>

namespace sightfall::geom {

Pose pose_of(SitePoint eye_site, Angle heading, Angle tilt, Angle roll) {
  const PlanPoint ahead = heading_vector(heading);
  const double ct = std::cos(tilt.si()), st = std::sin(tilt.si());
  const double cr = std::cos(roll.si()), sr = std::sin(roll.si());
  const Vec3 axis{ct * ahead.x, ct * ahead.y, -st};
  const Vec3 level_right{ahead.y, -ahead.x, 0};
  const Vec3 level_down = cross(axis, level_right);
  const Vec3 right = cr * level_right + sr * level_down;
  const Vec3 down = cr * level_down - sr * level_right;
  return {eye_site, {{right, down, axis}}};
}

PlanPoint heading_vector(Angle heading) { return {std::sin(heading.si()), std::cos(heading.si())}; }

Angle heading_of(PlanPoint direction) {
  const double angle = std::atan2(direction.x, direction.y);
  return Angle{angle < 0 ? angle + 2 * std::numbers::pi : angle};
}

Angle smallest_turn(Angle angle) {
  constexpr double kTurn = 2 * std::numbers::pi;
  return Angle{angle.si() - kTurn * std::floor((angle.si() + std::numbers::pi) / kTurn)};
}

}  // namespace sightfall::geom
