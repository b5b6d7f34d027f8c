// SPDX-License-Identifier: GPL-3.0-or-later
// A small invented yard for tests: its detail is computed here by pencil rules (so many px/m at one metre, falling with
// distance, nothing outside a camera's angle or behind a wall), so that pictures can be held against it.
#pragma once
#include "draw/plan_map.h"

namespace sightfall::draw {

struct Eye {
  geom::PlanPoint at;
  double heading_deg = 0, view_deg = 0, at_one_metre = 0;  ///< px/m
};

/// What one camera delivers at a point: walls stop it, and so does a veil that passes less than a fifth.
double detail_from(const Eye& eye, geom::PlanPoint p, const site::Site& site);

struct Yard {
  need::Project project;
  need::DetailMap map;
  need::Verdict verdict;
  std::vector<std::string> burning;

  PlanMap plan() const {
    return {&project, &map, &verdict, verdict.required, burning, verdict.need, "face, recognise, at the gate"};
  }
};

/// The yard with its gate, judged as missed at 125 px/m. `columns` sets how fine the map is.
Yard made_yard(int columns = 300);

}  // namespace sightfall::draw
