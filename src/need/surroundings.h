// SPDX-License-Identifier: GPL-3.0-or-later
// What a check tells beside its verdicts: cautions, what is assumed, who watches whom, aims, least-seen ways.
//   Checked  check_test.cpp
#pragma once
#include "need/check.h"
#include "need/lit_project.h"

namespace sightfall::need {

/// In those of the project's conditions that are named; all when none is. Stopped, some of it is not there.
void add_surroundings(const LitProject& lit, const std::vector<std::string>& conditions, const Progress& progress,
                      CheckResult& result);

}  // namespace sightfall::need
