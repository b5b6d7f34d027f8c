// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "need/aim.h"
#include "papers/documents.h"

namespace sightfall::papers {

draw::SitePlan plan_of(const Job& job) {
  draw::SitePlan plan{&job.project(), {}, job.asked.date};
  for (const loads::LaidRun& laid : job.here.loads.cable.runs) {
    draw::PlanCable cable{
        laid.run->name, laid.run->to, {}, laid.to_lay().medium == site::CableMedium::kFibre, laid.along};
    for (const geom::SitePoint& point : laid.line) cable.line.push_back(geom::plan(point));
    plan.cables.push_back(std::move(cable));
  }
  for (const site::Lamp& lamp : job.project().site.lamps)
    if (!relying_on(job, lamp.name).empty()) plan.lamps.push_back(lamp.name);
  for (const CameraPart& part : job.cameras) {
    char letter = 'a';
    for (const need::AimPoint& point : part.aim.points) {
      // The plumb's foot lies under the camera's own sign.
      const char* where = point.name == need::kPlumb ? ", under the lens" : "";
      plan.marks.push_back({fmt::format("{}{}{}", part.number, letter++, where), geom::plan(point.at)});
    }
  }
  // Numbered as the walk test of the field sheet is.
  for (const need::Verdict& verdict : job.here.check.verdicts)
    if (verdict.worst)
      plan.tests.push_back({std::to_string(plan.tests.size() + 1), geom::plan(verdict.worst->at_site)});
  return plan;
}

}  // namespace sightfall::papers
