// SPDX-License-Identifier: GPL-3.0-or-later
// The reference of a picture: the ray library alone on the rays that it takes, laid out beforehand tile by tile, in
// packets of 16 with the coherent flag: one from the lens for each pixel, and from what it meets one to each source of
// light that gives it anything that matters (walk/shade.h).
#pragma once
#include "need/station.h"
#include "site/site.h"
#include "walk/stage.h"

namespace sightfall::bench {

struct BareTimes {
  double primary = 0, shadows = 0;  ///< seconds in the library, summed over threads
  double primary_rays = 0, shadow_rays = 0;
};

/// The rays of a station's picture of what stands on the stage, its veils left out. All threads work.
BareTimes bare_picture(const site::Site& site, const walk::Stage& stage, const need::Station& station);

}  // namespace sightfall::bench
