// SPDX-License-Identifier: GPL-3.0-or-later
// What the user should know before drilling, beside the needs: hands that reach a camera, windows it looks into, places
// that no need names, which camera watches which.
//   Checked  cautions_test.cpp
#pragma once
#include <string>
#include <vector>

#include "need/check.h"
#include "need/station.h"
#include "site/scene.h"

namespace sightfall::need {

/// Below this a standing person reaches a camera: common practice, no published source.
inline constexpr Length kReachOfHand{3.0};
/// Above this a mount is worked on at a height that asks for more than a step.
inline constexpr Length kWorkAtHeight{2.0};

/// The same words wherever they are said, so that a reader is told once.
inline constexpr const char* kHeightKills =
    "work at height and near mains can kill; local codes and licensed trades decide how it is done";
/// Of a mount below kReachOfHand.
std::string within_reach_words(Length height);

std::vector<Caution> cautions_of(const Project& project, const std::vector<Station>& stations);

/// Each pair of a camera and another one that it has in its picture, unhidden.
std::vector<Watch> watches_of(const std::vector<Station>& stations, const site::Scene& scene);

/// Names of places that no need names.
std::vector<std::string> places_without_need(const Project& project);

}  // namespace sightfall::need
