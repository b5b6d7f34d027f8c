// SPDX-License-Identifier: GPL-3.0-or-later
// Where everything of a plan picture lies, before a pen is lifted.
//   Checked  plan_map_test.cpp: no label over another, hatching only where the need is missed
#pragma once
#include <vector>

#include "draw/contour_lines.h"
#include "draw/detail_field.h"
#include "draw/label.h"
#include "draw/plan_frame.h"
#include "draw/plan_lamps.h"
#include "draw/plan_map.h"

namespace sightfall::draw {

struct PlanLayout {
  PlanFrame frame;
  std::vector<ContourLine> contours;
  std::vector<PlanLamp> lamps;
  std::vector<PlacedLabel> labels;
  Shape missed;  ///< the strokes of the hatching
};

PlanLayout laid_out(const PlanMap& plan, const DetailField& field);

/// Page units of a line that words keep off where they can.
inline constexpr double kCrowdedLine = 4;

/// Words keep off the lines of the site where they can.
void crowd_site(LabelRoom& room, const site::Site& site, const PlanFrame& frame);

/// The place that the map was made for, or null.
const site::Place* place_of(const PlanMap& plan);

/// The worst place of a verdict that has one, in a few words, such as `worst: 61 px/m, pixels`.
std::string worst_note(const need::Verdict& verdict);

}  // namespace sightfall::draw
