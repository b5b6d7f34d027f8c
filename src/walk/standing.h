// SPDX-License-Identifier: GPL-3.0-or-later
// Somebody who stands still before a camera: where, and the short way that a walk needs.
//   Checked  standing_test.cpp
#pragma once
#include "need/project.h"
#include "site/scene.h"

namespace sightfall::walk {

/// Where the middle of the camera's picture meets the site, a step before it, at most 25 m away.
geom::PlanPoint middle_of_picture(const need::Project& project, const camera::Camera& camera, const site::Scene& scene);

/// A short way towards the mount, right under it to the north, which is at the place in the middle of its first step.
site::Place way_towards(geom::PlanPoint mount, geom::PlanPoint at);

}  // namespace sightfall::walk
