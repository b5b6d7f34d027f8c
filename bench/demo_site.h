// SPDX-License-Identifier: GPL-3.0-or-later
// The demo site as the benchmarks' subject.
#pragma once
#include "need/project.h"

namespace sightfall::bench {

/// Ends the program with 2 where it cannot be read.
need::Project demo_site();

}  // namespace sightfall::bench
