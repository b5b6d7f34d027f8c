// SPDX-License-Identifier: GPL-3.0-or-later
// The lamps of the site on a plan: where their signs lie, and which of them burn.
//   Model    a sign that would lie over a mount's with its cameras' headings, over the worst place or over another
//            lamp's stands beside it, with a line to its place
//   Checked  plan_lamps_test.cpp: places by pencil, none over another, words and key
#pragma once
#include <string>
#include <vector>

#include "draw/plan_frame.h"
#include "draw/plan_map.h"
#include "draw/plan_signs.h"

namespace sightfall::draw {

struct PlanLamp {
  std::string name;
  PagePoint place;  ///< where it hangs
  PagePoint at;     ///< of its sign
  PagePoint along;  ///< its axis seen from above, of length one when it is level and zero when straight down
  bool burning = false;
};

/// The lamps on the picture, in the document's order.
std::vector<PlanLamp> lamps_on(const PlanMap& plan, const PlanFrame& frame);

/// The same, where other signs have taken their places.
std::vector<PlanLamp> lamps_beside(SignRoom& room, const PlanMap& plan, const PlanFrame& frame);

/// Each with a line to where it hangs when its sign stands beside.
void draw_lamps(Canvas& canvas, const std::vector<PlanLamp>& lamps);

}  // namespace sightfall::draw
