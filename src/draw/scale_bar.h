// SPDX-License-Identifier: GPL-3.0-or-later
// Which way is north on a plan, and how long a metre is.
//   Checked  plan_map_test.cpp
#pragma once
#include <string>

#include "draw/canvas.h"
#include "draw/plan_frame.h"

namespace sightfall::draw {

/// An arrow to true north; `turn` clockwise from the page's upward direction, which is the plan's north, from which
/// headings are told: where the two differ both are named.
void draw_north(Canvas& canvas, PagePoint middle, Angle turn);

/// A bar of four parts, filled in turn, in a unit of so many metres.
void draw_scale_bar(Canvas& canvas, const PlanFrame& frame, PagePoint left, Length unit, const std::string& name);

}  // namespace sightfall::draw
