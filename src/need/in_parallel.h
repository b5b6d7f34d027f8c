// SPDX-License-Identifier: GPL-3.0-or-later
// Work on each of many things, on all threads.
//   Checked  check_test.cpp
#pragma once
#include <functional>
#include <string_view>

#include "base/progress.h"

namespace sightfall::need {

/// Runs `work` for each of `count` things by its number until it is stopped; tells `progress` what is being done. Each
/// writes only its own place, so that the threads' order does not show.
void in_parallel(size_t count, const Progress& progress, std::string_view what,
                 const std::function<void(size_t)>& work);

}  // namespace sightfall::need
