// SPDX-License-Identifier: GPL-3.0-or-later
// What the cameras ask of what carries them, as a person reads it.
//   Checked  tests/case
#pragma once
#include <string>

#include "loads/loads.h"

namespace sightfall::cli {

std::string loads_text(const need::Project& project, const loads::Loads& loads);

}  // namespace sightfall::cli
