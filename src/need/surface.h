// SPDX-License-Identifier: GPL-3.0-or-later
// Delivered detail at points over the ground, by the best camera: what maps and ways are made of.
//   Model    a subject 1.6 m above ground (a face) or half a person's height (a person), turned to the camera, still
#pragma once
#include <vector>

#include "base/progress.h"
#include "need/frame.h"
#include "need/need.h"

namespace sightfall::need {

/// Delivered detail, px/m, one for each plan point; 0 where no camera sees it. Stopped work leaves zeros.
std::vector<float> delivered_on(const LitStations& lit, const std::vector<geom::PlanPoint>& points, Subject subject,
                                const Progress& progress);

}  // namespace sightfall::need
