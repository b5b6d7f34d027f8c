// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/detail_field.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "draw/ramp.h"

namespace sightfall::draw {
namespace {

constexpr float kNoValue = std::numeric_limits<float>::quiet_NaN();

/// Of the points inside a solid, the share that must be seen for it to be drawn open.
constexpr double kOpenShare = 0.05;

/// A fall within one cell by more than this factor is a cliff.
constexpr float kCliff = 1.5F;

/// How many points the values go on under a solid or beyond the edge of what is seen.
constexpr int kSpread = 3;

/// The mean of a point's neighbours that have a value.
float mean_around(const std::vector<float>& values, int columns, int rows, int column, int row) {
  float sum = 0;
  int count = 0;
  for (int r = std::max(0, row - 1); r <= std::min(rows - 1, row + 1); ++r)
    for (int c = std::max(0, column - 1); c <= std::min(columns - 1, column + 1); ++c) {
      const float value = values[static_cast<size_t>(r) * static_cast<size_t>(columns) + static_cast<size_t>(c)];
      if (std::isnan(value)) continue;
      sum += value;
      ++count;
    }
  return count > 0 ? sum / static_cast<float>(count) : kNoValue;
}

}  // namespace

geom::Outline footprint(const site::Solid& solid) {
  switch (solid.kind) {
    case site::SolidKind::kBuilding:
      return solid.outline;
    case site::SolidKind::kBox:
    case site::SolidKind::kVehicle:
      return {turned_box(solid.at, solid.size_across.si(), solid.size_along.si(), solid.heading), {}};
    case site::SolidKind::kWall:
    case site::SolidKind::kRoof:
      break;
  }
  return {};
}

DetailField::DetailField(const need::DetailMap& map, const site::Site& site) : map_{map}, values_{map.delivered} {
  for (float& value : values_)
    if (!(value > 0)) value = kNoValue;
  look_into(site);
}

void DetailField::look_into(const site::Site& site) {
  std::vector<char> covered(values_.size(), 0);
  for (const site::Solid& solid : site.solids) {
    const geom::Outline ground = footprint(solid);
    const geom::Box2 box = geom::bounds(ground.outer);
    std::vector<size_t> inside;
    size_t seen_inside = 0;
    const auto first = [&](double low, double origin) {
      return std::max(0, int(std::floor((low - origin) / map_.step.si())));
    };
    if (!box.empty())
      for (int r = first(box.low.y, map_.south_west.y); r < map_.rows && r <= first(box.high.y, map_.south_west.y) + 1;
           ++r)
        for (int c = first(box.low.x, map_.south_west.x);
             c < map_.columns && c <= first(box.high.x, map_.south_west.x) + 1; ++c)
          if (geom::contains(ground, map_.south_west + map_.step.si() * geom::PlanPoint{double(c), double(r)})) {
            inside.push_back(index(c, r));
            seen_inside += seen(c, r);
          }
    const bool open = static_cast<double>(seen_inside) > kOpenShare * static_cast<double>(inside.size());
    open_.push_back(open && solid.kind == site::SolidKind::kBuilding);
    if (!open_.back())
      for (const size_t i : inside) covered[i] = 1;
  }
  spread(covered);
}

void DetailField::spread(const std::vector<char>& where) {
  for (int round = 0; round < kSpread; ++round) {
    const std::vector<float> before = values_;
    for (int r = 0; r < map_.rows; ++r)
      for (int c = 0; c < map_.columns; ++c)
        if (const size_t i = index(c, r); where[i] != 0 && std::isnan(before[i]))
          values_[i] = mean_around(before, map_.columns, map_.rows, c, r);
  }
}

PixelDensity DetailField::at(geom::PlanPoint p) const {
  const geom::Vec2 in = (1 / map_.step.si()) * (p - map_.south_west);
  if (in.x < -0.5 || in.y < -0.5 || in.x > map_.columns - 0.5 || in.y > map_.rows - 0.5) return {};
  const int c = std::clamp(int(std::floor(in.x)), 0, std::max(0, map_.columns - 2));
  const int r = std::clamp(int(std::floor(in.y)), 0, std::max(0, map_.rows - 2));
  const int east = std::min(c + 1, map_.columns - 1), north = std::min(r + 1, map_.rows - 1);
  const double x = std::clamp(in.x - c, 0.0, 1.0), y = std::clamp(in.y - r, 0.0, 1.0);
  if (!seen(c, r) || !seen(east, r) || !seen(c, north) || !seen(east, north))
    return PixelDensity{map_.at(x < 0.5 ? c : east, y < 0.5 ? r : north)};
  return PixelDensity{(1 - y) * ((1 - x) * map_.at(c, r) + x * map_.at(east, r)) +
                      y * ((1 - x) * map_.at(c, north) + x * map_.at(east, north))};
}

std::vector<geom::Polyline> DetailField::lines_at(PixelDensity density, PixelDensity higher) const {
  const geom::ValueGrid g = grid();
  std::vector<char> left_out(values_.size(), 0);
  for (int r = 0; r + 1 < g.rows; ++r)
    for (int c = 0; c + 1 < g.columns; ++c) {
      const auto [low, high] = std::minmax({g.at(c, r), g.at(c + 1, r), g.at(c, r + 1), g.at(c + 1, r + 1)});
      left_out[g.cell(c, r)] = high > kCliff * low && high >= higher.si();
    }
  return geom::contours(g, static_cast<float>(density.si()), left_out);
}

Shape DetailField::seen() const {
  constexpr int kBeyond = 2;  // one row that repeats the border's, one that is unseen and closes the rings
  const int columns = map_.columns + 2 * kBeyond, rows = map_.rows + 2 * kBeyond;
  std::vector<float> mask(static_cast<size_t>(columns) * static_cast<size_t>(rows), 0);
  for (int r = 1; r + 1 < rows; ++r)
    for (int c = 1; c + 1 < columns; ++c) {
      const size_t from =
          index(std::clamp(c - kBeyond, 0, map_.columns - 1), std::clamp(r - kBeyond, 0, map_.rows - 1));
      mask[static_cast<size_t>(r) * static_cast<size_t>(columns) + static_cast<size_t>(c)] =
          std::isnan(values_[from]) ? 0 : 1;
    }
  const double step = map_.step.si();
  const geom::PlanPoint corner = map_.south_west - (kBeyond * step) * geom::PlanPoint{1, 1};
  Shape result{geom::contours({corner, step, columns, rows, mask}, 0.5F)};
  for (geom::Polyline& ring : result.lines) ring = smoothed(ring, step);
  return result;
}

Tint DetailField::tint() const {
  DetailField wider = *this;
  wider.spread(std::vector<char>(values_.size(), 1));
  Tint result{map_.columns, map_.rows, {}};
  for (int r = map_.rows - 1; r >= 0; --r)
    for (int c = 0; c < map_.columns; ++c) {
      const float value = wider.values_[index(c, r)];
      result.colours.push_back(std::isnan(value) ? kPaper : ramp_tone(ramp_share(PixelDensity{value})));
    }
  return result;
}

}  // namespace sightfall::draw
