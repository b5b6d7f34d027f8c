// SPDX-License-Identifier: GPL-3.0-or-later
// Wall time and peak memory of a benchmark.
#pragma once
#include <chrono>
#include <cstddef>

namespace sightfall::bench {

class Stopwatch {
 public:
  double seconds() const { return std::chrono::duration<double>(std::chrono::steady_clock::now() - start_).count(); }

 private:
  std::chrono::steady_clock::time_point start_ = std::chrono::steady_clock::now();
};

/// Largest resident size of this process so far, MiB.
double peak_memory_mib();

template <class Work>
double seconds_of(Work work) {
  const Stopwatch watch;
  work();
  return watch.seconds();
}

/// The least time of several runs: what the machine can do when nothing else runs on it.
template <class Work>
double best_of(int runs, Work work) {
  double best = 1e300;
  for (int i = 0; i < runs; ++i) {
    const double seconds = work();
    if (seconds < best) best = seconds;
  }
  return best;
}

}  // namespace sightfall::bench
