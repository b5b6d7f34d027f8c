// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/overlook.h"

#include <fmt/format.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>

#include "camera/mask.h"
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

double cell_px(const camera::Projector& projector) { return static_cast<double>(projector.columns) / kCells; }

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

/// A cell of a picture, and the ray through its middle.
struct CellRay {
  geom::ImagePoint at;
  Vec3 in_camera;
};

/// The cells of pictures, worked out once for cameras that are alike.
class CellRays {
 public:
  explicit CellRays(const std::vector<Station>& stations) {
    for (const Station& station : stations)
      if (of(station.lens.projector) == nullptr)
        all_.emplace_back(station.lens.projector, through_cells(station.lens.projector));
  }
  const std::vector<CellRay>* of(const camera::Projector& projector) const {
    const auto found = std::find_if(all_.begin(), all_.end(), [&](const auto& one) { return one.first == projector; });
    return found == all_.end() ? nullptr : &found->second;
  }

 private:
  static std::vector<CellRay> through_cells(const camera::Projector& p) {
    const double cell = cell_px(p);
    const int rows = std::max(1, static_cast<int>(std::ceil(p.rows / cell)));
    std::vector<CellRay> rays;
    for (int row = 0; row < rows; ++row)
      for (int column = 0; column < kCells; ++column) {
        const geom::ImagePoint at{(column + 0.5) * cell - 0.5, (row + 0.5) * cell - 0.5};
        const auto ray = camera::ray_camera(p, at);
        if (ray && camera::in_picture(p, at)) rays.push_back({at, *ray});
      }
    return rays;
  }

  std::vector<std::pair<camera::Projector, std::vector<CellRay>>> all_;
};

/// On even ground: whether a ray comes down within its reach beyond the outline, if nothing stands in its way. Told
/// first, since most of a picture shows what is the user's own.
bool comes_down_beyond(const geom::Outline& own, SitePoint eye, Vec3 towards, Length reach) {
  if (towards.z >= 0) return false;
  const double distance = -eye.z / towards.z;
  return distance <= reach.si() && !geom::contains(own, plan(eye + distance * towards));
}

/// What a camera has of the ground beyond the boundary, cell by cell of its picture.
std::optional<Overlooked> ground_seen(const need::Project& project, const Station& station, const site::Scene& scene,
                                      const std::vector<CellRay>& cells) {
  const camera::Projector& p = station.lens.projector;
  const geom::Outline own{project.site.boundary, {}};
  const PixelDensity faintest = need::faintest(project.settings.levels);
  const double cell = cell_px(p);
  const geom::Mat3 to_site = transposed(station.pose.camera_from_site);
  // Twice what is reached on the axis: a point aside is farther than it is deep.
  const Length farthest = 2 * (Pixels{p.focal_px} / faintest);
  Overlooked seen{station.name, {}, {}, {}, {}, {}, false};
  Frame frame(p);
  for (const CellRay& ray : cells) {
    if (camera::masked(station.masks, p, ray.at)) continue;
    const Vec3 towards = to_site * ray.in_camera;
    const SitePoint eye = station.pose.eye_site;
    if (project.site.terrain.flat() && !comes_down_beyond(own, eye, towards, farthest)) continue;
    const auto hit = scene.first_solid(eye, towards, farthest);
    if (!hit || hit->solid != -1) continue;
    const SitePoint ground = eye + hit->distance * towards;
    if (geom::contains(own, plan(ground))) continue;
    const geom::PlanPoint back = plan(eye - ground);
    const double level = norm(back);
    const PixelDensity density{
        need::density_upright(station, ground, level > 0 ? (1 / level) * back : geom::PlanPoint{0, 1})};
    if (density < faintest) continue;
    seen.density = std::max(seen.density, density);
    const auto flat = camera::surface_density(camera::jacobian(p, in_camera(station, ground)),
                                              station.pose.camera_from_site * Vec3{1, 0, 0},
                                              station.pose.camera_from_site * Vec3{0, 1, 0});
    if (flat.determinant > 0) seen.area = seen.area + Area{cell * cell / flat.determinant};
    frame.include(ray.at, cell / 2);
  }
  if (seen.density <= PixelDensity{0}) return std::nullopt;
  seen.mask = frame.mask("beyond the boundary");
  return seen;
}

std::vector<Overlooked> things_seen(const need::Project& project, const Station& station, const site::Scene& scene,
                                    const CellRays& rays) {
  std::vector<Overlooked> things;
  for (const site::Window& window : project.site.neighbours)
    if (auto seen = window_overlooked(project, station, scene, window)) things.push_back(std::move(*seen));
  if (project.site.boundary.empty()) return things;
  if (auto seen = ground_seen(project, station, scene, *rays.of(station.lens.projector)))
    things.push_back(std::move(*seen));
  return things;
}

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

/// Needs that the mask may make worse, by name: something of their place may be under it.
std::vector<std::string> to_lose(const need::Project& project, const Overlooked& thing) {
  const Station station = need::station_of(project, need::the_named(project.cameras, thing.camera));
  std::vector<std::string> names;
  for (const need::Need& need : project.needs) {
    const auto samples = need::samples_of(project, need, need::first_count(project, need));
    if (std::any_of(samples.begin(), samples.end(),
                    [&](const need::Sample& one) { return may_cover(station, thing.mask, one.at_site); }))
      names.push_back(need.name);
  }
  return names;
}

void add_costs(const need::Project& project, std::vector<Overlooked>& things, const Progress& progress) {
  std::vector<need::Otherwise> masked(things.size());
  tbb::parallel_for(size_t{0}, things.size(), [&](size_t i) {
    const camera::Camera& camera = need::the_named(project.cameras, things[i].camera);
    masked[i] = {static_cast<size_t>(&camera - project.cameras.data()), camera, to_lose(project, things[i])};
    masked[i].set.masks.push_back(things[i].mask);
  });
  const auto became = need::hold_otherwise(
      project, masked,
      {[&](double share, std::string_view) { progress.tell(share, "what masks cost the needs"); }, progress.stop});
  if (progress.stopped()) return;
  for (size_t i = 0; i < things.size(); ++i) {
    things[i].judged = true;
    for (const need::Became& one : became[i])
      if (one.after.answer > one.before.answer)
        things[i].costs.push_back({one.need, one.before.answer, one.after.answer, one.before.share, one.after.share});
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
  const std::vector<Station> stations = need::stations_of(project);
  const CellRays rays{answer.no_boundary ? std::vector<Station>{} : stations};
  std::vector<std::vector<Overlooked>> by_station(stations.size());
  tbb::parallel_for(size_t{0}, stations.size(),
                    [&](size_t i) { by_station[i] = things_seen(project, stations[i], scene, rays); });
  for (std::vector<Overlooked>& things : by_station)
    std::move(things.begin(), things.end(), std::back_inserter(answer.things));
  if (!answer.things.empty()) answer.held = Held::kMarginal;
  for (const Overlooked& thing : answer.things) answer.cautions.push_back({thing.camera, words_of(thing)});
  if (!judge || answer.things.empty()) return answer;
  add_costs(project, answer.things, progress);
  return answer;
}

}  // namespace sightfall::loads
