// SPDX-License-Identifier: GPL-3.0-or-later
// The site in ink: what stands on it, what hides, where the cameras hang.
#pragma once
#include "draw/detail_field.h"
#include "draw/plan_frame.h"
#include "need/project.h"

namespace sightfall::draw {

/// Everything that lies on the ground or stands on it.
void draw_site(Canvas& canvas, const PlanFrame& frame, const site::Site& site, const DetailField& field);
/// Mounts with the headings of their cameras.
void draw_mounts(Canvas& canvas, const PlanFrame& frame, const need::Project& project);
void draw_place(Canvas& canvas, const PlanFrame& frame, const site::Place& place);

/// Height between two lines of the ground, by its relief.
Length ground_interval(const site::Terrain& terrain);

}  // namespace sightfall::draw
