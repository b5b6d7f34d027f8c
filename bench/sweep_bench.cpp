// SPDX-License-Identifier: GPL-3.0-or-later
// Visibility with density, samples x cameras a second, on the demo and on a made town, beside the ray library alone for
// the very same rays in the same run. Arguments: cameras and samples of the town (1000 and 100000).
#include <fmt/format.h>
#include <tbb/global_control.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <cstdlib>
#include <numeric>
#include <thread>

#include "bare_rays.h"
#include "demo_site.h"
#include "made_town.h"
#include "need/sweep.h"
#include "stopwatch.h"

namespace {

using namespace sightfall;

constexpr int kRuns = 5;

struct Case {
  std::string name;
  std::vector<need::Station> stations;
  std::vector<geom::SitePoint> points;
  PixelDensity faintest;
};

Case case_of(const std::string& name, const need::Project& project, std::vector<geom::SitePoint> points) {
  return {name, need::stations_of(project), std::move(points), need::faintest(project.settings.levels)};
}

double sweep_all(const Case& one, const site::Scene& scene, const need::SweepPoints& points, int threads,
                 size_t* seen) {
  const tbb::global_control limit{tbb::global_control::max_allowed_parallelism, static_cast<size_t>(threads)};
  std::vector<size_t> hits(one.stations.size());
  const bench::Stopwatch watch;
  tbb::parallel_for(size_t{0}, one.stations.size(), [&](size_t c) {
    thread_local std::vector<need::SweepHit> found;
    found.clear();
    need::sweep(one.stations[c], scene, points, one.faintest, found);
    hits[c] = found.size();
  });
  const double seconds = watch.seconds();
  *seen = std::accumulate(hits.begin(), hits.end(), size_t{0});
  return seconds;
}

/// One camera's targets in the order in which the sweep casts them.
std::vector<geom::SitePoint> targets_of(const Case& one, const need::SweepPoints& points, size_t camera) {
  std::vector<uint32_t> order;
  need::sweep_rays(one.stations[camera], points, one.faintest, &order);
  std::vector<geom::SitePoint> targets;
  targets.reserve(order.size());
  for (const uint32_t i : order)
    targets.push_back(
        {static_cast<double>(points.x[i]), static_cast<double>(points.y[i]), static_cast<double>(points.z[i])});
  return targets;
}

void run(const Case& one, const site::Site& site) {
  const site::Scene scene{site, site::Leaves::kOn};
  const need::SweepPoints points{one.points};
  const bench::BareRays bare{site};
  size_t rays = 0;
  for (const need::Station& station : one.stations) rays += need::sweep_rays(station, points, one.faintest);
  const double pairs = static_cast<double>(one.stations.size()) * static_cast<double>(one.points.size());

  size_t seen = 0;
  bench::BareRays::Times best_bare{1e300, 1e300, 1e300};
  double one_thread = 1e300;
  // Reference and subject by turns, so that a change of the machine's speed meets both.
  for (int i = 0; i < kRuns; ++i) {
    bench::BareRays::Times times;
    for (size_t c = 0; c < one.stations.size(); ++c)
      bare.add(one.stations[c].pose.eye_site, targets_of(one, points, c), i > 0, times);
    best_bare.packets = std::min(best_bare.packets, times.packets);
    if (i == 0) {
      best_bare.streams = times.streams;
      best_bare.single = times.single;
    }
    one_thread = std::min(one_thread, sweep_all(one, scene, points, 1, &seen));
  }
  const int threads = static_cast<int>(std::thread::hardware_concurrency());
  const double all_threads = bench::best_of(kRuns, [&] { return sweep_all(one, scene, points, threads, &seen); });
  const double best = best_bare.best();
  fmt::print("{}: {} cameras x {} samples, {:.3g} rays after culling, {} seen\n", one.name, one.stations.size(),
             one.points.size(), static_cast<double>(rays), seen);
  fmt::print("  bare rays, one thread: packets {:.1f}, streams {:.1f}, single {:.1f} Mray/s\n",
             rays / best_bare.packets * 1e-6, rays / best_bare.streams * 1e-6, rays / best_bare.single * 1e-6);
  fmt::print("  visibility with density, one thread: {:.3g} samples x cameras/s, {:.1f} Mray/s\n", pairs / one_thread,
             rays / one_thread * 1e-6);
  fmt::print("  {} threads: {:.3g} samples x cameras/s\n", threads, pairs / all_threads);
  fmt::print("  ratio to bare rays, one thread: {:.2f}\n", best / one_thread);
  fmt::print("  ratio of {} threads to one: {:.2f}\n", threads, one_thread / all_threads);
  fmt::print("  peak memory {:.0f} MiB\n", bench::peak_memory_mib());
}

}  // namespace

int main(int argc, char** argv) {
  const int cameras = argc > 1 ? std::atoi(argv[1]) : 1000;
  const int samples = argc > 2 ? std::atoi(argv[2]) : 100000;
  const need::Project demo = bench::demo_site();
  run(case_of("demo", demo, bench::ground_points(demo, samples)), demo.site);
  const need::Project town = bench::made_town(cameras);
  run(case_of("made town", town, bench::street_points(town, samples)), town.site);
  return 0;
}
