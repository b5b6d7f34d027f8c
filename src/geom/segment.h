// SPDX-License-Identifier: GPL-3.0-or-later
// A straight piece of a line on the plan: what of it is nearest, and what of it lies within a box.
//   In/Out   metres; shares run from 0 at its beginning to 1 at its end; both ends may be one point
//   Checked  segment_test.cpp
#pragma once
#include <optional>
#include <utility>

#include "geom/polygon.h"

namespace sightfall::geom {

/// The point of the segment that is nearest to `p`.
PlanPoint nearest_on_segment(PlanPoint p, PlanPoint from, PlanPoint to);

/// Metres from `p` to the segment.
double distance_to_segment(PlanPoint p, PlanPoint from, PlanPoint to);

/// The shares between which the segment is in the box, its edges included; nothing when it passes by.
std::optional<std::pair<double, double>> part_within(PlanPoint from, PlanPoint to, const Box2& box);

}  // namespace sightfall::geom
