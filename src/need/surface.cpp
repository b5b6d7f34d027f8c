// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/surface.h"

#include <tbb/parallel_for.h>

#include <algorithm>

#include "need/illumination.h"
#include "need/samples.h"
#include "need/station.h"
#include "need/sweep.h"
#include "site/ground.h"

namespace sightfall::need {
namespace {

/// Light at the points that any camera sees, once for all of them.
std::vector<PlaceLight> light_where_seen(const Lighting& lighting, const std::vector<geom::SitePoint>& points,
                                         const std::vector<std::vector<SweepHit>>& hits, const Progress& progress) {
  std::vector<uint8_t> seen(points.size(), 0);
  for (const auto& list : hits)
    for (const SweepHit& hit : list) seen[hit.point] = 1;
  std::vector<PlaceLight> lights(points.size());
  tbb::parallel_for(size_t{0}, points.size(), [&](size_t i) {
    constexpr int kSkyRays = 16;  // a picture does with fewer than a verdict
    if (seen[i] != 0 && !progress.stopped()) lights[i] = lighting.at({&points[i], 1}, kSkyRays).front();
  });
  return lights;
}

}  // namespace

std::vector<float> delivered_on(const LitStations& lit, const std::vector<geom::PlanPoint>& points, Subject subject,
                                const Progress& progress) {
  const Lighting& lighting = lit.lighting;
  const std::vector<Station>& stations = lit.stations;
  const Project& project = lighting.project();
  Need need;
  need.subject = subject;
  need.speed = Speed{0};
  const Length up = subject_height(need, project.settings.typical);
  std::vector<geom::SitePoint> raised;
  raised.reserve(points.size());
  for (const geom::PlanPoint p : points) raised.push_back(site::above_ground(project.site.terrain, p, up));
  const SweepPoints swept{raised};
  const PixelDensity least = faintest(project.settings.levels);

  // One list a camera, merged in the cameras' order afterwards, so that the threads' order does not show.
  std::vector<std::vector<SweepHit>> hits(project.cameras.size());
  tbb::parallel_for(size_t{0}, project.cameras.size(), [&](size_t c) {
    if (progress.stopped()) return;
    sweep(stations[c], lighting.scene(), swept, least, hits[c]);
  });
  const std::vector<PlaceLight> lights = light_where_seen(lighting, raised, hits, progress);
  tbb::parallel_for(size_t{0}, project.cameras.size(), [&](size_t c) {
    const detail::Values values = detail::nominal(subject_inputs(stations[c], need, project.settings.typical));
    for (SweepHit& hit : hits[c]) {
      if (progress.stopped()) break;
      detail::Seen seen{static_cast<double>(hit.density), static_cast<double>(hit.depth), 0,
                        static_cast<double>(hit.passed)};
      const geom::SitePoint at = raised[hit.point];
      const geom::PlanPoint to_eye = geom::plan(stations[c].pose.eye_site - at);
      const double level = std::max(norm(to_eye), 1e-9);
      illuminate(stations[c], lighting, lights[hit.point], {subject, at, {to_eye.x / level, to_eye.y / level, 0}},
                 seen);
      hit.density = static_cast<float>(detail::delivered(stations[c].constants, seen, values));
    }
  });
  std::vector<float> best(points.size(), 0.0F);
  for (const auto& list : hits)
    for (const SweepHit& hit : list) best[hit.point] = std::max(best[hit.point], hit.density);
  return best;
}

}  // namespace sightfall::need
