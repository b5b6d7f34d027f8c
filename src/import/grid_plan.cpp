// SPDX-License-Identifier: GPL-3.0-or-later
#include "import/grid_plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace sightfall::import {
using namespace sightfall::units;
namespace {

/// In cells: a point this little outside the outermost centres takes their height. A map's scale and its north change
/// over its width, so that a grid along a raster of some kilometres strays from it by about this much.
constexpr double kOnEdge = 0.02;

/// From the raster's middle to the next cell in the row and in the column, in the site frame.
struct Steps {
  geom::Vec2 column, row;
};

Steps steps_in_the_middle(const RasterFile& raster, const MapFrame& frame) {
  const geom::PlanPoint middle = raster.middle();
  std::array<geom::PlanPoint, 3> p{raster.map_of_cell(middle), raster.map_of_cell(middle + geom::Vec2{1, 0}),
                                   raster.map_of_cell(middle + geom::Vec2{0, 1})};
  frame.to_site(p);
  return {p[1] - p[0], p[2] - p[0]};
}

/// The box in the site frame around the places that `within` takes; empty when one of them has no place there.
geom::Box2 raster_box(const RasterFile& raster, const MapFrame& frame, double margin) {
  constexpr int kPieces = 64;
  std::vector<geom::PlanPoint> edge;
  const geom::PlanPoint first{margin, margin};
  const geom::PlanPoint last{raster.columns() - 1 - margin, raster.rows() - 1 - margin};
  for (int i = 0; i <= kPieces; ++i) {
    const geom::PlanPoint p = first + (static_cast<double>(i) / kPieces) * (last - first);
    for (const geom::PlanPoint cell : {geom::PlanPoint{p.x, first.y}, geom::PlanPoint{p.x, last.y},
                                       geom::PlanPoint{first.x, p.y}, geom::PlanPoint{last.x, p.y}})
      edge.push_back(raster.map_of_cell(cell));
  }
  frame.to_site(edge);
  geom::Box2 box;
  for (const geom::PlanPoint p : edge) {
    if (std::isnan(p.x)) return {};
    box.include(p);
  }
  return box;
}

bool within_reach(const geom::Box2& box) {
  if (box.empty()) return false;
  const double most = kMostReach.si();
  return box.low.x >= -most && box.low.y >= -most && box.high.x <= most && box.high.y <= most;
}

std::optional<Error> size_error(double columns, double rows, Length step) {
  if (columns * rows <= static_cast<double>(kMostTerrainPoints)) return std::nullopt;
  const double coarser = step.in(m)*std::sqrt(columns * rows / static_cast<double>(kMostTerrainPoints));
  return Error{ErrorKind::kTooLarge,
               fmt::format("{:.0f} x {:.0f} points at a step of {} m; at most {} points are taken: ask for a smaller "
                           "distance (--within METRES) or a step of about {:.2g} m (--step METRES)",
                           columns, rows, step.in(m), kMostTerrainPoints, coarser),
               {}};
}

/// How many cells a side are averaged for one point.
int cells_in(Length step, Length cell, const RasterFile& raster) {
  constexpr double kNearly = 0.01;  // a step of 1.99 cells takes two
  const double most = std::min(raster.columns(), raster.rows());
  return static_cast<int>(std::clamp(step / cell + kNearly, 1.0, most));
}

Result<GridPlan> square(Length step, Length half_side, int averaged) {
  const double count = std::floor(half_side / step + kOnEdge);
  if (count < 1)
    return failure(ErrorKind::kRequest,
                   fmt::format("a step of {} m is longer than the distance {} m", step.in(m), half_side.in(m)));
  if (const auto error = size_error(2 * count + 1, 2 * count + 1, step)) return tl::make_unexpected(*error);
  GridPlan plan;
  plan.averaged = averaged;
  plan.south_west = {-count * step.si(), -count * step.si()};
  plan.step = step;
  plan.columns = plan.rows = 2 * static_cast<int>(count) + 1;
  return plan;
}

Result<GridPlan> around_raster(const RasterFile& raster, const MapFrame& frame, Length step, int averaged) {
  GridPlan plan;
  plan.averaged = averaged;
  const geom::Box2 box = raster_box(raster, frame, plan.margin());
  if (!within_reach(box))
    return failure(ErrorKind::kRequest,
                   fmt::format("the raster reaches farther than {:.0f} m from the site's origin: ask for a part of it "
                               "(--within METRES), or check the site's anchor",
                               kMostReach.in(m)));
  const auto count = [&](double span) { return std::floor(span / step.si() + 2 * kOnEdge) + 1; };
  const double columns = count(box.high.x - box.low.x), rows = count(box.high.y - box.low.y);
  if (const auto error = size_error(columns, rows, step)) return tl::make_unexpected(*error);
  plan.south_west = box.centre() - (step.si() / 2) * geom::Vec2{columns - 1, rows - 1};
  plan.step = step;
  plan.columns = static_cast<int>(columns);
  plan.rows = static_cast<int>(rows);
  return plan;
}

Result<void> find_cells(const RasterFile& raster, const MapFrame& frame, const Progress& progress, GridPlan& plan) {
  const auto columns = static_cast<size_t>(plan.columns);
  plan.cells.resize(columns * static_cast<size_t>(plan.rows));
  for (int row = 0; row < plan.rows; ++row) {
    if (progress.stopped()) return failure(ErrorKind::kRequest, kStopped);
    progress.tell(static_cast<double>(row) / plan.rows, "laying out the grid");
    const std::span<geom::PlanPoint> line{plan.cells.data() + static_cast<size_t>(row) * columns, columns};
    for (size_t column = 0; column < columns; ++column)
      line[column] = {plan.south_west.x + static_cast<double>(column) * plan.step.si(),
                      plan.south_west.y + row * plan.step.si()};
    frame.to_map(line);
    for (geom::PlanPoint& p : line) p = raster.cell_of_map(p);
  }
  return {};
}

GridPlan cut(const GridPlan& plan, const Block& block) {
  GridPlan result;
  result.south_west = {plan.south_west.x + block.column * plan.step.si(),
                       plan.south_west.y + block.row * plan.step.si()};
  result.step = plan.step;
  result.averaged = plan.averaged;
  result.columns = block.columns;
  result.rows = block.rows;
  for (int row = block.row; row < block.row + block.rows; ++row) {
    const auto first = plan.cells.begin() + static_cast<std::ptrdiff_t>(row) * plan.columns + block.column;
    result.cells.insert(result.cells.end(), first, first + block.columns);
  }
  return result;
}

}  // namespace

