// SPDX-License-Identifier: GPL-3.0-or-later
// What a camera shows of a neighbour's window: how finely, and where in its picture.
//   Model    its corners and its middle, a little before its wall, where it faces the camera; the density is the
//            largest on its own plane of those in the picture that nothing hides
//   Checked  cautions_test.cpp, loads/overlook_test.cpp
#pragma once
#include <optional>
#include <vector>

#include "need/station.h"
#include "site/scene.h"

namespace sightfall::need {

/// Density at a point, px/m, on an upright plane of that outward normal (unit).
double density_upright(const Station& station, geom::SitePoint point, geom::PlanPoint outward);

struct WindowSeen {
  PixelDensity density;
  std::vector<geom::ImagePoint> points;  ///< of corners and middle, hidden ones too
};

/// Nothing when no point of it shows.
std::optional<WindowSeen> window_seen(const Project& project, const Station& station, const site::Scene& scene,
                                      const site::Window& window);

}  // namespace sightfall::need
