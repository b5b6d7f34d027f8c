// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/plan_lamps.h"

#include <algorithm>
#include <cmath>

#include "draw/signs.h"
#include "geom/pose.h"

namespace sightfall::draw {
namespace {

struct Disc {
  PagePoint middle;
  double radius = 0;
};

/// The point, or the nearest beside the discs that a lamp's sign there would touch; among many it may touch one still.
PagePoint beside(PagePoint at, const std::vector<Disc>& signs) {
  constexpr int kTries = 16;
  constexpr double kGap = 3;
  for (int i = 0; i < kTries; ++i) {
    const auto over = std::find_if(signs.begin(), signs.end(), [&](const Disc& sign) {
      return geom::norm(at - sign.middle) < sign.radius + kLampRadius + kGap - 1e-6;
    });
    if (over == signs.end()) break;
    const double away = geom::norm(at - over->middle);
    const PagePoint direction = away > 0 ? (1 / away) * (at - over->middle) : PagePoint{1, 0};
    at = over->middle + (over->radius + kLampRadius + kGap) * direction;
  }
  return at;
}

/// The signs that matter more than a lamp's: mounts, their cameras' headings as rows of discs, the worst place.
std::vector<Disc> signs_before(const PlanMap& plan, const PlanFrame& frame) {
  constexpr double kTickWidth = 6;
  std::vector<Disc> signs;
  for (const site::Mount& mount : plan.project->site.mounts) {
    const PagePoint at = frame.to_page(mount.at);
    signs.push_back({at, kMountRadius});
    for (const camera::Camera& camera : plan.project->cameras)
      for (int nth = 0; camera.mount == mount.name && (nth + 0.5) * kTickWidth < kHeadingTick; ++nth)
        signs.push_back({at + (kMountRadius + (nth + 0.5) * kTickWidth) * on_page(geom::heading_vector(camera.heading)),
                         kTickWidth / 2});
  }
  if (plan.verdict != nullptr && plan.verdict->worst)
    signs.push_back({frame.to_page(geom::plan(plan.verdict->worst->at_site)), kWorstArm});
  return signs;
}

PagePoint axis_on_page(const site::Lamp& lamp) {
  return std::cos(lamp.tilt.si()) * on_page(geom::heading_vector(lamp.heading));
}

}  // namespace

std::vector<PlanLamp> lamps_on(const PlanMap& plan, const PlanFrame& frame) {
  const site::Site& site = plan.project->site;
  std::vector<Disc> signs = signs_before(plan, frame);
  std::vector<PlanLamp> lamps;
  for (const site::Lamp& lamp : site.lamps) {
    if (!frame.holds(frame.to_page(lamp.at))) continue;
    const PagePoint at = beside(frame.to_page(lamp.at), signs);
    const bool burning = std::find(plan.burning.begin(), plan.burning.end(), lamp.name) != plan.burning.end();
    lamps.push_back({lamp.name, at, axis_on_page(lamp), burning});
    signs.push_back({at, kLampRadius});
  }
  return lamps;
}

void draw_lamps(Canvas& canvas, const std::vector<PlanLamp>& lamps) {
  for (const PlanLamp& lamp : lamps) sign_lamp(canvas, lamp.at, lamp.along, lamp.burning);
}

}  // namespace sightfall::draw
