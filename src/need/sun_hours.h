// SPDX-License-Identifier: GPL-3.0-or-later
// How long in a year the sun stands in a camera's picture, or so near its edge that it shines into the lens.
//   Model    the middle of the sun's disc every kSunStep of a year in clear weather, above the horizon, not hidden by
//            the site within kSunReach; veils hide it when they pass kVeilHides of it or less
//   In/Out   mean solar time of the place: universal time and longitude / 15 degrees an hour; clocks differ
//   Limits   hours of sunshine in a clear year, an upper bound: weather takes its part. Leaves are as in the scene
//   Checked  sun_hours_test.cpp
#pragma once
#include <string>
#include <vector>

#include "base/progress.h"
#include "need/station.h"
#include "site/scene.h"
#include "unit/quantity.h"

namespace sightfall::need {

inline constexpr int kSunYear = 2027;  ///< any year does: the same day and hour are within half a degree
inline constexpr Time kSunStep{600};
inline constexpr Length kSunReach{2000};
inline constexpr double kVeilHides = 0.2;

/// Where the sun stands at one step, above the horizon.
struct SunStand {
  int month = 1;       ///< 1 to 12
  Time of_day;         ///< since midnight, mean solar time
  geom::Vec3 towards;  ///< unit, site frame
};

/// Every step of the year at which the sun is up.
std::vector<SunStand> sun_of_a_year(const site::Anchor& anchor);

/// When something happens: how long in all, and the shortest stretch of the year and of the day that holds it. Either
/// may pass the year's end or midnight: from November to February.
struct SunSpell {
  Time total;
  int first_month = 0, last_month = 0;  ///< 1 to 12; zero when it never happens
  Time from, upto;                      ///< of the day
};

struct SunHours {
  std::string camera;
  SunSpell in_picture, near_edge;  ///< near: within kNearEdge of the border (picture_edge.h)
  std::string words;
};

/// One for each station; those begun when it was stopped are left out.
std::vector<SunHours> sun_hours(const std::vector<SunStand>& sun, const std::vector<Station>& stations,
                                const site::Scene& scene, const Progress& progress = {});
std::vector<SunHours> sun_hours(const site::Anchor& anchor, const std::vector<Station>& stations,
                                const site::Scene& scene, const Progress& progress = {});

}  // namespace sightfall::need
