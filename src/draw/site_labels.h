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

/// Where network or power starts.
struct PlanFeed {
  std::string name;
  PagePoint place;  ///< where it is
  PagePoint at;     ///< of its sign
};

/// What is drawn on a builder's plan, with its places on the page.
struct SiteSigns {
  std::vector<PlanFeed> feeds;
  std::vector<PlanLamp> lamps;
  std::vector<PlanStretch> stretches;
};

/// `whole`: with the names of all that stands there, ways, routes and walk tests.
SiteLabels site_labels(const SitePlan& plan, const PlanFrame& frame, const SiteSigns& signs, bool whole);

}  // namespace sightfall::draw
