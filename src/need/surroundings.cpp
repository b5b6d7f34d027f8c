// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/surroundings.h"

#include <algorithm>
#include <iterator>
#include <utility>

#include "need/cautions.h"
#include "need/in_parallel.h"
#include "need/lamp_cautions.h"
#include "need/least_seen.h"
#include "need/sun_hours.h"

namespace sightfall::need {
namespace {

void add_lamp_cautions(const LitProject& lit, const std::vector<std::string>& conditions, const site::Scene& scene,
                       CheckResult& result) {
  for (Caution& caution : headlight_cautions(lit.project(), lit.stations(), scene))
    result.cautions.push_back(std::move(caution));
  for (const site::Condition& condition : lit.project().conditions) {
    if (!asked_for(conditions, condition.name)) continue;
    for (const Station& station : lit.in(condition).nominal.stations)
      if (auto caution = band_caution(station, condition.name)) result.cautions.push_back(std::move(*caution));
  }
}

}  // namespace

void add_surroundings(const LitProject& lit, const std::vector<std::string>& conditions, const Progress& progress,
                      CheckResult& result) {
  const Project& project = lit.project();
  for (const Station& station : lit.stations())
    result.assumptions.insert(result.assumptions.end(), station.assumptions.begin(), station.assumptions.end());
  result.without_need = places_without_need(project);
  result.aims = aims_of(project);
  if (progress.stopped()) return;
  const site::Scene& first = lit.scene(project.conditions.front().leaves);
  result.cautions = cautions_of(project, lit.stations());
  add_lamp_cautions(lit, conditions, first, result);
  if (project.site.anchor)
    for (const SunHours& hours : sun_hours(*project.site.anchor, lit.stations(), first, progress.part(0, 0.5)))
      if (hours.in_picture.total > Time{0}) result.cautions.push_back({hours.camera, hours.words});
  result.watches = watches_of(lit.stations(), first);
  Progress quiet;  // one thread tells
  quiet.stop = progress.stop;
  std::vector<std::vector<LeastSeenWay>> ways(project.conditions.size());
  in_parallel(ways.size(), progress.part(0.5, 1), "the least-seen ways", [&](size_t i) {
    const site::Condition& condition = project.conditions[i];
    if (asked_for(conditions, condition.name))
      ways[i] = least_seen_ways(project, lit.in(condition).nominal, condition.name, quiet);
  });
  for (auto& in_condition : ways)
    std::move(in_condition.begin(), in_condition.end(), std::back_inserter(result.least_seen));
}

}  // namespace sightfall::need
