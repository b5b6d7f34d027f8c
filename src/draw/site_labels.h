// SPDX-License-Identifier: GPL-3.0-or-later
// Where the words of the builder's plan stand.
//   Model    names are laid in the document's order; the cameras whose words found no room get their numbers before any
//            words are laid, and the others' words are laid anew, until all have a place
//   Checked  site_plan_test.cpp
#pragma once
#include <vector>

#include "draw/label.h"
#include "draw/plan_lamps.h"
#include "draw/site_plan.h"

namespace sightfall::draw {

SiteLabels site_labels(const SitePlan& plan, const PlanFrame& frame, const std::vector<PlanLamp>& lamps);

}  // namespace sightfall::draw
