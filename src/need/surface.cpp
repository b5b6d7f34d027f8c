// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/surface.h"

#include <tbb/parallel_for.h>

#include <algorithm>

#include "need/samples.h"
#include "need/station.h"
#include "need/sweep.h"
#include "site/ground.h"

namespace sightfall::need {

std::vector<float> delivered_on(const Project& project, const site::Scene& scene,
                                const std::vector<geom::PlanPoint>& points, Subject subject, const Progress& progress) {
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
    const Station station = station_of(project, project.cameras[c]);
    sweep(station, scene, swept, least, hits[c]);
    const detail::Values values = detail::nominal(subject_inputs(station, need, project.settings.typical));
    for (SweepHit& hit : hits[c]) {
      const detail::Seen seen{static_cast<double>(hit.density), static_cast<double>(hit.depth), 0,
                              static_cast<double>(hit.passed)};
      hit.density = static_cast<float>(detail::delivered(station.constants, seen, values));
    }
  });
  std::vector<float> best(points.size(), 0.0F);
  for (const auto& list : hits)
    for (const SweepHit& hit : list) best[hit.point] = std::max(best[hit.point], hit.density);
  return best;
}

}  // namespace sightfall::need
