// SPDX-License-Identifier: GPL-3.0-or-later
// Contours of delivered detail as they are drawn: on the page, with the figure written on the line.
//   Checked  plan_map_test.cpp: each line keeps to its value, is broken under its figure, figures are upright
#pragma once
#include <vector>

#include "draw/detail_field.h"
#include "draw/label.h"
#include "draw/plan_frame.h"
#include "draw/plan_map.h"

namespace sightfall::draw {

/// One line of equal detail; `parts` is what is left of it beside its figures.
struct ContourLine {
  PixelDensity density;
  bool required = false;
  std::vector<geom::Polyline> parts;
};

/// The densities at which contours are drawn, rising: the level table's and the one required.
std::vector<PixelDensity> contour_densities(const PlanMap& plan);

/// The lines on the page, with their figures placed in the room.
std::vector<ContourLine> contour_lines(const PlanMap& plan, const DetailField& field, const PlanFrame& frame,
                                       LabelRoom& room);

}  // namespace sightfall::draw
