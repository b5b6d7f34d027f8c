// SPDX-License-Identifier: GPL-3.0-or-later
// The smallest change of one camera that mends a need, found by trying.
//   Order    focus distance; heading and tilt; focal length within the sheet's range; shutter; height of the mount;
//            another sheet of the catalogue (cheapest first); then heading with focal length, focus and another sheet
//            together. The first kind that mends wins, within a kind the smallest change; one that spoils no other need
//            goes first.
//   Checked  remedy_test.cpp
#pragma once
#include <functional>
#include <string>
#include <vector>

#include "base/progress.h"
#include "need/trial.h"

namespace sightfall::need {

/// A camera changed in one way.
struct Change {
  camera::Camera camera;
  Length raised;    ///< of the mount
  double size = 0;  ///< how large the change is, within its kind
  int kind = 0;     ///< the order above
  std::string text;
};

/// Every change worth trying on one camera for a need that falls short around `middle`.
std::vector<Change> changes_of(const Project& project, const camera::Camera& camera, const Need& need,
                               geom::SitePoint middle);

/// The station of a changed camera.
Station changed_station(const Project& project, const Change& change);

/// The needs whose answer would get worse with station `other` in place of camera number `camera`.
using Spoils = std::function<std::vector<std::string>(size_t camera, const Station& other)>;

/// Tries the changes on trials of a missed or marginal need, one trial a condition. Stopped, there is none.
std::optional<Remedy> find_remedy(const Project& project, const std::vector<Trial>& trials, const Spoils& spoils,
                                  const Progress& progress = {});

}  // namespace sightfall::need
