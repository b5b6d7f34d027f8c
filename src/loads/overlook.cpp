// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/overlook.h"

#include <fmt/format.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <iterator>
#include <optional>

#include "loads/beyond.h"
#include "loads/mask_frame.h"
#include "need/lit_project.h"
#include "need/samples.h"
#include "need/station.h"
#include "need/window.h"
#include "need/words.h"
#include "site/scene.h"

namespace sightfall::loads {
namespace {

using namespace units;
using geom::SitePoint;
using geom::Vec3;
using need::Station;

Vec3 in_camera(const Station& station, SitePoint point) {
  return station.pose.camera_from_site * (point - station.pose.eye_site);
}

std::optional<Overlooked> window_overlooked(const need::Project& project, const Station& station,
                                            const site::Scene& scene, const site::Window& window) {
  const auto seen = need::window_seen(project, station, scene, window);
  if (!seen) return std::nullopt;
  MaskFrame frame(station.lens.projector);
  for (const geom::ImagePoint& at : seen->points) frame.include(at);
  return Overlooked{station.name, window.name, seen->density, {}, frame.mask(window.name), {}, false};
}

std::vector<Overlooked> things_seen(const need::Project& project, const Station& station, const site::Scene& scene,
                                    const std::optional<Beyond>& beyond) {
  std::vector<Overlooked> things;
  for (const site::Window& window : project.site.neighbours)
    if (auto seen = window_overlooked(project, station, scene, window)) things.push_back(std::move(*seen));
  if (!beyond) return things;
  if (const auto seen = beyond->seen_by(station))
    things.push_back({station.name, {}, seen->density, seen->area, seen->mask, {}, false});
  return things;
}

/// Whether a mask may cover something of a subject at a point: of all within kAround of it, told rather too often.
bool may_cover(const Station& station, const camera::Mask& mask, SitePoint middle) {
  constexpr double kAround = 3;  // m, more than any subject measures
  MaskFrame frame(station.lens.projector);
  for (const double x : {-kAround, kAround})
    for (const double y : {-kAround, kAround})
      for (const double z : {-kAround, kAround}) {
        const auto at = camera::image_point(station.lens.projector, in_camera(station, middle + Vec3{x, y, z}));
        if (!at) return true;
        frame.include(*at);
      }
  const camera::Mask around = frame.mask("");
  return around.left < mask.right && mask.left < around.right && around.top < mask.bottom && mask.top < around.bottom;
}

/// Where each need is tried.
std::vector<std::vector<need::Sample>> samples_of_needs(const need::Project& project) {
  std::vector<std::vector<need::Sample>> samples;
  for (const need::Need& need : project.needs)
    samples.push_back(need::samples_of(project, need, need::first_count(project, need)));
  return samples;
}

/// Needs that the mask may make worse, by name: something of their place may be under it.
std::vector<std::string> to_lose(const need::Project& project, const std::vector<std::vector<need::Sample>>& samples,
                                 const Station& station, const camera::Mask& mask) {
  std::vector<std::string> names;
  for (size_t i = 0; i < samples.size(); ++i)
    if (std::any_of(samples[i].begin(), samples[i].end(),
                    [&](const need::Sample& one) { return may_cover(station, mask, one.at_site); }))
      names.push_back(project.needs[i].name);
  return names;
}

/// Whether a mask takes anything that can be told: the answer, some of the share, or of the worst place's detail.
bool is_worse(const need::Became& one) {
  constexpr double kOfShare = 5e-5, kOfDensity = 0.5;  // px/m
  return one.after.answer > one.before.answer || one.after.share < one.before.share - kOfShare ||
         one.after.worst.si() < one.before.worst.si() - kOfDensity;
}

void add_costs(const need::LitProject& lit, std::vector<Overlooked>& things, const Progress& progress) {
  const need::Project& project = lit.project();
  const std::vector<std::vector<need::Sample>> samples = samples_of_needs(project);
  std::vector<need::Otherwise> masked(things.size());
  tbb::parallel_for(size_t{0}, things.size(), [&](size_t i) {
    const camera::Camera& camera = need::the_named(project.cameras, things[i].camera);
    const auto number = static_cast<size_t>(&camera - project.cameras.data());
    masked[i] = {number, camera, to_lose(project, samples, lit.stations()[number], things[i].mask)};
    masked[i].set.masks.push_back(things[i].mask);
  });
  const auto became = need::hold_otherwise(
      lit, masked,
      {[&](double share, std::string_view) { progress.tell(share, "what masks cost the needs"); }, progress.stop});
  if (progress.stopped()) return;
  for (size_t i = 0; i < things.size(); ++i) {
    things[i].judged = true;
    for (const need::Became& one : became[i])
      if (is_worse(one))
        things[i].costs.push_back({one.need, one.before.answer, one.after.answer, one.before.share, one.after.share,
                                   one.before.worst, one.after.worst});
  }
}

std::string words_of(const Overlooked& thing) {
  if (!thing.window.empty())
    return fmt::format(
        "shows the neighbour's window \"{}\" at {:.0f} px/m: turn it, mask it, or ask; law and courtesy "
        "both count here",
        thing.window, thing.density.in(px / m));
  return fmt::format(
      "shows {:.0f} m2 of ground beyond the boundary, at up to {:.0f} px/m: mask what it is not needed "
      "for; what may be shown of a street or of others' land is for the law where it hangs",
      thing.area.in(m2), thing.density.in(px / m));
}

}  // namespace

std::string cost_words(const MaskCost& cost, need::Units units) {
  std::string words = cost.before == cost.after ? fmt::format("{}: still {}", cost.need, need::in_words(cost.after))
                                                : fmt::format("{}: {}, then {}", cost.need, need::in_words(cost.before),
                                                              need::in_words(cost.after));
  const auto add = [&](const char* what, const std::string& before, const std::string& after) {
    if (before != after) words += fmt::format(", {} {} to {}", what, before, after);
  };
  add("share", need::share_words(cost.share_before), need::share_words(cost.share_after));
  add("worst place", need::density_words(cost.worst_before, units), need::density_words(cost.worst_after, units));
  return words;
}

Overlook overlook(const need::LitProject& lit, bool judge, const Progress& progress) {
  const need::Project& project = lit.project();
  Overlook answer;
  answer.no_boundary = project.site.boundary.empty();
  const site::Scene& scene = lit.scene(site::Leaves::kOff);
  const std::vector<Station>& stations = lit.stations();
  std::optional<Beyond> beyond;
  if (!answer.no_boundary) beyond.emplace(project, scene, stations);
  std::vector<std::vector<Overlooked>> by_station(stations.size());
  tbb::parallel_for(size_t{0}, stations.size(),
                    [&](size_t i) { by_station[i] = things_seen(project, stations[i], scene, beyond); });
  for (std::vector<Overlooked>& things : by_station)
    std::move(things.begin(), things.end(), std::back_inserter(answer.things));
  if (!answer.things.empty()) answer.held = Held::kMarginal;
  for (const Overlooked& thing : answer.things) answer.cautions.push_back({thing.camera, words_of(thing)});
  if (!judge || answer.things.empty()) return answer;
  add_costs(lit, answer.things, progress);
  return answer;
}

}  // namespace sightfall::loads
