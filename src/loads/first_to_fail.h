// SPDX-License-Identifier: GPL-3.0-or-later
// How many more cameras there is room for, like the one that sends most and where that one hangs, and what the next
// one overfills.
//   Model    of all that they would use too, what has room for the fewest: links but their own runs, which would be new
//            ones; the recorder's intake; the disks beside the days wanted; what their feed gives, and the feeds that
//            feed that one; its free ports
//   Limits   nominal loads; of what has no capacity nothing is told
//   Checked  first_to_fail_test.cpp
#pragma once
#include <string>

#include "loads/loads.h"

namespace sightfall::loads {

/// A sentence without its full stop; empty without a camera.
std::string first_to_fail(const need::Project& project, const Loads& loads);

}  // namespace sightfall::loads
