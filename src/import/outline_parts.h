// SPDX-License-Identifier: GPL-3.0-or-later
// The parts of one building's outline made into simple polygons that do not touch.
//   Library  GEOS, through GDAL, only in outline_parts.cpp
//   Checked  outline_parts_test.cpp: areas by pencil for touching, overlapping, crossing and nested parts
#pragma once
#include <string>
#include <vector>

#include "geom/polygon.h"

namespace sightfall::import {

struct Joined {
  std::vector<geom::Outline> outlines;  ///< without flaw, apart from each other
  std::string repaired;                 ///< what was wrong before the repair; empty when nothing was
  std::string dropped;                  ///< why nothing is left; empty when something is
};

/// Corners are rounded to 1 mm first. Parts that touch or overlap become one; crossings are repaired so that every
/// enclosed area counts; slivers and holes under kLeastArea are left out.
Joined joined(std::vector<geom::Outline> parts);

}  // namespace sightfall::import
