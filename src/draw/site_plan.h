// SPDX-License-Identifier: GPL-3.0-or-later
// The plan for whoever builds: where each camera hangs, numbered, how high, which way it looks, and where its cable
// lies; at a true scale with a key, the names of all that stands there and the walk test's places, or as a figure in a
// text.
//   Units    page units of kSheetUnit points, so that lines and letters have the weights of the other plans
//   Checked  site_plan_test.cpp: true scale, none over another, words
#pragma once
#include <string>
#include <vector>

#include "draw/canvas.h"
#include "draw/label.h"
#include "draw/plan_frame.h"
#include "draw/plan_runs.h"
#include "need/project.h"

namespace sightfall::draw {

/// Points of 1/72 inch in a page unit of a sheet.
inline constexpr double kSheetUnit = 0.6;

/// A point that has a number: one that a camera is aimed by, or the place of a walk test.
struct PlanMark {
  std::string label;
  geom::PlanPoint at;
};

/// The project must outlive the drawing.
struct SitePlan {
  const need::Project* project = nullptr;
  std::vector<PlanCable> cables;
  std::string subtitle;  ///< such as a date
  std::vector<PlanMark> marks = {};
  std::vector<std::string> lamps = {};  ///< those that a promise counts on
  std::vector<PlanMark> tests = {};     ///< places of walk tests
};

/// What is written at the things. Every camera has its number there; its name, height and cable beside it where there
/// is room, else in a list; so with a letter what stands there.
struct SiteLabels {
  std::vector<PlacedLabel> placed;
  std::vector<std::string> aside;     ///< words of the cameras that have a number alone, such as `3  yard, 3.4 m, C4`
  std::vector<std::string> lettered;  ///< names of what has a letter alone, such as `B  gate pier west`
};

/// A sheet in page units, with its scale.
struct PlanSheet {
  PageSize page;
  int scale = 100;  ///< one to so many
  Drawing drawing;
  std::vector<std::string> words;  ///< everything written on it, for those who cannot see it
  SiteLabels labels;               ///< of these, what stands at its thing, and cameras that have a number alone there
};

/// What it shows, for those who hear it.
std::string heard(const PlanSheet& sheet);

/// On a page of so many points; the largest of the usual scales at which the site fits.
PlanSheet site_sheet(const SitePlan& plan, PageSize points);

/// Without a key, so many page units wide, as high as the site asks for.
PlanSheet site_figure(const SitePlan& plan, int width);

/// The routes that a need asks about, in the document's order.
std::vector<const site::Place*> routes_asked(const need::Project& project);

/// Mounts that hold no camera, in the document's order.
std::vector<const site::Mount*> spare_mounts(const need::Project& project);

/// What the plan shows: everything that is built or hangs, with a little around it.
geom::Box2 plan_extent(const need::Project& project);

}  // namespace sightfall::draw
