// SPDX-License-Identifier: GPL-3.0-or-later
// How a camera is aimed by one person alone: where it hangs, which way it looks, and two points of the site with where
// each must stand in its picture.
//   Model    corners of what stands on the site (buildings, roofs, walls, posts, tree trunks, lamps) that
//            the camera shows without anything in between, winter's leaves off; of all pairs the one that lies widest
//            apart in the picture, for the farther apart they are the less a small mistake turns the picture
//   Limits   what moves (vehicles) is no mark. Points of the picture are shares of its width from the left and of its
//            height from the top
//   Checked  aim_test.cpp
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "geom/vec.h"
#include "need/project.h"

namespace sightfall::need {

struct AimPoint {
  std::string name;  ///< such as `shop, south-east corner, top`
  geom::SitePoint at;
  Length distance;             ///< on the plan, from the mount
  Angle heading;               ///< from the mount, clockwise from the site's north
  double right = 0, down = 0;  ///< in the picture
};

/// A corner of what stands on the site, from which a mount's place is measured.
struct CornerNear {
  std::string name;
  Length distance;  ///< on the plan
};

struct Aim {
  std::string camera, mount;
  geom::SitePoint eye;
  Length height;  ///< of the lens above the ground under it
  Angle heading, tilt, roll;
  Length focal;
  Angle view;                        ///< horizontal, at that focal length
  std::optional<CornerNear> corner;  ///< the nearest of a building, a roof or a wall's end, at most kCornerReach away
  std::vector<AimPoint> points;      ///< two, one or none; the left one first
};

inline constexpr Length kCornerReach{20};

/// Of every camera of a valid project, in their order.
std::vector<Aim> aims_of(const Project& project);

}  // namespace sightfall::need
