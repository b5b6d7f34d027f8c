// SPDX-License-Identifier: GPL-3.0-or-later
// Parts of a picture that are blacked out.
//   Checked  mask_test.cpp
#pragma once
#include <vector>

#include "camera/camera.h"
#include "camera/projection.h"

namespace sightfall::camera {

/// Whether a mask covers that point of the projector's picture.
bool masked(const std::vector<Mask>& masks, const Projector& projector, geom::ImagePoint at);

}  // namespace sightfall::camera
