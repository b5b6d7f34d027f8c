// SPDX-License-Identifier: GPL-3.0-or-later
// A camera in one condition: its frame as the exposure meter sees it, colour or monochrome, infrared on or off.
//   Model    rays through the picture to the first surface (need/meter.h), each with its material and the light that
//            falls on it, own infrared included: a soffit or a mesh before the lens counts. docs/models.md section 5
//   Checked  frame_test.cpp
#pragma once
#include <memory>
#include <vector>

#include "need/lighting.h"
#include "need/meter.h"
#include "need/station.h"

namespace sightfall::need {

/// The station with the condition's part filled in: metering, response, mode, infrared, stray light. A meter that is
/// there already is of it in the same light but for cameras' infrared.
Station in_condition(const Station& station, const Lighting& lighting);
Station in_condition(const Station& station, const Meter& meter, const Lighting& lighting);
std::vector<Station> in_condition(const std::vector<Station>& stations, const Lighting& lighting);

/// The same where the meters are there already, in the same light but for cameras' infrared.
std::vector<Station> in_condition(const std::vector<Station>& stations, const std::vector<Meter>& meters,
                                  const Lighting& lighting);

/// The light of a condition joined by the infrared of each camera that burns it then.
Lighting with_cameras(const Lighting& lighting, const std::vector<Station>& stations);
Lighting with_cameras(const Lighting& lighting, const std::vector<Station>& stations, const std::vector<Meter>& meters);

/// A light joined by the infrared of each camera that burns it then, with every camera in it.
struct LitStations {
  Lighting lighting;
  std::vector<Station> stations;
};
LitStations lit_stations(const Lighting& lighting, const std::vector<Station>& stations);
LitStations lit_stations(const Lighting& lighting, const std::vector<Station>& stations,
                         const std::vector<Meter>& meters);

/// A project's site in a condition, with the light on it, cameras' infrared joined. The project must outlive it.
struct LitScene {
  std::shared_ptr<const site::Scene> scene;
  Lighting lighting;
};
LitScene lit_scene(const Project& project, const site::Condition& condition);

}  // namespace sightfall::need
