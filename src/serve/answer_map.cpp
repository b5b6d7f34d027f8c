// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include "draw/contour_lines.h"
#include "draw/detail_field.h"
#include "draw/missed.h"
#include "draw/ramp.h"
#include "draw/shape.h"
#include "file/answer_values.h"
#include "need/map.h"
#include "need/trial.h"
#include "serve/answers.h"
#include "serve/base64.h"
#include "serve/request.h"
#include "site/ground.h"

namespace sightfall::serve {
namespace {

using file::Form;
using file::kOptional;
using file::kRequired;
using file::List;
using file::Object;
using file::Value;

struct DetailMapRequest {
  std::string condition;
  int cells = 0;
  std::optional<std::string> need;
  std::vector<double> bounds;
};

void describe(Form& form, DetailMapRequest& request) {
  form.text({"condition", kRequired, "name of a condition"}, request.condition);
  form.whole({"cells", "", 100, 40000, 400000, "about the number of points"}, request.cells);
  form.text({"need", kOptional, "name of a need, whose place is told where it is missed"}, request.need);
  form.numbers({"bounds", "m", -1e5, kOptional, 1e5, "west, south, east and north end; the whole site when absent"}, 4,
               4, request.bounds);
}

/// All that the site describes, with a margin.
geom::Box2 whole_site(const site::Site& site) {
  constexpr double kMargin = 8;  // m
  const geom::Box2 box = site::extent(site);
  return box.empty() ? geom::Box2{{-kMargin, -kMargin}, {kMargin, kMargin}} : box.grown(kMargin);
}

Checked<geom::Box2> window_of(const site::Site& site, const std::vector<double>& bounds) {
  if (bounds.empty()) return whole_site(site);
  const geom::Box2 box{{bounds[0], bounds[1]}, {bounds[2], bounds[3]}};
  if (!(box.low.x < box.high.x) || !(box.low.y < box.high.y))
    return refused(ErrorKind::kField, "bounds", "found no area; allowed: west before east, south before north");
  return box;
}

Value point(geom::PlanPoint p) { return file::point(p, 100); }

Value line_value(const geom::Polyline& line) {
  List points;
  for (const geom::PlanPoint p : line.points) points.push_back(point(p));
  if (line.closed) points.push_back(point(line.points.front()));
  return points;
}

Value lines_value(const std::vector<geom::Polyline>& lines) {
  List result;
  for (const geom::Polyline& line : lines) result.push_back(line_value(line));
  return result;
}

/// Short lines are noise of the grid.
std::vector<geom::Polyline> drawn(std::vector<geom::Polyline> lines, Length step) {
  constexpr double kShortest = 6;  // steps
  for (geom::Polyline& line : lines) line = draw::smoothed(line, step.si());
  std::erase_if(lines,
                [&](const geom::Polyline& line) { return geom::length(line.points).si() < kShortest * step.si(); });
  return lines;
}

Value contours_of(const need::Project& project, const draw::DetailField& field, PixelDensity required) {
  draw::PlanMap plan;
  plan.project = &project;
  plan.required = required;
  const std::vector<PixelDensity> densities = draw::contour_densities(plan);
  List result;
  for (size_t i = 0; i < densities.size(); ++i) {
    const PixelDensity higher = i + 1 < densities.size() ? densities[i + 1] : PixelDensity{HUGE_VAL};
    const auto lines = drawn(field.lines_at(densities[i], higher), Length{field.grid().step});
    if (lines.empty()) continue;
    result.emplace_back(Object{{"density_px_per_m", file::density(densities[i])},
                               {"required", densities[i] == required},
                               {"lines", lines_value(lines)}});
  }
  return result;
}

/// Rings around the part of a place in which less than the need's level is delivered.
Value missed_of(const need::DetailMap& map, const site::Place& place, PixelDensity required) {
  // A side with one row more all round, so that rings close.
  const int columns = map.columns + 2, rows = map.rows + 2;
  const double step = map.step.si();
  const geom::PlanPoint corner = map.south_west - step * geom::PlanPoint{1, 1};
  std::vector<float> mask(static_cast<size_t>(columns) * static_cast<size_t>(rows), 0);
  for (int r = 0; r < map.rows; ++r)
    for (int c = 0; c < map.columns; ++c) {
      const geom::PlanPoint at = map.south_west + step * geom::PlanPoint{double(c), double(r)};
      if (PixelDensity{map.at(c, r)} < required && draw::in_place(place, at, map.step))
        mask[static_cast<size_t>(r + 1) * static_cast<size_t>(columns) + static_cast<size_t>(c + 1)] = 1;
    }
  constexpr float kHalf = 0.5F;
  auto rings = geom::contours({corner, step, columns, rows, mask}, kHalf);
  for (geom::Polyline& ring : rings) ring = draw::smoothed(ring, step);
  return lines_value(rings);
}

std::string tone_of(const need::DetailMap& map) {
  constexpr double kSteps = 254;
  std::string bytes(map.delivered.size(), '\0');
  std::transform(map.delivered.begin(), map.delivered.end(), bytes.begin(), [](float delivered) {
    if (!(delivered > 0)) return '\0';
    const double share = draw::ramp_share(PixelDensity{delivered});
    return static_cast<char>(static_cast<uint8_t>(1 + std::lround(kSteps * share)));
  });
  return bytes;
}

}  // namespace

Checked<Value> map_answer(const need::Project& project, const Value& request, const Progress& progress) {
  const auto asks = read_request<DetailMapRequest>(request);
  if (!asks) return tl::make_unexpected(asks.error());
  const auto condition = look_up(project.conditions, asks->condition, "condition");
  if (!condition) return tl::make_unexpected(condition.error());
  const auto window = window_of(project.site, asks->bounds);
  if (!window) return tl::make_unexpected(window.error());
  const need::Need* need = nullptr;
  if (asks->need) {
    const auto found = look_up(project.needs, *asks->need, "need");
    if (!found) return tl::make_unexpected(found.error());
    need = *found;
  }
  const need::DetailMap map = need::detail_map(project, *window, **condition, asks->cells, progress);
  const PixelDensity required{need != nullptr ? need::required_of(project, *need).density : 0};
  const draw::DetailField field{map, project.site};
  const Value missed =
      need == nullptr ? Value{List{}} : missed_of(map, need::the_named(project.site.places, need->place), required);
  return Value{Object{{"condition", map.condition},
                      {"south_west", point(map.south_west)},
                      {"step_m", map.step.si()},
                      {"columns", map.columns},
                      {"rows", map.rows},
                      {"contours", contours_of(project, field, required)},
                      {"seen", lines_value(field.seen().lines)},
                      {"missed", missed},
                      {"tone", base64(tone_of(map))},
                      {"tone_px_per_m", List{file::density(draw::kRampLow), file::density(draw::kRampHigh)}}}};
}

}  // namespace sightfall::serve
