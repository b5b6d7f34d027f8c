// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/light_shares.h"

#include <algorithm>
#include <array>

namespace sightfall::need {
namespace {

/// A point source's light at the place, shadows counted; nothing when it is the camera's own.
std::optional<Direct> reaching(const Lighting& lighting, size_t point, geom::SitePoint place, int but_camera) {
  auto one = lighting.from_point(point, place);
  if (!one || (one->camera != kNoCamera && one->camera == but_camera)) return std::nullopt;
  const double through = lighting.scene().passed({lighting.origin(point, place), place});
  if (through <= 0) return std::nullopt;
  one->normal = through * one->normal;
  return one;
}

LightShare source_of(const Lighting& lighting, size_t point, size_t lamps_from, const Direct& one) {
  if (lighting.is_far(point)) return {LightFrom::kSunOrMoon, {}, 0};
  if (one.camera != kNoCamera)
    return {LightFrom::kOthersInfrared, lighting.project().cameras[static_cast<size_t>(one.camera)].name, 0};
  return {LightFrom::kLamp, lighting.lamps()[point - lamps_from].lamp->name, 0};
}

}  // namespace

std::string_view in_words(LightFrom from) {
  constexpr std::array<std::string_view, 5> kWords{"all round", "sun or moon", "lamp", "own infrared",
                                                   "other infrared"};
  return kWords.at(static_cast<size_t>(from));
}

std::vector<LightShare> light_shares(const Station& station, const Lighting& lighting, const PlaceLight& light,
                                     const Posed& posed, double power) {
  Station bare = station;  // stray light is not the subject's, and would be added up for each source
  bare.glare.clear();
  const auto signal = [&](const PlaceLight& by) {
    detail::Seen seen;
    illuminate(bare, lighting, by, posed, seen);
    return seen;
  };
  std::vector<LightShare> shares;
  double sum = 0;
  const auto add = [&](LightShare one, double of_it) {
    one.share = of_it;
    sum += of_it;
    shares.push_back(std::move(one));
  };
  PlaceLight around = light;
  around.direct.clear();
  const detail::Seen by_all_round = signal(around);
  add({LightFrom::kAllRound, {}, 0}, by_all_round.others);
  add({LightFrom::kOwnInfrared, station.name, 0}, power * by_all_round.own);
  size_t far = 0;
  while (far < lighting.point_count() && lighting.is_far(far)) ++far;
  for (size_t point = 0; point < lighting.point_count(); ++point) {
    const auto one = reaching(lighting, point, posed.at, station.number);
    if (!one) continue;
    PlaceLight alone;
    alone.direct = {*one};
    add(source_of(lighting, point, far, *one), signal(alone).others);
  }
  std::erase_if(shares, [&](const LightShare& one) { return !(one.share >= kShareTold * sum) || one.share <= 0; });
  for (LightShare& one : shares) one.share /= sum;
  std::stable_sort(shares.begin(), shares.end(),
                   [](const LightShare& a, const LightShare& b) { return a.share > b.share; });
  return shares;
}

}  // namespace sightfall::need
