// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/lit_project.h"

#include <algorithm>

#include "need/frame.h"

namespace sightfall::need {
namespace {

size_t season(site::Leaves leaves) { return leaves == site::Leaves::kOn ? 0 : 1; }

}  // namespace

LitStations::LitStations(const Lighting& plain, const std::vector<Station>& all)
    : lighting{with_cameras(plain, all)}, stations{in_condition(all, lighting)} {}

ConditionLight::ConditionLight(const Lighting& plain, const std::vector<Station>& stations) : nominal{plain, stations} {
  const Ranged<double>& lux = plain.project().settings.typical.night_switch.value;
  std::vector<double> scenes;
  for (const Station& station : stations)
    if (station.picture == camera::PictureMode::kAutomatic) scenes.push_back(scene_lux(station, plain));
  for (const double end : {lux.low, lux.high}) {
    const Lighting moved = plain.with_night_switch(end);
    if (std::any_of(scenes.begin(), scenes.end(),
                    [&](double scene) { return (scene < moved.night_switch()) != (scene < plain.night_switch()); }))
      ends.emplace_back(moved, stations);
  }
}

LitProject::LitProject(const Project& project) : project_{&project}, stations_{stations_of(project)} {
  for (const site::Condition& condition : project.conditions) {
    auto& scene = scenes_.at(season(condition.leaves));
    if (!scene) scene = std::make_unique<site::Scene>(project.site, condition.leaves);
    lights_.emplace_back(Lighting{project, *scene, condition}, stations_);
  }
}

Moment LitProject::moment(const site::Condition& condition) const {
  return {project_, &in(condition).nominal.lighting, condition.name};
}

const site::Scene& LitProject::scene_in(const site::Condition& condition) const {
  return *scenes_.at(season(condition.leaves));
}

size_t LitProject::index_of(const site::Condition& condition) const {
  return static_cast<size_t>(&condition - project_->conditions.data());
}

std::vector<const site::Condition*> LitProject::conditions_of(const Need& need,
                                                              const std::vector<std::string>& names) const {
  std::vector<const site::Condition*> result;
  for (const site::Condition& condition : project_->conditions)
    if (asked_for(need.conditions, condition.name) && asked_for(names, condition.name)) result.push_back(&condition);
  return result;
}

}  // namespace sightfall::need
