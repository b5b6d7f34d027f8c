// SPDX-License-Identifier: GPL-3.0-or-later
// Delivered detail over the plan: a face 1.6 m above ground, turned to the camera, by the best camera at each point.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/progress.h"
#include "geom/polygon.h"
#include "need/check.h"
#include "need/project.h"

namespace sightfall::need {

/// A grid of plan points, row 0 in the south; value(c, r) belongs to the point south_west + (c, r) * step.
struct DetailMap {
  std::string place;  ///< the place it was made for
  std::string condition;
  geom::PlanPoint south_west;
  Length step;
  int columns = 0, rows = 0;
  std::vector<float> delivered;  ///< px/m, 0 where no camera sees the point

  float at(int column, int row) const {
    return delivered[static_cast<size_t>(row) * static_cast<size_t>(columns) + static_cast<size_t>(column)];
  }
};

/// The map of a window of the plan.
DetailMap detail_map(const Project& project, const geom::Box2& window, const site::Condition& condition, int cells,
                     const Progress& progress = {});

/// What a reader wants to see with a place: it, the cameras near it and a margin.
geom::Box2 window_of(const Project& project, const site::Place& place);

/// The map around one place: it and the cameras that see it, with a margin. `cells` is about the number of grid points.
DetailMap detail_map(const Project& project, const std::string& place, const std::string& condition, int cells = 60000,
                     const Progress& progress = {});

}  // namespace sightfall::need
