// SPDX-License-Identifier: GPL-3.0-or-later
// A camera in one condition: its frame as the exposure meter sees it, colour or monochrome, infrared on or off.
//   Model    kColumns x kRows rays through the picture to the first surface, each with its material and the light that
//            falls on it, own infrared included: a soffit or a mesh before the lens counts. docs/models.md section 5
//   Checked  frame_test.cpp
#pragma once
#include <memory>
#include <vector>

#include "need/lighting.h"
#include "need/station.h"

namespace sightfall::need {

inline constexpr int kMeterColumns = 24, kMeterRows = 14;

/// The station with the condition's part filled in: metering, response, mode, infrared, stray light.
Station in_condition(const Station& station, const Lighting& lighting);
std::vector<Station> in_condition(const std::vector<Station>& stations, const Lighting& lighting);

/// Light on what a camera's frame shows, lx: what decides between colour and monochrome.
double scene_lux(const Station& station, const Lighting& lighting);

/// The light of a condition joined by the infrared of each camera that burns it then.
Lighting with_cameras(const Lighting& lighting, const std::vector<Station>& stations);

/// A project's site in a condition, with the light on it, cameras' infrared joined. The project must outlive it.
struct LitScene {
  std::shared_ptr<const site::Scene> scene;
  Lighting lighting;
};
LitScene lit_scene(const Project& project, const site::Condition& condition);

}  // namespace sightfall::need
