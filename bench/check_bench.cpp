// SPDX-License-Identifier: GPL-3.0-or-later
// The whole check of the demo on one thread and on all, with and without remedies.
#include <fmt/format.h>
#include <tbb/global_control.h>

#include <thread>

#include "file/project.h"
#include "need/check.h"
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

}  // namespace

int main() {
  const auto demo = file::load_project(SIGHTFALL_SOURCE_DIR "/demo/alder_lane.sightfall.json");
  if (!demo) {
    fmt::print(stderr, "{}\n", to_line(demo.error().front()));
    return 2;
  }
  const int threads = static_cast<int>(std::thread::hardware_concurrency());
  fmt::print("check of the demo: {} needs, {} cameras\n", demo->needs.size(), demo->cameras.size());
  for (const bool remedies : {false, true}) {
    const double one = seconds_of(*demo, remedies, 1), all = seconds_of(*demo, remedies, threads);
    fmt::print("  {} remedies: {:.2f} s on one thread, ratio of {} threads to one {:.2f}\n",
               remedies ? "with" : "without", one, threads, one / all);
  }
  fmt::print("  peak memory {:.0f} MiB\n", bench::peak_memory_mib());
  return 0;
}
