// SPDX-License-Identifier: GPL-3.0-or-later
// A yard for tests of cables: a switch at the origin at 2 m, indoors, a camera on a post at 3 m, and plain cables.
// Slack and loops are what the test sets; without more a length is that of the line.
#pragma once
#include <string>
#include <utility>
#include <vector>

#include "need/test_project.h"

namespace sightfall::loads {

inline site::Way way(const std::string& name, std::vector<geom::PlanPoint> line, double height_m,
                     site::WayKind kind = site::WayKind::kWall) {
  site::Way way;
  way.name = name;
  way.kind = kind;
  way.line = std::move(line);
  way.height = Length{height_m};
  return way;
}

inline site::Feed switch_at(const std::string& name, geom::PlanPoint at, double height_m) {
  site::Feed feed;
  feed.name = name;
  feed.at = at;
  feed.height = Length{height_m};
  return feed;
}

inline site::Run run_to(const std::string& name, const std::string& from, const std::string& to,
                        const std::string& cable = "pairs, outdoor") {
  site::Run run;
  run.name = name;
  run.from = from;
  run.to = to;
  run.cable = cable;
  return run;
}

inline site::Cable pairs(const std::string& name, double outer_mm, bool sunproof) {
  site::Cable cable;
  cable.name = name;
  cable.outer = outer_mm * units::mm;
  cable.sunproof = sunproof;
  cable.resistance = Resistivity{0.0668};
  cable.longest = Length{100};
  cable.source = "test";
  return cable;
}

inline std::vector<site::Cable> plain_cables() {
  site::Cable fibre = pairs("fibre", 6, true);
  fibre.medium = site::CableMedium::kFibre;
  fibre.resistance = {};
  fibre.longest = Length{550};
  site::Cable conductors = pairs("conductors", 8, true);
  conductors.medium = site::CableMedium::kConductors;
  conductors.longest = {};
  return {pairs("pairs, indoor", 6, false), pairs("pairs, outdoor", 7, true), fibre, conductors,
          pairs("thin tail", 3.8, false)};
}

inline site::Solid building_of(const std::string& name, geom::Ring ring) {
  site::Solid solid;
  solid.name = name;
  solid.outline = {std::move(ring), {}};
  return solid;
}

/// One run `C1` from the switch to the camera `eye` at that place.
inline need::Project yard(geom::PlanPoint camera_at) {
  need::Project project = need::plain_project();
  project.site.mounts = {need::mount_at("post", camera_at, 3)};
  project.settings.cables = plain_cables();
  project.settings.typical.cable_slack = need::exactly(1, "slack");
  project.settings.typical.service_loop = need::exactly(0, "loop");
  project.site.feeds = {switch_at("switch", {0, 0}, 2)};
  project.site.runs = {run_to("C1", "switch", "eye")};
  return project;
}

}  // namespace sightfall::loads
