// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/lit_project.h"

#include <tbb/task_arena.h>

namespace sightfall::need {
namespace {

/// Works a value out when it is first asked for. Isolated, for a thread that took up another task while it waits for
/// its own could ask for the same value again.
template <class Once, class Make>
const auto& made_once(Once& once, Make make) {
  std::call_once(once.made, [&] { tbb::this_task_arena::isolate([&] { once.value.emplace(make()); }); });
  return *once.value;
}

}  // namespace

LitProject::LitProject(const Project& project)
    : project_{&project},
      stations_{stations_of(project)},
      lights_(project.conditions.size()),
      standings_(project.needs.size() * project.conditions.size()) {}

const site::Scene& LitProject::scene(site::Leaves leaves) const {
  return made_once(scenes_.at(leaves == site::Leaves::kOn ? 0 : 1), [&] {
    return site::Scene{project_->site, leaves};
  });
}

const ConditionLight& LitProject::in(const site::Condition& condition) const {
  return made_once(lights_[index_of(condition)], [&] { return light_of(condition); });
}

ConditionLight LitProject::light_of(const site::Condition& condition) const {
  const Lighting plain{*project_, scene(condition.leaves), condition};
  const std::vector<Meter> meters = meters_of(stations_, plain);
  ConditionLight light{lit_stations(plain, stations_, meters), {}};
  const Ranged<double>& lux = project_->settings.typical.night_switch.value;
  for (const double end : {lux.low, lux.high}) {
    const Lighting moved = plain.with_night_switch(end);
    const auto switches = [&](size_t i) {
      const double scene = meters[i].scene_lux();
      return stations_[i].picture == camera::PictureMode::kAutomatic &&
             (scene < moved.night_switch()) != (scene < plain.night_switch());
    };
    bool any = false;
    for (size_t i = 0; i < stations_.size(); ++i) any = any || switches(i);
    if (any) light.ends.push_back(lit_stations(moved, stations_, meters));
  }
  return light;
}

Moment LitProject::moment(const site::Condition& condition) const {
  return {project_, &in(condition).nominal.lighting, condition.name};
}

const Standing& LitProject::standing(const Need& need, const site::Condition& condition,
                                     const std::function<Standing()>& judge) const {
  const auto row = static_cast<size_t>(&need - project_->needs.data());
  return made_once(standings_[row * project_->conditions.size() + index_of(condition)], judge);
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
