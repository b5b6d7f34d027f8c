// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/plan_lamps.h"

#include <algorithm>
#include <cmath>

#include "draw/signs.h"
#include "geom/pose.h"

namespace sightfall::draw {
namespace {

PagePoint axis_on_page(const site::Lamp& lamp) {
  return std::cos(lamp.tilt.si()) * on_page(geom::heading_vector(lamp.heading));
}

}  // namespace

std::vector<PlanLamp> lamps_on(const PlanMap& plan, const PlanFrame& frame) {
  SignRoom room{frame.low, frame.high};
  take_mounts(room, *plan.project, frame);
  if (plan.verdict != nullptr && plan.verdict->worst)
    room.take(frame.to_page(geom::plan(plan.verdict->worst->at_site)), kWorstArm);
  return lamps_beside(room, plan, frame);
}

std::vector<PlanLamp> lamps_beside(SignRoom& room, const PlanMap& plan, const PlanFrame& frame) {
  const site::Site& site = plan.project->site;
  std::vector<PlanLamp> lamps;
  for (const site::Lamp& lamp : site.lamps) {
    const PagePoint place = frame.to_page(lamp.at);
    if (!frame.holds(place)) continue;
    const bool burning = std::find(plan.burning.begin(), plan.burning.end(), lamp.name) != plan.burning.end();
    lamps.push_back({lamp.name, place, room.settle(place, kLampRadius), axis_on_page(lamp), burning});
  }
  return lamps;
}

void draw_lamps(Canvas& canvas, const std::vector<PlanLamp>& lamps) {
  for (const PlanLamp& lamp : lamps) {
    draw_sign_leader(canvas, lamp.place, lamp.at);
    sign_lamp(canvas, lamp.at, lamp.along, lamp.burning);
  }
}

}  // namespace sightfall::draw
