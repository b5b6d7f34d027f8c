// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/site_dxf.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "draw/detail_field.h"
#include "draw/shape.h"
#include "geom/pose.h"
#include "need/words.h"
#include "papers/documents.h"

namespace sightfall::papers {
namespace {

using geom::PlanPoint;
using import::DxfDrawing;

constexpr Angle kQuarterTurn{M_PI / 2};
constexpr double kMark = 0.3, kHeading = 2, kLetters = 0.6, kSmallLetters = 0.4;  // m

std::vector<PlanPoint> round(PlanPoint middle, double radius) {
  return draw::circle(middle, radius).lines.front().points;
}

/// On the ground, of a roof above it.
geom::Outline outline_of(const site::Solid& solid) {
  return solid.kind == site::SolidKind::kRoof ? solid.outline : draw::footprint(solid);
}

void add_site(const site::Site& site, DxfDrawing& drawing) {
  for (const site::Solid& solid : site.solids) {
    const char* layer = solid.kind == site::SolidKind::kBuilding ? "BUILDINGS" : "SOLIDS";
    const geom::Outline ground = outline_of(solid);
    if (!ground.outer.empty()) drawing.lines.push_back({layer, ground.outer, true});
    for (const geom::Ring& hole : ground.holes) drawing.lines.push_back({layer, hole, true});
    if (!solid.line.empty()) drawing.lines.push_back({"WALLS", solid.line, false});
  }
  for (const site::Veil& veil : site.veils)
    drawing.lines.push_back(
        veil.kind == site::VeilKind::kTree
            ? import::DxfLine{"VEGETATION", round(veil.at, veil.crown_radius.si()), true}
            : import::DxfLine{veil.kind == site::VeilKind::kHedge ? "VEGETATION" : "FENCES", veil.line, false});
  if (!site.boundary.empty()) drawing.lines.push_back({"BOUNDARY", site.boundary, true});
  for (const site::Window& window : site.neighbours) {
    const PlanPoint along = (window.width.si() / 2) * geom::heading_vector(window.facing + kQuarterTurn);
    drawing.lines.push_back({"NEIGHBOURS", {window.at - along, window.at + along}, false});
  }
  for (const site::Lamp& lamp : site.lamps) {
    drawing.lines.push_back({"LAMPS", round(lamp.at, kMark / 2), true});
    const double level = std::cos(lamp.tilt.si());  // of its axis, seen from above
    if (level > 1e-6)
      drawing.lines.push_back({"LAMPS", {lamp.at, lamp.at + level * geom::heading_vector(lamp.heading)}, false});
  }
  for (const site::Feed& feed : site.feeds) {
    const PlanPoint corner{kMark, kMark};
    drawing.lines.push_back({"FEEDS", draw::rectangle(feed.at - corner, feed.at + corner).lines.front().points, true});
    drawing.words.push_back({"FEEDS", feed.name, feed.at + PlanPoint{2 * kMark, kMark}, kLetters});
  }
}

/// The names of what stands there, each in its middle or at the middle of its line.
void add_names(const need::Project& project, DxfDrawing& drawing) {
  const site::Site& site = project.site;
  const auto name = [&](const char* layer, const std::string& text, PlanPoint at) {
    if (!text.empty()) drawing.words.push_back({layer, text, at, kSmallLetters});
  };
  const auto middle = [](const std::vector<PlanPoint>& line) {
    return draw::point_along(line, geom::length(line).si() / 2);
  };
  for (const site::Solid& solid : site.solids)
    name("NAMES", solid.name, solid.line.empty() ? geom::bounds(outline_of(solid).outer).centre() : middle(solid.line));
  for (const site::Veil& veil : site.veils)
    name("NAMES", veil.name, veil.kind == site::VeilKind::kTree ? veil.at : middle(veil.line));
  for (const site::Window& window : site.neighbours) name("NAMES", window.name, window.at);
  for (const site::Lamp& lamp : site.lamps) name("LAMPS", lamp.name, lamp.at + PlanPoint{kMark, kMark});
  for (const site::Way& way : site.ways) {
    drawing.lines.push_back({"WAYS", way.line, false});
    name("WAYS", draw::way_words(way, project.settings.units), middle(way.line));
  }
  for (const site::Mount* mount : draw::spare_mounts(project)) {
    drawing.lines.push_back({"MOUNTS", round(mount->at, kMark), true});
    name("MOUNTS", "mount " + mount->name + ", no camera", mount->at + PlanPoint{2 * kMark, -kMark});
  }
}

/// A cross through a point: upright, or turned by an eighth.
void add_cross(const char* layer, PlanPoint at, bool upright, DxfDrawing& drawing) {
  const PlanPoint one = kMark * (upright ? PlanPoint{1, 0} : PlanPoint{1, 1}), other{-one.y, one.x};
  drawing.lines.push_back({layer, {at - one, at + one}, false});
  drawing.lines.push_back({layer, {at - other, at + other}, false});
}

/// Routes with an arrow at the end, points to aim by, and walk tests.
void add_points(const need::Project& project, const draw::SitePlan& plan, DxfDrawing& drawing) {
  for (const site::Place* route : draw::routes_asked(project)) {
    const std::vector<PlanPoint>& line = route->line;
    const double length = geom::length(line).si();
    drawing.lines.push_back({"ROUTES", line, false});
    const PlanPoint tip = line.back(), back = draw::point_along(line, length - 2 * kMark);
    const PlanPoint side{0.5 * (tip.y - back.y), 0.5 * (back.x - tip.x)};
    drawing.lines.push_back({"ROUTES", {back + side, tip, back - side}, false});
    drawing.words.push_back({"ROUTES", route->name, draw::point_along(line, length / 2), kSmallLetters});
  }
  const auto mark = [&](const char* layer, const draw::PlanMark& one, bool upright) {
    add_cross(layer, one.at, upright, drawing);
    drawing.words.push_back({layer, one.label, one.at + PlanPoint{kMark, kMark}, kSmallLetters});
  };
  for (const draw::PlanMark& one : plan.marks) mark("AIM-POINTS", one, true);
  for (const draw::PlanMark& one : plan.tests) mark("WALK-TEST", one, false);
}

/// Each cable by itself, named with those that lie in one line with it.
void add_cables(const std::vector<draw::PlanCable>& cables, DxfDrawing& drawing) {
  for (const draw::PlanCable& cable : cables) drawing.lines.push_back({"CABLES", cable.line, false});
  for (const draw::PlanStretch& stretch : draw::stretches_of(cables)) {
    std::string names = draw::stretch_words(cables, stretch);
    std::replace(names.begin(), names.end(), '\n', ' ');
    drawing.words.push_back({"CABLE-LABELS", std::move(names),
                             draw::point_along(stretch.line, geom::length(stretch.line).si() / 2), kLetters});
  }
}

void add_cameras(const Job& job, DxfDrawing& drawing) {
  for (const CameraPart& part : job.cameras) {
    const PlanPoint at = part.mount->at;
    drawing.lines.push_back({"CAMERAS", round(at, kMark), true});
    drawing.lines.push_back({"CAMERAS", {at, at + kHeading * geom::heading_vector(part.camera->heading)}, false});
    drawing.words.push_back({"CAMERA-NUMBERS",
                             fmt::format("{} {}, {}", part.number, part.camera->name,
                                         need::length_words(part.aim.height, job.project().settings.units)),
                             at + PlanPoint{2 * kMark, -kMark}, kLetters});
  }
}

/// Moves each text down until it lies on none before it.
void part_words(std::vector<import::DxfWords>& words) {
  constexpr double kLetterWidth = 0.8, kLine = 1.4, kDown = 1.5;  // of the height of letters
  const auto on = [&](const import::DxfWords& a, const import::DxfWords& b) {
    const auto width = [&](const import::DxfWords& one) {
      return kLetterWidth * one.height * static_cast<double>(one.text.size());
    };
    return a.at.x < b.at.x + width(b) && b.at.x < a.at.x + width(a) && std::abs(a.at.y - b.at.y) < kLine * a.height;
  };
  for (size_t i = 1; i < words.size(); ++i)
    for (bool moved = true; moved;) {
      moved = false;
      for (size_t before = 0; before < i; ++before)
        if (on(words[i], words[before])) {
          // Never up again, or two texts before it would send it from one to the other for ever.
          words[i].at.y = std::min(words[i].at.y, words[before].at.y) - kDown * words[i].height;
          moved = true;
        }
    }
}

}  // namespace

DxfDrawing site_dxf(const Job& job) {
  DxfDrawing drawing;
  const need::Project& project = job.project();
  const draw::SitePlan plan = plan_of(job);
  add_site(project.site, drawing);
  add_cameras(job, drawing);
  add_cables(plan.cables, drawing);
  add_points(project, plan, drawing);
  add_names(project, drawing);
  part_words(drawing.words);
  return drawing;
}

}  // namespace sightfall::papers