Block largest_block(const std::vector<bool>& set, int columns) {
  Block best;
  std::vector<int> depth(static_cast<size_t>(columns) + 1, 0);  // set cells up to this row; the last stays 0
  for (size_t first = 0, row = 0; first < set.size(); first += static_cast<size_t>(columns), ++row) {
    std::vector<int> rising;  // columns whose depths rise: each a rectangle that may still grow to the right
    for (int column = 0; column <= columns; ++column) {
      const auto at = static_cast<size_t>(column);
      if (column < columns) depth[at] = set[first + at] ? depth[at] + 1 : 0;
      while (!rising.empty() && depth[static_cast<size_t>(rising.back())] >= depth[at]) {
        const int rows = depth[static_cast<size_t>(rising.back())];
        rising.pop_back();
        const int left = rising.empty() ? 0 : rising.back() + 1;
        const auto size = static_cast<int64_t>(rows) * (column - left);
        if (size > static_cast<int64_t>(best.columns) * best.rows)
          best = {left, static_cast<int>(row) - rows + 1, column - left, rows};
      }
      rising.push_back(column);
    }
  }
  return best;
}

bool within(const RasterFile& raster, geom::PlanPoint cell, double margin) {
  const double least = margin - kOnEdge;
  return cell.x >= least && cell.y >= least && cell.x <= raster.columns() - 1 - least &&
         cell.y <= raster.rows() - 1 - least;
}

Length cell_size(const RasterFile& raster, const MapFrame& frame) {
  const Steps steps = steps_in_the_middle(raster, frame);
  return std::min(norm(steps.column), norm(steps.row)) * m;
}

Angle turn_along(const RasterFile& raster, const MapFrame& north_up) {
  const Steps steps = steps_in_the_middle(raster, north_up);
  const Angle turn = std::round(std::atan2(steps.column.y, steps.column.x) / deg.si() * 1e6) / 1e6 * deg;
  return turn <= kMostTurn && turn >= -kMostTurn ? turn : Angle{};
}

Result<GridPlan> plan_grid(const RasterFile& raster, const MapFrame& frame, const TerrainOptions& options,
                           const Progress& progress) {
  const Length own = cell_size(raster, frame);
  if (!(own.si() > 0)) return failure(ErrorKind::kRequest, "the raster lies nowhere near the site's anchor");
  const auto to_micrometre = [](Length length) { return std::round(length.in(um)) * um; };
  const Length step = options.step.value_or(to_micrometre(own));
  const int averaged = cells_in(step, own, raster);
  Result<GridPlan> plan = options.most_distance ? square(step, *options.most_distance, averaged)
                                                : around_raster(raster, frame, step, averaged);
  if (!plan) return plan;
  if (const Result<void> found = find_cells(raster, frame, progress, *plan); !found)
    return tl::make_unexpected(found.error());
  if (options.most_distance) return plan;
  std::vector<bool> inside(plan->cells.size());
  for (size_t i = 0; i < inside.size(); ++i) inside[i] = within(raster, plan->cells[i], plan->margin());
  const Block block = largest_block(inside, plan->columns);
  if (block.columns < 2 || block.rows < 2)
    return failure(ErrorKind::kRequest, fmt::format("a step of {} m leaves less than 2 x 2 points", step.in(m)));
  return cut(*plan, block);
}

}  // namespace sightfall::import
