// SPDX-License-Identifier: GPL-3.0-or-later
// The names of what stands on the builder's plan: in it where it is large, else beside it, else a letter with a list.
//   Checked  site_plan_test.cpp
#pragma once
#include <string>
#include <vector>

#include "draw/label.h"
#include "draw/site_plan.h"

namespace sightfall::draw {

/// Beyond so many, names would be all that one sees.
inline constexpr size_t kMostSiteNames = 200;

/// Names solids alone where there is room in them.
void name_inside(LabelRoom& room, const PlanFrame& frame, const site::Site& site);

/// Names every solid, veil, neighbour's window and mount without a camera. Gives what has a letter alone, each as a
/// line such as `B  gate pier west`.
std::vector<std::string> name_all_things(LabelRoom& room, const PlanFrame& frame, const need::Project& project);

}  // namespace sightfall::draw
