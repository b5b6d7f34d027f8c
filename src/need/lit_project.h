// SPDX-License-Identifier: GPL-3.0-or-later
// A project's site with the light of its conditions on it and every camera metered in each: worked out once, when it is
// first asked for, for all who judge it.
//   Checked  check_test.cpp
#pragma once
#include <array>
#include <deque>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "need/frame.h"
#include "need/project.h"
#include "need/station.h"
#include "need/trial.h"
#include "site/scene.h"

namespace sightfall::need {

/// The light of a condition and, where it is open whether some camera is in colour or in monochrome, the same with
/// each end of the light at which cameras switch.
struct ConditionLight {
  LitStations nominal;
  std::vector<LitStations> ends;
};

/// A judgement and how many samples it took.
struct Standing {
  Judgement judgement;
  int samples = 0;
};

/// The project must outlive it. Safe to ask from many threads; all of them take part in the work when none waits for
/// it, so whoever is about to judge in parallel asks for its conditions first.
class LitProject {
 public:
  explicit LitProject(const Project& project);

  const Project& project() const { return *project_; }
  const std::vector<Station>& stations() const { return stations_; }  ///< in no condition
  const site::Scene& scene(site::Leaves leaves) const;

  /// The light of one of the project's conditions.
  const ConditionLight& in(const site::Condition& condition) const;
  Moment moment(const site::Condition& condition) const;

  /// How one of the project's needs stands in one of its conditions, as `judge` tells it when it is first asked for.
  const Standing& standing(const Need& need, const site::Condition& condition,
                           const std::function<Standing()>& judge) const;

  /// The light of a condition that need not be the project's.
  ConditionLight light_of(const site::Condition& condition) const;

  /// A condition's place in the project.
  size_t index_of(const site::Condition& condition) const;

  /// Those conditions of a need that are among the named ones.
  std::vector<const site::Condition*> conditions_of(const Need& need, const std::vector<std::string>& names) const;

 private:
  template <class T>
  struct Once {
    std::once_flag made;
    std::optional<T> value;
  };

  const Project* project_;
  std::vector<Station> stations_;
  mutable std::array<Once<site::Scene>, 2> scenes_;  // one a season
  mutable std::deque<Once<ConditionLight>> lights_;  // one a condition
  mutable std::deque<Once<Standing>> standings_;     // of each need in every condition
};

}  // namespace sightfall::need
