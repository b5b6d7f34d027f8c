// SPDX-License-Identifier: GPL-3.0-or-later
#include "geom/pose.h"

#include <array>
#include <cmath>
#include <numbers>

namespace sightfall::geom {
namespace {
constexpr double kTurn = 2 * std::numbers::pi;
}

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
  const double turned = angle < 0 ? angle + kTurn : angle;
  return Angle{turned < kTurn ? turned : 0};  // a hair west of north rounds to a whole turn
}

std::string_view compass_side(PlanPoint direction) {
  constexpr std::array<std::string_view, 8> kSides{"north", "north-east", "east", "south-east",
                                                   "south", "south-west", "west", "north-west"};
  constexpr double kEighth = std::numbers::pi / 4;
  return kSides[static_cast<size_t>(std::lround(heading_of(direction).si() / kEighth)) % kSides.size()];
}

Angle smallest_turn(Angle angle) {
  const double turned = angle.si() - kTurn * std::floor((angle.si() + std::numbers::pi) / kTurn);
  // Rounding can leave the result a hair outside its range at either end.
  return Angle{turned < -std::numbers::pi || turned >= std::numbers::pi ? -std::numbers::pi : turned};
}

}  // namespace sightfall::geom
