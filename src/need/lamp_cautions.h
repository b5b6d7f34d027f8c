// SPDX-License-Identifier: GPL-3.0-or-later
// What lamps do to a picture beside giving light: bands where they swing with the mains, headlights in the lens.
//   Model    a row exposed for t averages the swing of a lamp on the mains of frequency f by |sinc(2 f t)|.
//            Headlights shine into a lens that lies within kHeadlightBeam of the way a vehicle goes and that has them
//            in its picture or within kNearEdge of its edge (sun_hours.h), unhidden
//   Limits   a vehicle keeps to the middle of its route; its lamps are on whenever the sun is down
//   Checked  lamp_cautions_test.cpp
#pragma once
#include <optional>
#include <vector>

#include "need/cautions.h"
#include "need/lighting.h"

namespace sightfall::need {

inline constexpr Angle kHeadlightBeam{20 * 0.017453292519943295};  ///< to each side, dipped (from memory)
inline constexpr Length kHeadlightHeight{0.65};                    ///< from memory
inline constexpr double kBandTold = 0.05;                          ///< least swing that is told

/// Share by which a frame's rows differ at the shutter that the frame asks for, where lamps swing most. The station is
/// in its condition (frame.h).
double band_depth(const Station& station);

/// Whether its shutter, fixed or at its longest, is shorter than a swing of lamps on the mains, so that it cannot be
/// set to show no bands.
bool too_short_for_bands(const Station& station);

/// Bands that a camera's picture shows in one condition.
std::optional<Caution> band_caution(const Station& station, const std::string& condition);

/// For how long of a passage headlights on a route shine into each camera, and how many hours of a year are dark.
std::vector<Caution> headlight_cautions(const Project& project, const std::vector<Station>& stations,
                                        const site::Scene& scene);

}  // namespace sightfall::need
