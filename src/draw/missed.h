// SPDX-License-Identifier: GPL-3.0-or-later
// The hatching that says where within its place a need is missed.
//   Checked  plan_map_test.cpp: every stroke lies in the place, on detail below the level; the area hatched
#pragma once
#include "draw/detail_field.h"
#include "draw/plan_frame.h"
#include "draw/plan_map.h"

namespace sightfall::draw {

/// Whether a point lies in a place; a line is at least as wide as twice `least_half_width`.
bool in_place(const site::Place& place, geom::PlanPoint p, Length least_half_width);

/// Strokes on the page, falling to the right at 45 degrees.
Shape missed_strokes(const PlanMap& plan, const DetailField& field, const PlanFrame& frame);

}  // namespace sightfall::draw
