// SPDX-License-Identifier: GPL-3.0-or-later
// How a camera is aimed by one person alone: where it hangs, which way it looks, and two points of the site with where
// each must stand in its picture.
//   Model    corners of what stands on the site (buildings, roofs, walls, posts, tree trunks, lamps) that
//            the camera shows without anything in between, winter's leaves off, where no mask lies and where a metre
//            takes kPlain of the picture's width or more; of all pairs the one that lies widest apart in the picture,
//            for the farther apart they are the less a small mistake turns the picture. Where the widest pair is less
//            than kUsefulApart, something is set down on the ground, within the boundary, in place of one or of both.
//            A camera that looks down (kLooksDown) has the plumb's foot and the nearest landmark that lies
//            kUsefulApart from it, at most kHeadingReach away, or else something set down straight ahead
//   Limits   what moves (vehicles) is no mark. Points of the picture are shares of its width from the left and of its
//            height from the top. Our own choice of limits: no published source
//   Checked  aim_test.cpp
#pragma once
#include <numbers>
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
  bool set_down = false;       ///< nothing is there: who aims sets it down
};

inline constexpr double kUsefulApart = 0.2;               ///< of the picture's width
inline constexpr double kPlain = 0.01;                    ///< of the picture's width
inline constexpr Angle kLooksDown{std::numbers::pi / 3};  ///< of tilt
inline constexpr Length kHeadingReach{15};
inline constexpr const char* kSetDown = "the foot of something upright set down there";
inline constexpr const char* kPlumb = "the ground straight under the lens, by a plumb line";

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
  std::vector<AimPoint> points;      ///< two, one or none; the left one first, the plumb's foot before all
};

inline constexpr Length kCornerReach{20};

/// Of every camera of a valid project, in their order.
std::vector<Aim> aims_of(const Project& project);

}  // namespace sightfall::need
