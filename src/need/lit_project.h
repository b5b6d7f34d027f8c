// SPDX-License-Identifier: GPL-3.0-or-later
// A project's site with the light of its conditions on it and every camera metered in each, worked out once for
// whoever judges it.
//   Checked  check_test.cpp
#pragma once
#include <array>
#include <memory>
#include <vector>

#include "need/lighting.h"
#include "need/project.h"
#include "need/station.h"
#include "need/trial.h"
#include "site/scene.h"

namespace sightfall::need {

/// A light with every camera in it, metered once for all trials.
struct LitStations {
  Lighting lighting;
  std::vector<Station> stations;  ///< in that light

  LitStations(const Lighting& plain, const std::vector<Station>& all);
};

/// The light of a condition and, where it is open whether some camera is in colour or in monochrome, the same with
/// each end of the light at which cameras switch.
struct ConditionLight {
  LitStations nominal;
  std::vector<LitStations> ends;

  ConditionLight(const Lighting& plain, const std::vector<Station>& stations);
};

/// The project must outlive it.
class LitProject {
 public:
  explicit LitProject(const Project& project);

  const Project& project() const { return *project_; }
  const std::vector<Station>& stations() const { return stations_; }  ///< in no condition
  const ConditionLight& in(const site::Condition& condition) const { return lights_[index_of(condition)]; }
  Moment moment(const site::Condition& condition) const;

  /// The site in the season of a condition.
  const site::Scene& scene_in(const site::Condition& condition) const;

  /// A condition's place in the project.
  size_t index_of(const site::Condition& condition) const;

  /// Those conditions of a need that are among the named ones.
  std::vector<const site::Condition*> conditions_of(const Need& need, const std::vector<std::string>& names) const;

 private:
  const Project* project_;
  std::array<std::unique_ptr<site::Scene>, 2> scenes_;  // of the seasons that a condition asks for
  std::vector<Station> stations_;
  std::vector<ConditionLight> lights_;  // one a condition
};

}  // namespace sightfall::need
