// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/least_seen.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <queue>

#include "geom/segment.h"
#include "need/station.h"
#include "need/surface.h"
#include "site/ground.h"

namespace sightfall::need {
namespace {

using geom::PlanPoint;

constexpr int kCells = 40000;
constexpr double kFinestStep = 0.5;  // m
constexpr double kWaist = 0.9;       // m: what stands higher than this stops a walker

PlanPoint nearest_on(const std::vector<PlanPoint>& line, bool closed, PlanPoint p) {
  PlanPoint nearest = line.front();
  for (size_t i = closed ? 0 : 1; i < line.size(); ++i) {
    const PlanPoint on = geom::nearest_on_segment(p, line[(i + line.size() - 1) % line.size()], line[i]);
    if (norm(on - p) < norm(nearest - p)) nearest = on;
  }
  return nearest;
}

/// The walker's grid over the ground within the boundary.
class WayGrid {
 public:
  WayGrid(const Project& project, const LitStations& lit, const Progress& progress)
      : project_{project}, scene_{lit.lighting.scene()}, box_{geom::bounds(project.site.boundary)} {
    const PlanPoint size = box_.high - box_.low;
    step_ = std::max(kFinestStep, std::sqrt(size.x * size.y / kCells));
    columns_ = static_cast<int>(size.x / step_) + 1;
    rows_ = static_cast<int>(size.y / step_) + 1;
    std::vector<PlanPoint> points;
    points.reserve(index(columns_ * rows_));
    for (int i = 0; i < columns_ * rows_; ++i) points.push_back(at(i));
    shown_ = delivered_on(lit, points, Subject::kPerson, progress);
  }

  std::optional<LeastSeenWay> to(const site::Place& place) const {
    std::vector<double> cost(static_cast<size_t>(columns_) * static_cast<size_t>(rows_), kFar);
    std::vector<int> from(cost.size(), -1);
    using Entry = std::pair<double, int>;
    std::priority_queue<Entry, std::vector<Entry>, std::greater<>> open;
    for (int i = 0; i < columns_ * rows_; ++i)
      if (on_boundary(i)) {
        cost[index(i)] = 0;
        open.emplace(0, i);
      }
    while (!open.empty()) {
      const auto [so_far, here] = open.top();
      open.pop();
      if (so_far > cost[index(here)]) continue;
      if (reaches(place, at(here))) return way_to(place, from, here);
      for (const int next : neighbours(here)) {
        const double through = so_far + step_cost(here, next);
        if (through >= cost[index(next)] || !can_step(here, next)) continue;
        cost[index(next)] = through;
        from[index(next)] = here;
        open.emplace(through, next);
      }
    }
    return std::nullopt;
  }

 private:
  static constexpr double kFar = std::numeric_limits<double>::infinity();
  static size_t index(int i) { return static_cast<size_t>(i); }

  PlanPoint at(int i) const {
    const int column = i % columns_, row = i / columns_;
    return box_.low + step_ * PlanPoint{static_cast<double>(column), static_cast<double>(row)};
  }

  bool inside(PlanPoint p) const { return geom::contains({project_.site.boundary, {}}, p); }

  bool on_boundary(int i) const {
    if (!inside(at(i))) return false;
    const auto around = neighbours(i);
    return around.size() < 8 || std::any_of(around.begin(), around.end(), [&](int n) { return !inside(at(n)); });
  }

  std::vector<int> neighbours(int i) const {
    const int c = i % columns_, r = i / columns_;
    std::vector<int> result;
    for (int dr = -1; dr <= 1; ++dr)
      for (int dc = -1; dc <= 1; ++dc)
        if ((dr != 0 || dc != 0) && c + dc >= 0 && c + dc < columns_ && r + dr >= 0 && r + dr < rows_)
          result.push_back((r + dr) * columns_ + c + dc);
    return result;
  }

  double seen(int i) const { return static_cast<double>(shown_[index(i)]) >= faintest_ ? 1 : 0; }

  double step_cost(int a, int b) const { return norm(at(b) - at(a)) * (1 + kSeenWeight * (seen(a) + seen(b)) / 2); }

  bool can_step(int a, int b) const { return inside(at(b)) && is_clear(at(a), at(b)) && stands_free(at(b)); }

  /// Whether nothing passes through the point itself: a step that ends within a wall without thickness would be through
  /// it with the next one. Three rays a hair around it, askew to any wall that is drawn along the axes.
  bool stands_free(PlanPoint p) const {
    constexpr double kHair = 0.01;  // m
    const std::array<PlanPoint, 3> around{p + kHair * PlanPoint{0.97, 0.23}, p + kHair * PlanPoint{-0.68, 0.73},
                                          p + kHair * PlanPoint{-0.29, -0.96}};
    return is_clear(around[0], around[1]) && is_clear(around[1], around[2]) && is_clear(around[2], around[0]);
  }

  bool is_clear(PlanPoint a, PlanPoint b) const {
    const Length waist{kWaist};
    return scene_.passed({site::above_ground(project_.site.terrain, a, waist),
                          site::above_ground(project_.site.terrain, b, waist)}) > 0;
  }

  /// Within a zone, or a step from any place with nothing in between: a place may be smaller than a step.
  bool reaches(const site::Place& place, PlanPoint p) const {
    const bool zone = place.kind == site::PlaceKind::kZone;
    if (zone && geom::contains(place.outline, p)) return true;
    const PlanPoint nearest = zone ? nearest_on(place.outline.outer, true, p) : nearest_on(place.line, false, p);
    return norm(nearest - p) <= step_ && is_clear(p, nearest);
  }

  LeastSeenWay way_to(const site::Place& place, const std::vector<int>& from, int end) const {
    LeastSeenWay way;
    way.place = place.name;
    double length = 0, in_sight = 0, most = 0;
    for (int here = end; here >= 0; here = from[index(here)]) {
      way.way.push_back(at(here));
      most = std::max(most, static_cast<double>(shown_[index(here)]));
      const int before = from[index(here)];
      if (before < 0) break;
      const double step = norm(at(here) - at(before));
      length += step;
      in_sight += step * (seen(here) + seen(before)) / 2;
    }
    std::reverse(way.way.begin(), way.way.end());
    way.length = Length{length};
    way.seen = Length{in_sight};
    way.most = PixelDensity{most};
    return way;
  }

  const Project& project_;
  const site::Scene& scene_;
  geom::Box2 box_;
  double step_ = 1;
  int columns_ = 0, rows_ = 0;
  std::vector<float> shown_;
  double faintest_ = faintest(project_.settings.levels).si();
};

}  // namespace

std::vector<LeastSeenWay> least_seen_ways(const Project& project, const LitStations& lit, const std::string& condition,
                                          const Progress& progress) {
  std::vector<LeastSeenWay> ways;
  const auto& places = project.site.places;
  if (project.site.boundary.empty() ||
      std::none_of(places.begin(), places.end(), [](const site::Place& p) { return p.guarded; }))
    return ways;
  const WayGrid grid{project, lit, progress};
  for (const site::Place& place : places) {
    if (!place.guarded || progress.stopped()) continue;
    if (auto way = grid.to(place)) {
      way->condition = condition;
      ways.push_back(std::move(*way));
    }
  }
  return ways;
}

}  // namespace sightfall::need
