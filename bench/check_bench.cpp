// SPDX-License-Identifier: GPL-3.0-or-later
// The whole check of the demo on one thread and on all, with and without remedies; a sample where light is worked out
// beside one in ample light; what metering a frame costs.
#include <fmt/format.h>
#include <tbb/global_control.h>

#include <thread>
#include <vector>

#include "demo_site.h"
#include "need/check.h"
#include "need/frame.h"
#include "need/lighting.h"
#include "need/trial.h"
#include "stopwatch.h"

namespace {

using namespace sightfall;

double seconds_of(const need::Project& project, bool remedies, int threads) {
  const tbb::global_control limit{tbb::global_control::max_allowed_parallelism, static_cast<size_t>(threads)};
  return bench::best_of(3, [&] {
    const bench::Stopwatch watch;
    need::CheckOptions options;
    options.remedies = remedies;
    need::check(project, options);
    return watch.seconds();
  });
}

/// Seconds a sample of judging every need in every condition that passes, on one thread.
template <class Passes>
double seconds_a_sample(const need::Project& project, Passes passes) {
  constexpr int kSamples = 256;
  const std::vector<need::Station> stations = need::stations_of(project);
  double seconds = 0, samples = 0;
  for (const site::Condition& condition : project.conditions) {
    if (!passes(condition)) continue;
    const site::Scene scene{project.site, condition.leaves};
    const need::Lighting lighting{project, scene, condition};
    for (const need::Need& need : project.needs) {
      seconds += bench::best_of(3, [&] {
        const bench::Stopwatch watch;
        const need::Trial trial{{&project, &lighting, condition.name}, need, stations, kSamples};
        trial.judge();
        samples += trial.sample_count() / 3.0;
        return watch.seconds();
      });
    }
  }
  return seconds / samples;
}

/// Seconds of coming to one camera's exposure meter in a condition.
double seconds_a_meter(const need::Project& project, const site::Condition& condition) {
  const site::Scene scene{project.site, condition.leaves};
  const need::Lighting lighting{project, scene, condition};
  const double all = bench::best_of(3, [&] {
    const bench::Stopwatch watch;
    for (const camera::Camera& camera : project.cameras)
      need::in_condition(need::station_of(project, camera), lighting);
    return watch.seconds();
  });
  return all / static_cast<double>(project.cameras.size());
}

void tell_light(const need::Project& project) {
  const tbb::global_control limit{tbb::global_control::max_allowed_parallelism, 1};
  const double day = seconds_a_sample(project, [](const site::Condition& c) { return c.ample(); });
  const double light = seconds_a_sample(project, [](const site::Condition& c) { return !c.ample(); });
  fmt::print(
      "  a sample in one condition, all cameras: {:.0f} us in ample light, {:.0f} us where light is worked out, "
      "ratio {:.2f}\n",
      1e6 * day, 1e6 * light, light / day);
  for (const site::Condition& condition : project.conditions)
    fmt::print("  metering the frame of a camera, {}: {:.2f} ms\n", condition.name,
               1e3 * seconds_a_meter(project, condition));
}

}  // namespace

int main() {
  const need::Project demo = bench::demo_site();
  const int threads = static_cast<int>(std::thread::hardware_concurrency());
  fmt::print("check of the demo: {} needs, {} cameras\n", demo.needs.size(), demo.cameras.size());
  for (const bool remedies : {false, true}) {
    const double one = seconds_of(demo, remedies, 1), all = seconds_of(demo, remedies, threads);
    fmt::print("  {} remedies: {:.2f} s on one thread, ratio of {} threads to one {:.2f}\n",
               remedies ? "with" : "without", one, threads, one / all);
  }
  tell_light(demo);
  fmt::print("  peak memory {:.0f} MiB\n", bench::peak_memory_mib());
  return 0;
}
