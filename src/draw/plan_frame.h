// SPDX-License-Identifier: GPL-3.0-or-later
// How the plan lies on the page: north up, one scale, a frame with a margin and a strip for the words below it.
#pragma once
#include <functional>
#include <vector>

#include "draw/canvas.h"
#include "geom/polygon.h"
#include "need/map.h"

namespace sightfall::draw {

struct PlanFrame {
  PageSize page;
  PagePoint low, high;         ///< the frame on the page, top left and bottom right
  geom::PlanPoint south_west;  ///< on the plan, at the frame's bottom left
  double per_metre = 1;        ///< page units

  PagePoint to_page(geom::PlanPoint p) const {
    return {low.x + per_metre * (p.x - south_west.x), high.y - per_metre * (p.y - south_west.y)};
  }
  geom::PlanPoint to_plan(PagePoint p) const {
    return {south_west.x + (p.x - low.x) / per_metre, south_west.y + (high.y - p.y) / per_metre};
  }
  Shape to_page(const Shape& shape) const;
  Shape shape() const { return rectangle(low, high); }
  bool holds(PagePoint p) const { return p.x >= low.x && p.y >= low.y && p.x <= high.x && p.y <= high.y; }
};

/// Says of points of the page whether one of the outlines on the plan holds them.
std::function<bool(PagePoint)> held_by(const std::vector<geom::Outline>& outlines, const PlanFrame& frame);

/// A direction of the plan as it runs on the page, where y grows downwards.
inline PagePoint on_page(geom::PlanPoint direction) { return {direction.x, -direction.y}; }

/// The frame that shows exactly the detail map.
PlanFrame frame_around(const need::DetailMap& map);

/// The largest of 1, 2, 5, 10 ... that is not above the value.
double round_down_125(double value);

/// The frame's lines, with the site's metres along its edges and a fine cross where they meet.
void draw_frame(Canvas& canvas, const PlanFrame& frame);
Shape grid_crosses(const PlanFrame& frame);
void draw_grid_crosses(Canvas& canvas, const PlanFrame& frame);

}  // namespace sightfall::draw
