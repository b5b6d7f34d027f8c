// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/samples.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "need/station.h"
#include "site/ground.h"

namespace sightfall::need {
namespace {

using geom::PlanPoint;
using site::Place;
using site::PlaceKind;

constexpr int kFewest = 256, kMost = 4096;
constexpr int kLanes = 5;
constexpr double kPassageSpacing = 0.1;  // m: a gate's stretch of a metre or two must be cut finely

/// Position along a polyline.
struct OnLine {
  PlanPoint at, ahead;
};

OnLine on_line(const std::vector<PlanPoint>& line, double along) {
  for (size_t i = 1; i < line.size(); ++i) {
    const PlanPoint span = line[i] - line[i - 1];
    const double length = norm(span);
    if (along <= length || i + 1 == line.size()) return {line[i - 1] + (along / length) * span, (1 / length) * span};
    along -= length;
  }
  return {line.front(), {}};
}

/// Points of the R2 sequence laid over the outline's triangles by area, so that even a sliver gets its samples.
std::vector<PlanPoint> spread(const geom::Outline& outline, int count) {
  constexpr double kPlastic = 1.32471795724474602596;  // root of x^3 = x + 1
  const auto triangles = geom::triangles(outline);
  std::vector<double> upto;
  upto.reserve(triangles.size());
  double total = 0;
  for (const auto& t : triangles) upto.push_back(total += cross(t[1] - t[0], t[2] - t[0]));
  std::vector<PlanPoint> points;
  points.reserve(static_cast<size_t>(count));
  double x = 0.5, y = 0.5;
  for (int i = 0; i < count; ++i) {
    x += 1 / kPlastic;
    y += 1 / (kPlastic * kPlastic);
    x -= std::floor(x);
    y -= std::floor(y);
    const auto index =
        std::min(static_cast<size_t>(std::upper_bound(upto.begin(), upto.end(), x * total) - upto.begin()),
                 triangles.size() - 1);
    const auto& [a, b, c] = triangles[index];
    const double before = index == 0 ? 0 : upto[index - 1];
    const double within = std::clamp((x * total - before) / (upto[index] - before), 0.0, 1.0);
    const double s = std::sqrt(within);
    points.push_back((1 - s) * a + (s * (1 - y)) * b + (s * y) * c);
  }
  return points;
}

/// Orders points along a Z-shaped curve over their box, for rays that stay together.
uint32_t z_order(PlanPoint p, const geom::Box2& box) {
  const auto cell = [](double share) { return static_cast<uint32_t>(std::clamp(share, 0.0, 0.9999) * 65536); };
  const PlanPoint size = box.high - box.low;
  const uint32_t cx = cell(size.x > 0 ? (p.x - box.low.x) / size.x : 0);
  const uint32_t cy = cell(size.y > 0 ? (p.y - box.low.y) / size.y : 0);
  uint32_t code = 0;
  for (int bit = 0; bit < 16; ++bit) code |= ((cx >> bit) & 1U) << (2 * bit) | ((cy >> bit) & 1U) << (2 * bit + 1);
  return code;
}

std::vector<Sample> zone_samples(const Place& place, int count) {
  std::vector<PlanPoint> points = spread(place.outline, count);
  const geom::Box2 box = geom::bounds(place.outline.outer);
  std::stable_sort(points.begin(), points.end(),
                   [&](PlanPoint a, PlanPoint b) { return z_order(a, box) < z_order(b, box); });
  std::vector<Sample> samples;
  samples.reserve(points.size());
  for (const PlanPoint p : points) samples.push_back({{p.x, p.y, 0}, {}, 0, 0});
  return samples;
}

std::vector<Sample> way_samples(const Place& place, int count, int lanes) {
  const double length = geom::length(place.line).si();
  const int each = std::max(1, count / lanes);
  std::vector<Sample> samples;
  for (int lane = 0; lane < lanes; ++lane) {
    const double offset = lanes == 1 ? 0 : place.width.si() * (static_cast<double>(lane) / (lanes - 1) - 0.5);
    for (int i = 0; i < each; ++i) {
      const OnLine on = on_line(place.line, length * (i + 0.5) / each);
      const PlanPoint aside = offset * PlanPoint{-on.ahead.y, on.ahead.x};
      const PlanPoint p = on.at + aside;
      samples.push_back({{p.x, p.y, 0}, place.kind == PlaceKind::kRoute ? on.ahead : PlanPoint{}, lane, length / each});
    }
  }
  return samples;
}

int lanes_of(const Place& place) { return place.kind == PlaceKind::kRoute && place.width.si() > 0 ? kLanes : 1; }

const Place& place_of(const Project& project, const Need& need) { return the_named(project.site.places, need.place); }

}  // namespace

int first_count(const Project& project, const Need& need) {
  const Place& place = place_of(project, need);
  const double spacing = project.settings.sample_spacing.si();
  if (place.kind == PlaceKind::kZone) {
    const double count = geom::area(place.outline).si() / (spacing * spacing);
    return static_cast<int>(std::clamp(count, static_cast<double>(kFewest), static_cast<double>(kMost)));
  }
  const int lanes = lanes_of(place);
  const double cut = need.once_a_passage ? std::min(spacing, kPassageSpacing) : spacing;
  const double count = lanes * geom::length(place.line).si() / cut;
  return static_cast<int>(std::clamp(count, static_cast<double>(kFewest), static_cast<double>(kMost)));
}

std::vector<Sample> samples_of(const Project& project, const Need& need, int count) {
  const Place& place = place_of(project, need);
  std::vector<Sample> samples =
      place.kind == PlaceKind::kZone ? zone_samples(place, count) : way_samples(place, count, lanes_of(place));
  const Length up = subject_height(need, project.settings.typical);
  for (Sample& sample : samples)
    sample.at_site = site::above_ground(project.site.terrain, geom::plan(sample.at_site), up);
  return samples;
}

Length subject_height(const Need& need, const detail::Typical& typical) {
  if (need.height) return *need.height;
  constexpr Length kFaceHeight{1.6};   // standing adult's face (docs/models.md section 2)
  constexpr Length kPlateHeight{0.5};  // a car's bumper, from memory
  switch (need.subject) {
    case Subject::kFace:
      return kFaceHeight;
    case Subject::kPlate:
      return kPlateHeight;
    default:
      return Length{height_of(need.subject, typical).value.nominal / 2};
  }
}

}  // namespace sightfall::need
