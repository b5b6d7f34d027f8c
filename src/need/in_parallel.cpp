// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/in_parallel.h"

#include <tbb/parallel_for.h>

#include <mutex>

namespace sightfall::need {

void in_parallel(size_t count, const Progress& progress, std::string_view what,
                 const std::function<void(size_t)>& work) {
  size_t done = 0;
  std::mutex telling;
  tbb::parallel_for(size_t{0}, count, [&](size_t i) {
    if (progress.stopped()) return;
    work(i);
    const std::lock_guard lock{telling};
    ++done;
    progress.tell(static_cast<double>(done) / static_cast<double>(count), what);
  });
}

}  // namespace sightfall::need
