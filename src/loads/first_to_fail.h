// SPDX-License-Identifier: GPL-3.0-or-later
// What fails first when one more camera is hung up: another like the one that sends most, where that one hangs.
//   Model    the fullest of what it would use too, its share of the capacity told: links but its own run, which would
//            be a new one; the recorder's intake; the disks beside the days wanted; what its feed gives, and the
//            feeds that feed that one. A feed without a free port comes before all
//   Limits   nominal loads; of what has no capacity nothing is told
//   Checked  first_to_fail_test.cpp
#pragma once
#include <string>

#include "loads/loads.h"

namespace sightfall::loads {

/// In words; empty without a camera.
std::string first_to_fail(const need::Project& project, const Loads& loads);

}  // namespace sightfall::loads
