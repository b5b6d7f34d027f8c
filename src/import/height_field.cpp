// SPDX-License-Identifier: GPL-3.0-or-later
#include "import/height_field.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "import/limits.h"

namespace sightfall::import {
namespace {

/// One line of averages from `averaged` rows of cells, fewer at the raster's edge.
Result<void> read_line(const RasterFile& raster, const RasterWindow& window, int line, HeightField& field) {
  std::vector<double> cells(static_cast<size_t>(window.columns));
  std::vector<int> counts(static_cast<size_t>(field.columns), 0);
  double* sums = field.heights.data() + static_cast<size_t>(line) * static_cast<size_t>(field.columns);
  const int last = std::min((line + 1) * field.averaged, window.rows);
  for (int row = line * field.averaged; row < last; ++row) {
    if (Result<void> done = raster.read(window.row + row, window.column, cells); !done) return done;
    for (size_t i = 0; i < cells.size(); ++i) {
      const size_t into = i / static_cast<size_t>(field.averaged);
      sums[into] += cells[i];
      ++counts[into];
      if (std::isnan(cells[i])) continue;
      field.lowest = std::min(field.lowest, cells[i]);
      field.highest = std::max(field.highest, cells[i]);
    }
  }
  for (size_t i = 0; i < counts.size(); ++i) sums[i] /= counts[i];
  return {};
}

/// Where between two lines of the field a place lies.
struct Between {
  int first = 0;
  double share = 0;  ///< of the way to the next
};

/// `cells` is the number that the field's `lines` of means were made of; the last mean may hold fewer than the others.
Between between(double place, int averaged, int cells, int lines) {
  constexpr double kNearly = 1e-5;  // in cells: nearer to a centre than this is on it
  if (lines == 1) return {};
  const auto centre = [&](int line) {
    const int first = line * averaged, behind = std::min(cells, first + averaged);
    return (first + behind - 1) / 2.0;
  };
  const int first = std::clamp(static_cast<int>(std::floor((place - centre(0)) / averaged + kNearly)), 0, lines - 2);
  const double along = std::clamp(place, centre(first), centre(first + 1)) - centre(first);
  const double span = centre(first + 1) - centre(first);
  if (along < kNearly) return {first, 0};
  if (span - along < kNearly) return {first + 1, 0};
  return {first, along / span};
}

}  // namespace

std::optional<RasterWindow> window_of(const RasterFile& raster, const GridPlan& plan) {
  geom::Box2 box;
  for (const geom::PlanPoint cell : plan.cells)
    if (within(raster, cell, plan.margin())) box.include(cell);
  if (box.empty()) return std::nullopt;
  const auto first = [&](double low) { return static_cast<int>(std::max(0.0, std::floor(low) - plan.averaged)); };
  const auto behind = [&](double high, double count) {
    return static_cast<int>(std::min(count, std::ceil(high) + plan.averaged + 1));
  };
  RasterWindow window{first(box.low.x), first(box.low.y), 0, 0};
  window.columns = behind(box.high.x, raster.columns()) - window.column;
  window.rows = behind(box.high.y, raster.rows()) - window.row;
  return window;
}

Result<HeightField> read_field(const RasterFile& raster, const RasterWindow& window, int averaged,
                               const Progress& progress) {
  const double cells = static_cast<double>(window.columns) * window.rows;
  if (cells > kMostCellsRead || window.columns > kMostColumnsRead)
    return failure(ErrorKind::kTooLarge,
                   fmt::format("{} x {} cells would have to be read; at most {:.0f} are, and {} in a row: ask for a "
                               "smaller distance (--within METRES)",
                               window.columns, window.rows, kMostCellsRead, kMostColumnsRead));
  HeightField field;
  field.window = window;
  field.averaged = averaged;
  field.columns = (window.columns + averaged - 1) / averaged;
  field.rows = (window.rows + averaged - 1) / averaged;
  field.heights.assign(static_cast<size_t>(field.columns) * static_cast<size_t>(field.rows), 0);
  for (int line = 0; line < field.rows; ++line) {
    if (progress.stopped()) return failure(ErrorKind::kRequest, kStopped);
    progress.tell(0.5 + 0.5 * line / field.rows, "reading heights");
    if (const Result<void> done = read_line(raster, window, line, field); !done)
      return tl::make_unexpected(done.error());
  }
  return field;
}

double sample(const HeightField& field, geom::PlanPoint cell) {
  const RasterWindow& window = field.window;
  const Between x = between(cell.x - window.column, field.averaged, window.columns, field.columns);
  const Between y = between(cell.y - window.row, field.averaged, window.rows, field.rows);
  const auto along = [&](int row) {
    const double left = field.at(x.first, row);
    return x.share == 0 ? left : left + x.share * (field.at(x.first + 1, row) - left);
  };
  const double upper = along(y.first);
  return y.share == 0 ? upper : upper + y.share * (along(y.first + 1) - upper);
}

}  // namespace sightfall::import
