// SPDX-License-Identifier: GPL-3.0-or-later
// What of the table of assumptions a project's loads rest on, because its document or a sheet is silent.
//   Checked  file/loads_assumed_test.cpp: each entry that moves an answer is told
#pragma once
#include <vector>

#include "loads/loads.h"

namespace sightfall::loads {

std::vector<Assumption> assumptions_of(const need::Project& project, const Loads& loads);

}  // namespace sightfall::loads
