// SPDX-License-Identifier: GPL-3.0-or-later
// The site in ink: what stands on it, what hides, where the cameras hang.
#pragma once
#include <cstddef>
#include <functional>

#include "draw/plan_frame.h"
#include "need/project.h"

namespace sightfall::draw {

/// Everything that lies on the ground or stands on it; `open` says which solids are drawn without their top.
void draw_site(Canvas& canvas, const PlanFrame& frame, const site::Site& site,
               const std::function<bool(size_t solid)>& open);
/// Mounts with the headings of their cameras.
void draw_mounts(Canvas& canvas, const PlanFrame& frame, const need::Project& project);
void draw_place(Canvas& canvas, const PlanFrame& frame, const site::Place& place);

/// Height between two lines of the ground, by its relief.
Length ground_interval(const site::Terrain& terrain);

}  // namespace sightfall::draw
