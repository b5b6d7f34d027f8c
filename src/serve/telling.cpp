// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/telling.h"

#include <utility>

namespace sightfall::serve {

Progress telling(std::function<void(const file::Value& data)> tell, file::Value job, const std::atomic<bool>& stop,
                 std::chrono::steady_clock::time_point told) {
  Progress progress;
  progress.stop = &stop;
  progress.tell = [tell = std::move(tell), job = std::move(job), told](double share, std::string_view words) mutable {
    const auto now = std::chrono::steady_clock::now();
    if (now - told < kBetweenWords) return;
    told = now;
    tell(file::Object{{"job", job}, {"share", share}, {"words", words}});
  };
  return progress;
}

}  // namespace sightfall::serve
