// SPDX-License-Identifier: GPL-3.0-or-later
// The answer of a check as a person reads it.
//   Checked  check_text_test.cpp; tests/case
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "loads/loads.h"
#include "need/check.h"
#include "need/project.h"

namespace sightfall::cli {

enum class Remedies { kLookedFor, kNotLookedFor };

/// `asks`: the loads, where the document says what carries its cameras.
std::string check_text(const need::Project& project, const need::CheckResult& result, Remedies remedies,
                       const std::optional<std::vector<loads::Ask>>& asks = {});

}  // namespace sightfall::cli
