// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/lamp_cautions.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "detail/signal.h"
#include "detail/transfer.h"
#include "need/picture_edge.h"
#include "need/sun_hours.h"
#include "site/ground.h"

namespace sightfall::need {
namespace {

using namespace units;
using geom::PlanPoint;
using geom::SitePoint;
using geom::Vec3;

/// A vehicle somewhere on its way.
struct OnTheWay {
  SitePoint lamps;
  Vec3 forward;  ///< unit
};

constexpr double kStep = 0.5;  // m along a route

std::vector<OnTheWay> along(const site::Site& site, const site::Place& route) {
  std::vector<OnTheWay> all;
  for (size_t i = 0; i + 1 < route.line.size(); ++i) {
    const PlanPoint from = route.line[i], way = route.line[i + 1] - from;
    const double length = norm(way);
    const auto steps = static_cast<int>(std::ceil(length / kStep));
    for (int k = 0; k < steps; ++k) {
      const PlanPoint at = from + ((k + 0.5) / steps) * way;
      all.push_back({site::above_ground(site.terrain, at, kHeadlightHeight), {way.x / length, way.y / length, 0}});
    }
  }
  return all;
}

bool driven(const Project& project, const site::Place& place) {
  if (place.kind != site::PlaceKind::kRoute) return false;
  return std::any_of(project.needs.begin(), project.needs.end(), [&](const Need& need) {
    return need.place == place.name && (need.subject == Subject::kPlate || need.subject == Subject::kVehicle);
  });
}

bool dazzles(const OnTheWay& vehicle, const Station& station, const PictureEdge& edge, const site::Scene& scene) {
  const Vec3 way = station.pose.eye_site - vehicle.lamps;
  const Vec3 to_eye = geom::unit(way);
  if (geom::dot(to_eye, vehicle.forward) < std::cos(kHeadlightBeam.si())) return false;
  return (edge.inside(-to_eye) || edge.near(-to_eye)) && scene.passed({vehicle.lamps, station.pose.eye_site}) > 0;
}

/// Hours of a year between sunset and sunrise; nothing without an anchor.
std::string dark_hours(const Project& project) {
  if (!project.site.anchor) return "whenever it is dark";
  constexpr double kYear = 365 * 24;  // h
  const double up = static_cast<double>(sun_of_a_year(*project.site.anchor).size()) * kSunStep.si() / 3600;
  return fmt::format("in the {:.0f} h of a year between sunset and sunrise", std::round((kYear - up) / 10) * 10);
}

}  // namespace

double band_depth(const Station& station) {
  if (station.flicker <= 0) return 0;
  const detail::Seen frame;  // a subject too small to count in the frame
  const double time = detail::exposed(station.constants, frame, detail::nominal(station.inputs)).time;
  return station.flicker * detail::sinc_transfer(time, station.constants.flicker_rate);
}

bool too_short_for_bands(const Station& station) {
  constexpr double kRounded = 0.99;  // 1/100 s is often typed as 0.0099 s
  const double longest = detail::nominal(station.inputs)[detail::Input::kShutter];
  return longest < kRounded / station.constants.flicker_rate;
}

std::optional<Caution> band_caution(const Station& station, const std::string& condition) {
  const double depth = band_depth(station);
  if (depth < kBandTold) return std::nullopt;
  const double swings = station.constants.flicker_rate;
  const double longest = detail::nominal(station.inputs)[detail::Input::kShutter];
  const std::string advice =
      too_short_for_bands(station)
          ? fmt::format(
                "its shutter is held to 1/{:.0f} s or shorter so that what moves stays sharp, and the bands are "
                "the price; lamps of steady light (on electronic gear or direct current) show none",
                1 / longest)
      : longest < 2 / swings ? fmt::format("1/{:.0f} s shows none", swings)
                             : fmt::format("1/{:.0f} s or 1/{:.0f} s shows none", swings, swings / 2);
  return Caution{station.name,
                 fmt::format("in \"{}\" lamps on the mains may lay bands of {:.0f} % over its picture at the short "
                             "shutter it comes to: {}",
                             condition, 100 * depth, advice)};
}

std::vector<Caution> headlight_cautions(const Project& project, const std::vector<Station>& stations,
                                        const site::Scene& scene) {
  std::vector<Caution> cautions;
  std::string dark;
  for (const site::Place& place : project.site.places) {
    if (!driven(project, place)) continue;
    const std::vector<OnTheWay> vehicles = along(project.site, place);
    if (vehicles.empty()) continue;
    const double metres = geom::length(place.line).si() / static_cast<double>(vehicles.size());
    const double speed = place.speed ? place.speed->si() : project.settings.typical.speed_vehicle.value.nominal;
    for (const Station& station : stations) {
      const PictureEdge edge{station};
      const auto count = std::count_if(vehicles.begin(), vehicles.end(),
                                       [&](const OnTheWay& vehicle) { return dazzles(vehicle, station, edge, scene); });
      if (count == 0) continue;
      if (dark.empty()) dark = dark_hours(project);
      cautions.push_back({station.name, fmt::format("headlights on \"{}\" shine into its lens for {:.1f} s of each "
                                                    "passage, {}",
                                                    place.name, static_cast<double>(count) * metres / speed, dark)});
    }
  }
  return cautions;
}

}  // namespace sightfall::need
