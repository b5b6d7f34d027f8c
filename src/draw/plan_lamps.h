// SPDX-License-Identifier: GPL-3.0-or-later
// The lamps of the site on a plan: where their signs lie, and which of them burn.
//   Model    a sign that would lie over a mount's with its cameras' headings, over the worst place or over another
//            lamp's is moved beside it: at the scale of a plan what hangs on one post shares a spot
//   Checked  plan_lamps_test.cpp: places by pencil, none over another, words and key
#pragma once
#include <string>
#include <vector>

#include "draw/plan_frame.h"
#include "draw/plan_map.h"

namespace sightfall::draw {

struct PlanLamp {
  std::string name;
  PagePoint at;     ///< of its sign
  PagePoint along;  ///< its axis seen from above, of length one when it is level and zero when straight down
  bool burning = false;
};

/// The lamps on the picture, in the document's order.
std::vector<PlanLamp> lamps_on(const PlanMap& plan, const PlanFrame& frame);

void draw_lamps(Canvas& canvas, const std::vector<PlanLamp>& lamps);

}  // namespace sightfall::draw
