// SPDX-License-Identifier: GPL-3.0-or-later
// The answer of a check as a person reads it.
//   Checked  check_text_test.cpp; tests/case
#pragma once
#include <string>

#include "need/check.h"
#include "need/project.h"

namespace sightfall::cli {

enum class Remedies { kLookedFor, kNotLookedFor };

std::string check_text(const need::Project& project, const need::CheckResult& result, Remedies remedies);

}  // namespace sightfall::cli
