// SPDX-License-Identifier: GPL-3.0-or-later
// The strip under the plan: the need and its verdict in words, the scale of tones, the key, north and the scale bar.
#pragma once
#include <string>
#include <vector>

#include "draw/plan_frame.h"
#include "draw/plan_map.h"

namespace sightfall::draw {

inline constexpr double kStripHeight = 362;

void draw_strip(Canvas& canvas, const PlanFrame& frame, const PlanMap& plan);

/// The caption's paragraphs, in order: verdict and share, worst place, what the map shows.
std::vector<std::string> caption(const PlanMap& plan);

}  // namespace sightfall::draw
