// SPDX-License-Identifier: GPL-3.0-or-later
// Where a camera is and which way it looks.
//   Frames   site: x east, y north, z up. Camera: x right, y down, z along the axis.
//   Angles   heading clockwise from north, tilt downwards from the horizon, roll clockwise as seen in the picture's
//            direction of view
//   Checked  pose_test.cpp: cardinal directions, round trips, orthonormality
#pragma once
#include <string_view>

#include "geom/vec.h"
#include "unit/quantity.h"

namespace sightfall::geom {

struct Pose {
  SitePoint eye_site;
  Mat3 camera_from_site;
};

/// The pose of a camera at eye_site. Any finite angles are allowed.
Pose pose_of(SitePoint eye_site, Angle heading, Angle tilt, Angle roll);

/// The horizontal unit vector of a heading clockwise from north.
PlanPoint heading_vector(Angle heading);

/// The heading, clockwise from north in [0, 360) degrees, of a horizontal direction.
Angle heading_of(PlanPoint direction);

/// The nearest of eight names of a direction, such as `south-east`.
std::string_view compass_side(PlanPoint direction);

/// Turns angles into the smallest equal turn, in [-180, 180) degrees.
Angle smallest_turn(Angle angle);

}  // namespace sightfall::geom
