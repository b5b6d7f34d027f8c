// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/overlook.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "need/samples.h"
#include "need/station.h"
#include "need/window.h"
#include "site/ground.h"
#include "site/scene.h"

namespace sightfall::loads {
namespace {

using namespace units;
using geom::SitePoint;
using geom::Vec3;
using need::Station;

/// What a mask covers beyond what it is for, as a share of the picture's width and height: aim and lens are not exact.
constexpr double kMaskBeyond = 0.01;
/// Cells that the picture is looked through in, from side to side.
constexpr int kCells = 320;

Vec3 in_camera(const Station& station, SitePoint point) {
  return station.pose.camera_from_site * (point - station.pose.eye_site);
}

/// A rectangle of the picture that grows.
class Frame {
 public:
  Frame(const camera::Projector& projector) : projector_{projector} {}

  void include(geom::ImagePoint at, double margin_px = 0) {
    const double u = at.u + 0.5, v = at.v + 0.5;
    left_ = std::min(left_, (u - margin_px) / projector_.columns);
    right_ = std::max(right_, (u + margin_px) / projector_.columns);
    top_ = std::min(top_, (v - margin_px) / projector_.rows);
    bottom_ = std::max(bottom_, (v + margin_px) / projector_.rows);
  }

  camera::Mask mask(std::string name) const {
    const auto share = [](double value) { return std::clamp(value, 0.0, 1.0); };
    return {std::move(name), share(left_ - kMaskBeyond), share(top_ - kMaskBeyond), share(right_ + kMaskBeyond),
            share(bottom_ + kMaskBeyond)};
  }

