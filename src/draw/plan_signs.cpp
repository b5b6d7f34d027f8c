// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/plan_signs.h"

#include <algorithm>
#include <cmath>

#include "draw/signs.h"
#include "geom/pose.h"

namespace sightfall::draw {
namespace {

constexpr double kBetweenSigns = 3;

/// Turned clockwise on the page.
PagePoint turned_by(PagePoint direction, double angle) {
  return {direction.x * std::cos(angle) - direction.y * std::sin(angle),
          direction.x * std::sin(angle) + direction.y * std::cos(angle)};
}

}  // namespace

bool SignRoom::is_free(PagePoint at, double radius) const {
  return std::none_of(discs_.begin(), discs_.end(), [&](const Disc& disc) {
    return geom::norm(at - disc.middle) < disc.radius + radius + kBetweenSigns - 1e-6;
  });
}

bool SignRoom::suits(PagePoint place, PagePoint at, double radius, const Leave& leave) const {
  if (at.x - radius < low_.x || at.y - radius < low_.y || at.x + radius > high_.x || at.y + radius > high_.y)
    return false;
  if (!is_free(at, radius)) return false;
  const bool on_line = std::any_of(lines_.begin(), lines_.end(),
                                   [&](const auto& line) { return distance_to_line(line, at) < radius + 2; });
  if (on_line && !leave.on_lines) return false;
  // The sign that it gives way to lies on its place.
  return leave.through_signs || std::none_of(discs_.begin(), discs_.end(), [&](const Disc& disc) {
           return geom::norm(place - disc.middle) > disc.radius &&
                  distance_to_line({place, at}, disc.middle) < disc.radius + 1;
         });
}

PagePoint SignRoom::settle(PagePoint place, double radius) {
  constexpr int kRings = 12, kDirections = 16;
  constexpr double kNearest = 15.5, kApart = 8;
  const auto take_at = [&](PagePoint at) {
    take(at, radius);
    return at;
  };
  if (is_free(place, radius)) return take_at(place);
  const auto over = std::min_element(discs_.begin(), discs_.end(), [&](const Disc& a, const Disc& b) {
    return geom::norm(place - a.middle) - a.radius < geom::norm(place - b.middle) - b.radius;
  });
  const double away = geom::norm(place - over->middle);
  const PagePoint first = away > 1e-9 ? (1 / away) * (place - over->middle) : PagePoint{1, 0};
  for (const Leave leave : {Leave{false, false}, Leave{true, false}, Leave{true, true}})
    for (int ring = 0; ring < kRings; ++ring)
      for (int i = 0; i < kDirections; ++i) {
        // From where it is pushed to, outwards to both sides.
        const int steps = (i + 1) / 2;  // to this side and that in turn
        const double turn = (i % 2 == 0 ? steps : -steps) * 2 * M_PI / kDirections;
        const PagePoint at = place + (radius + kNearest + kApart * ring) * turned_by(first, turn);
        if (!suits(place, at, radius, leave)) continue;
        for (const double share : {0.25, 0.5, 0.75}) take(place + share * (at - place), 1);
        return take_at(at);
      }
  return take_at(place);
}

void take_mounts(SignRoom& room, const need::Project& project, const PlanFrame& frame) {
  constexpr double kTickWidth = 6;
  for (const site::Mount& mount : project.site.mounts) {
    const PagePoint at = frame.to_page(mount.at);
    room.take(at, kMountRadius);
    for (const camera::Camera& camera : project.cameras)
      for (int nth = 0; camera.mount == mount.name && (nth + 0.5) * kTickWidth < kHeadingTick; ++nth)
        room.take(at + (kMountRadius + (nth + 0.5) * kTickWidth) * on_page(geom::heading_vector(camera.heading)),
                  kTickWidth / 2);
  }
}

void draw_sign_leader(Canvas& canvas, PagePoint place, PagePoint at) {
  constexpr double kDot = 1.8;
  if (geom::norm(at - place) < 1e-6) return;
  canvas.stroke(line_shape({place, at}), {.colour = with_opacity(kPaper, 0.85), .width = 3});
  canvas.stroke(line_shape({place, at}), {.width = 0.9});
  canvas.fill(circle(place, kDot + 1), kPaper);
  canvas.fill(circle(place, kDot), kInk);
}

}  // namespace sightfall::draw
