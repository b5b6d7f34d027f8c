// SPDX-License-Identifier: GPL-3.0-or-later
#include "stopwatch.h"

#include <sys/resource.h>

namespace sightfall::bench {

double peak_memory_mib() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) / 1024;
}

}  // namespace sightfall::bench
