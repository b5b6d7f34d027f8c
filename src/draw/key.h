// SPDX-License-Identifier: GPL-3.0-or-later
// The key: each sign that the picture uses, once, with its name.
#pragma once
#include <string>
#include <vector>

#include "draw/canvas.h"
#include "draw/plan_map.h"

namespace sightfall::draw {

/// The names in the key, in the order drawn.
std::vector<std::string> key_names(const PlanMap& plan);

void draw_key(Canvas& canvas, const PlanMap& plan, PagePoint top_left);

}  // namespace sightfall::draw