 private:
  const camera::Projector& projector_;
  double left_ = 1, right_ = 0, top_ = 1, bottom_ = 0;
};

std::optional<Overlooked> window_overlooked(const need::Project& project, const Station& station,
                                            const site::Scene& scene, const site::Window& window) {
  const auto seen = need::window_seen(project, station, scene, window);
  if (!seen) return std::nullopt;
  Frame frame(station.lens.projector);
  for (const geom::ImagePoint& at : seen->points) frame.include(at);
  return Overlooked{station.name, window.name, seen->density, {}, frame.mask(window.name), {}, false};
}

/// What a camera has of the ground beyond the boundary, cell by cell of its picture.
std::optional<Overlooked> ground_seen(const need::Project& project, const Station& station, const site::Scene& scene) {
  const camera::Projector& p = station.lens.projector;
  const geom::Outline own{project.site.boundary, {}};
  const PixelDensity faintest = need::faintest(project.settings.levels);
  const double cell = static_cast<double>(p.columns) / kCells;
  const int rows = std::max(1, static_cast<int>(std::ceil(p.rows / cell)));
  const geom::Mat3 to_site = transposed(station.pose.camera_from_site);
  // Twice what is reached on the axis: a point aside is farther than it is deep.
  const Length farthest = 2 * (Pixels{p.focal_px} / faintest);
  Overlooked seen{station.name, {}, {}, {}, {}, {}, false};
  Frame frame(p);
  for (int row = 0; row < rows; ++row)
    for (int column = 0; column < kCells; ++column) {
      const geom::ImagePoint at{(column + 0.5) * cell - 0.5, (row + 0.5) * cell - 0.5};
      const auto ray = camera::ray_camera(p, at);
      if (!ray || !need::shows(station, *ray)) continue;
      const Vec3 towards = to_site * *ray;
      const auto hit = scene.first_solid(station.pose.eye_site, towards, farthest);
      if (!hit || hit->solid != -1) continue;
      const SitePoint ground = station.pose.eye_site + hit->distance * towards;
      if (geom::contains(own, plan(ground))) continue;
      const geom::PlanPoint back = plan(station.pose.eye_site - ground);
      const double level = norm(back);
      const PixelDensity density{
          need::density_upright(station, ground, level > 0 ? (1 / level) * back : geom::PlanPoint{0, 1})};
      if (density < faintest) continue;
      seen.density = std::max(seen.density, density);
      const auto flat = camera::surface_density(camera::jacobian(p, in_camera(station, ground)),
                                                station.pose.camera_from_site * Vec3{1, 0, 0},
                                                station.pose.camera_from_site * Vec3{0, 1, 0});
      if (flat.determinant > 0) seen.area = seen.area + Area{cell * cell / flat.determinant};
      frame.include(at, cell / 2);
    }
  if (seen.density <= PixelDensity{0}) return std::nullopt;
  seen.mask = frame.mask("beyond the boundary");
  return seen;
}

bool worse(const need::Verdict& after, const need::Verdict& before) { return after.answer > before.answer; }

/// Whether a mask may cover something of a subject at a point: of all within kAround of it, told rather too often.
bool may_cover(const Station& station, const camera::Mask& mask, SitePoint middle) {
  constexpr double kAround = 3;  // m, more than any subject measures
  Frame frame(station.lens.projector);
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

/// Needs that the mask may make worse, by name: not missed already, and something of their place may be under it.
std::vector<std::string> to_lose(const need::Project& project, const need::CheckResult& result,
                                 const Overlooked& thing) {
  const Station station = need::station_of(project, need::the_named(project.cameras, thing.camera));
  std::vector<std::string> names;
  for (const need::Verdict& verdict : result.verdicts) {
    if (verdict.answer == need::Answer::kMissed) continue;
    const need::Need& need = need::the_named(project.needs, verdict.need);
    const auto samples = need::samples_of(project, need, need::first_count(project, need));
    if (std::any_of(samples.begin(), samples.end(),
                    [&](const need::Sample& one) { return may_cover(station, thing.mask, one.at_site); }))
      names.push_back(verdict.need);
  }
  return names;
}

void add_costs(const need::Project& project, const need::CheckResult& before, Overlooked& thing,
               const Progress& progress) {
  const std::vector<std::string> needs = to_lose(project, before, thing);
  if (needs.empty()) {
    thing.judged = true;
    return;
  }
  need::Project masked = project;
  for (camera::Camera& camera : masked.cameras)
    if (camera.name == thing.camera) camera.masks.push_back(thing.mask);
  const need::CheckResult after =
      need::check(masked, {needs, {}, false, false}, {[](double, std::string_view) {}, progress.stop});
  if (after.stopped) return;
  thing.judged = true;
  for (const need::Verdict& verdict : after.verdicts) {
    const auto was = std::find_if(before.verdicts.begin(), before.verdicts.end(),
                                  [&](const need::Verdict& one) { return one.need == verdict.need; });
    if (was != before.verdicts.end() && worse(verdict, *was))
      thing.costs.push_back({verdict.need, was->answer, verdict.answer, was->share.nominal, verdict.share.nominal});
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

Overlook overlook(const need::Project& project, bool judge, const Progress& progress) {
  Overlook answer;
  answer.no_boundary = project.site.boundary.empty();
  const site::Scene scene{project.site, site::Leaves::kOff};
  for (const Station& station : need::stations_of(project)) {
    for (const site::Window& window : project.site.neighbours)
      if (auto seen = window_overlooked(project, station, scene, window)) answer.things.push_back(std::move(*seen));
    if (answer.no_boundary) continue;
    if (auto seen = ground_seen(project, station, scene)) answer.things.push_back(std::move(*seen));
  }
  if (!answer.things.empty()) answer.held = Held::kMarginal;
  for (const Overlooked& thing : answer.things) answer.cautions.push_back({thing.camera, words_of(thing)});
  if (!judge || answer.things.empty()) return answer;
  progress.tell(0, "the needs as they are");
  const need::CheckResult before =
      need::check(project, {{}, {}, false, false}, {[](double, std::string_view) {}, progress.stop});
  for (size_t i = 0; i < answer.things.size() && !progress.stopped(); ++i) {
    progress.tell(static_cast<double>(i + 1) / static_cast<double>(answer.things.size() + 1),
                  fmt::format("what a mask of \"{}\" costs", answer.things[i].camera));
    add_costs(project, before, answer.things[i], progress);
  }
  return answer;
}

}  // namespace sightfall::loads
