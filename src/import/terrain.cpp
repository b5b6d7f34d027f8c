// SPDX-License-Identifier: GPL-3.0-or-later
#include "import/terrain.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "import/gdal_quiet.h"
#include "import/grid_plan.h"
#include "import/height_field.h"
#include "import/limits.h"
#include "import/map_frame.h"
#include "import/raster_file.h"

namespace sightfall::import {
using namespace sightfall::units;
namespace {

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

Result<void> sample_all(const RasterFile& raster, const GridPlan& plan, const HeightField& field,
                        const TerrainOptions& options, TerrainImport& done) {
  size_t beyond = 0, empty = 0;
  done.terrain.heights.reserve(plan.cells.size());
  for (const geom::PlanPoint cell : plan.cells) {
    const bool inside = within(raster, cell, plan.margin());
    const double height = inside ? sample(field, cell) : kNone;
    beyond += inside ? 0 : 1;
    empty += inside && std::isnan(height) ? 1 : 0;
    done.terrain.heights.push_back(std::isnan(height) ? options.fill.value_or(Length{}).in(m) : height);
  }
  done.filled = beyond + empty;
  if (done.filled == 0 || options.fill) return {};
  return failure(
      ErrorKind::kField,
      fmt::format("{} of {} points have no height: {} lie beyond the raster, {} on cells without data or with "
                  "heights outside {:.0f} to {:.0f} m; ask for a smaller distance (--within METRES) or say "
                  "which height they have (--fill METRES)",
                  done.filled, plan.cells.size(), beyond, empty, kLowestGround.in(m), kHighestGround.in(m)));
}

/// From heights above the map's datum to heights in the site frame.
void settle_heights(TerrainImport& done) {
  std::vector<double>& heights = done.terrain.heights;
  const auto [lowest, highest] = std::minmax_element(heights.begin(), heights.end());
  done.lowest = *lowest * m;
  done.highest = *highest * m;
  if (done.new_anchor) done.anchor.height = std::floor(done.lowest.in(m)) * m;
  for (double& height : heights) height = std::round((height - done.anchor.height.in(m)) * 1000) / 1000;
}

std::optional<Error> request_error(const TerrainOptions& options) {
  constexpr Length kLeastStep = 10 * mm;
  if (options.step && !(*options.step >= kLeastStep && *options.step <= kMostReach))
    return Error{
        ErrorKind::kRequest,
        fmt::format("a step of {} m; allowed is {} to {} m", options.step->in(m), kLeastStep.in(m), kMostReach.in(m)),
        {}};
  if (options.fill && !(*options.fill >= kLowestGround && *options.fill <= kHighestGround))
    return Error{ErrorKind::kRequest,
                 fmt::format("a height of {} m; allowed is {} to {} m", options.fill->in(m), kLowestGround.in(m),
                             kHighestGround.in(m)),
                 {}};
  return distance_error(options.most_distance);
}

/// A site's own anchor, or a new one in the raster's middle whose frame lies along the raster.
Result<site::Anchor> raster_anchor(const RasterFile& raster, const std::optional<site::Anchor>& anchor) {
  Result<site::Anchor> at = anchor_for(anchor, raster.crs(), {raster.map_of_cell(raster.middle())});
  if (!at || anchor) return at;
  return MapFrame::between(raster.crs(), *at).map([&](const MapFrame& north_up) {
    at->turn = turn_along(raster, north_up);
    return *at;
  });
}

TerrainImport begun(const RasterFile& raster, const MapFrame& frame, const GridPlan& plan) {
  TerrainImport done;
  done.raster_columns = raster.columns();
  done.raster_rows = raster.rows();
  done.raster_cell = cell_size(raster, frame);
  done.unit_stated = raster.unit_stated();
  done.averaged = plan.averaged;
  done.terrain.south_west = plan.south_west;
  done.terrain.step = plan.step;
  done.terrain.columns = plan.columns;
  done.terrain.rows = plan.rows;
  return done;
}

Result<TerrainImport> import_from(const RasterFile& raster, const std::optional<site::Anchor>& anchor,
                                  const TerrainOptions& options, const Progress& progress) {
  const Result<site::Anchor> at = raster_anchor(raster, anchor);
  if (!at) return tl::make_unexpected(at.error());
  const Result<MapFrame> frame = MapFrame::between(raster.crs(), *at);
  if (!frame) return tl::make_unexpected(frame.error());
  const Progress planning = progress.part(0, 0.5);
  const Result<GridPlan> plan = plan_grid(raster, *frame, options, planning);
  if (!plan) return tl::make_unexpected(plan.error());
  TerrainImport done = begun(raster, *frame, *plan);
  done.anchor = *at;
  done.new_anchor = !anchor;
  const std::optional<RasterWindow> window = window_of(raster, *plan);
  if (!window) return failure(ErrorKind::kRequest, "the raster does not reach the site at " + place_text(*at));
  const Result<HeightField> field = read_field(raster, *window, done.averaged, progress);
  if (!field) return tl::make_unexpected(field.error());
  done.lowest_read = field->lowest * m;
  done.highest_read = field->highest * m;
  if (const Result<void> sampled = sample_all(raster, *plan, *field, options, done); !sampled)
    return tl::make_unexpected(sampled.error());
  settle_heights(done);
  return done;
}

}  // namespace

Result<TerrainImport> import_terrain(const std::string& file, const std::optional<site::Anchor>& anchor,
                                     const TerrainOptions& options, const Progress& progress) {
  if (const std::optional<Error> error = request_error(options)) return tl::make_unexpected(*error);
  return guarded(file, [&] {
    return RasterFile::open(file, options.crs).and_then([&](const RasterFile& raster) {
      return import_from(raster, anchor, options, progress);
    });
  });
}

}  // namespace sightfall::import
