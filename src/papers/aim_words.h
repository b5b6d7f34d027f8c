// SPDX-License-Identifier: GPL-3.0-or-later
// What a point to aim by is called, and where something stands that is to be set down.
//   Checked  papers_test.cpp
#pragma once
#include <string>

#include "papers/job.h"
#include "site/scene.h"

namespace sightfall::papers {

/// The point's name; of what is set down its place by two tapes; of the plumb's foot which way the picture's top looks.
std::string aim_point_words(const Job& job, const CameraPart& part, const need::AimPoint& point,
                            const site::Scene& in_leaf);

}  // namespace sightfall::papers
