// SPDX-License-Identifier: GPL-3.0-or-later
// The answer of a check as a person reads it.
#pragma once
#include <string>

#include "need/check.h"
#include "need/project.h"

namespace sightfall::cli {

std::string check_text(const need::Project& project, const need::CheckResult& result);

}  // namespace sightfall::cli
