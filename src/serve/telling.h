// SPDX-License-Identifier: GPL-3.0-or-later
// Progress of long work as `progress` events, a few times a second (docs/wire.md).
#pragma once
#include <atomic>
#include <chrono>
#include <functional>

#include "base/progress.h"
#include "file/json.h"

namespace sightfall::serve {

/// Between two words of how far it is.
inline constexpr std::chrono::milliseconds kBetweenWords{200};

/// What work is handed: it stops it, and tells how far the job is. `told` is when something was last told.
Progress telling(std::function<void(const file::Value& data)> tell, file::Value job, const std::atomic<bool>& stop,
                 std::chrono::steady_clock::time_point told = {});

}  // namespace sightfall::serve
