// SPDX-License-Identifier: GPL-3.0-or-later
// The hot path: one camera over very many points, each a face-sized target turned to the camera.
//   Model    density is the smaller singular value on the vertical plane turned to the camera, in closed form from the
//            mapping's scales along and across the radius; points lie in tiles so that whole tiles are culled and rays
//            stay together
//   Error    kSweepError against camera::surface_density for mappings without tangential terms, which are the only
//            ones taken in closed form; others go the long way
//   Checked  sweep_test.cpp; bench/sweep_bench.cpp beside bare ray tracing
#pragma once
#include <cstdint>
#include <vector>

#include "need/station.h"
#include "need/sweep_points.h"
#include "site/scene.h"

namespace sightfall::need {

inline constexpr double kSweepError = 1e-4;  ///< relative: single precision over site coordinates

/// A point that the camera sees.
struct SweepHit {
  uint32_t point = 0;  ///< in the list given
  float density = 0;   ///< px/m, nominal
  float depth = 0;     ///< m along the axis
  float passed = 0;    ///< fraction of light that veils pass
};

/// Appends the points in the camera's picture that no solid hides and whose density is at least `faintest`.
void sweep(const Station& station, const site::Scene& scene, const SweepPoints& points, PixelDensity faintest,
           std::vector<SweepHit>& hits);

/// How many rays a sweep casts: the points in the picture and dense enough, hidden or not.
size_t sweep_rays(const Station& station, const SweepPoints& points, PixelDensity faintest,
                  std::vector<uint32_t>* in_tile_order = nullptr);

}  // namespace sightfall::need
