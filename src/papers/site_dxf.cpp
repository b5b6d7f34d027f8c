// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/site_dxf.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>
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

/// Words that each know the point that they name.
struct NamedDrawing : DxfDrawing {
  std::vector<PlanPoint> named;

  void name(const char* layer, std::string text, PlanPoint of, PlanPoint off, double letters) {
    words.push_back({layer, std::move(text), of + off, letters});
    named.push_back(of);
  }
};

std::vector<PlanPoint> round(PlanPoint middle, double radius) {
  return draw::circle(middle, radius).lines.front().points;
}

/// On the ground, of a roof above it.
geom::Outline outline_of(const site::Solid& solid) {
  return solid.kind == site::SolidKind::kRoof ? solid.outline : draw::footprint(solid);
}

void add_site(const site::Site& site, NamedDrawing& drawing) {
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
    drawing.name("FEEDS", feed.name, feed.at, {2 * kMark, kMark}, kLetters);
  }
}

/// The names of what stands there, each in its middle or at the middle of its line.
void add_names(const need::Project& project, NamedDrawing& drawing) {
  const site::Site& site = project.site;
  const auto name = [&](const char* layer, const std::string& text, PlanPoint of, PlanPoint off = {}) {
    if (!text.empty()) drawing.name(layer, text, of, off, kSmallLetters);
  };
  const auto middle = [](const std::vector<PlanPoint>& line) {
    return draw::point_along(line, geom::length(line).si() / 2);
  };
  for (const site::Solid& solid : site.solids)
    name("NAMES", solid.name, solid.line.empty() ? geom::bounds(outline_of(solid).outer).centre() : middle(solid.line));
  for (const site::Veil& veil : site.veils)
    name("NAMES", veil.name, veil.kind == site::VeilKind::kTree ? veil.at : middle(veil.line));
  for (const site::Window& window : site.neighbours) name("NAMES", window.name, window.at);
  for (const site::Lamp& lamp : site.lamps) name("LAMPS", lamp.name, lamp.at, {kMark, kMark});
  for (const site::Way& way : site.ways) {
    drawing.lines.push_back({"WAYS", way.line, false});
    name("WAYS", draw::way_words(way, project.settings.units), middle(way.line));
  }
  for (const site::Mount* mount : draw::spare_mounts(project)) {
    drawing.lines.push_back({"MOUNTS", round(mount->at, kMark), true});
    name("MOUNTS", "mount " + mount->name + ", no camera", mount->at, {2 * kMark, -kMark});
  }
}

/// A cross through a point: upright, or turned by an eighth.
void add_cross(const char* layer, PlanPoint at, bool upright, NamedDrawing& drawing) {
  const PlanPoint one = kMark * (upright ? PlanPoint{1, 0} : PlanPoint{1, 1}), other{-one.y, one.x};
  drawing.lines.push_back({layer, {at - one, at + one}, false});
  drawing.lines.push_back({layer, {at - other, at + other}, false});
}

/// Routes with an arrow at the end, points to aim by, and walk tests.
void add_points(const need::Project& project, const draw::SitePlan& plan, NamedDrawing& drawing) {
  for (const site::Place* route : draw::routes_asked(project)) {
    const std::vector<PlanPoint>& line = route->line;
    const double length = geom::length(line).si();
    drawing.lines.push_back({"ROUTES", line, false});
    const PlanPoint tip = line.back(), back = draw::point_along(line, length - 2 * kMark);
    const PlanPoint side{0.5 * (tip.y - back.y), 0.5 * (back.x - tip.x)};
    drawing.lines.push_back({"ROUTES", {back + side, tip, back - side}, false});
    drawing.name("ROUTES", route->name, draw::point_along(line, length / 2), {}, kSmallLetters);
  }
  const auto mark = [&](const char* layer, const draw::PlanMark& one, bool upright) {
    add_cross(layer, one.at, upright, drawing);
    drawing.name(layer, one.label, one.at, {kMark, kMark}, kSmallLetters);
  };
  for (const draw::PlanMark& one : plan.marks) mark("AIM-POINTS", one, true);
  for (const draw::PlanMark& one : plan.tests) mark("WALK-TEST", one, false);
}

/// Each cable by itself, named with those that lie in one line with it.
void add_cables(const std::vector<draw::PlanCable>& cables, NamedDrawing& drawing) {
  for (const draw::PlanCable& cable : cables) drawing.lines.push_back({"CABLES", cable.line, false});
  for (const draw::PlanStretch& stretch : draw::stretches_of(cables)) {
    std::string names = draw::stretch_words(cables, stretch);
    std::replace(names.begin(), names.end(), '\n', ' ');
    drawing.name("CABLE-LABELS", std::move(names), draw::point_along(stretch.line, geom::length(stretch.line).si() / 2),
                 {}, kLetters);
  }
}

void add_cameras(const Job& job, NamedDrawing& drawing) {
  for (const CameraPart& part : job.cameras) {
    const PlanPoint at = part.mount->at;
    drawing.lines.push_back({"CAMERAS", round(at, kMark), true});
    drawing.lines.push_back({"CAMERAS", {at, at + kHeading * geom::heading_vector(part.camera->heading)}, false});
    drawing.name("CAMERA-NUMBERS",
                 fmt::format("{} {}, {}", part.number, part.camera->name,
                             need::measured_words(part.aim.height, job.project().settings.units)),
                 at, {2 * kMark, -kMark}, kLetters);
  }
}

/// Moves each text up or down to the nearest place where it lies on none before it; a line of its own layer then leads
/// from it to what it names.
void part_words(NamedDrawing& drawing) {
  constexpr double kLetterWidth = 0.8, kLine = 1.4, kStep = 0.5, kGap = 0.25;  // of the height of letters
  const auto on = [&](const import::DxfWords& a, const import::DxfWords& b) {
    const auto width = [&](const import::DxfWords& one) {
      return kLetterWidth * one.height * static_cast<double>(one.text.size());
    };
    return a.at.x < b.at.x + width(b) && b.at.x < a.at.x + width(a) &&
           std::abs(a.at.y - b.at.y) < kLine * std::max(a.height, b.height);
  };
  std::vector<import::DxfWords>& words = drawing.words;
  for (size_t i = 1; i < words.size(); ++i) {
    import::DxfWords& one = words[i];
    const auto first = words.begin(), mine = first + static_cast<std::ptrdiff_t>(i);
    const double before = one.at.y;
    for (int steps = 1; std::any_of(first, mine, [&](const auto& other) { return on(one, other); }); ++steps) {
      const int away = (steps % 2 == 0 ? 1 : -1) * ((steps + 1) / 2);  // down and up by turns
      one.at.y = before + away * kStep * one.height;
    }
    if (one.at.y != before)
      drawing.lines.push_back(
          {"LEADERS", {drawing.named[i], one.at + PlanPoint{-kGap * one.height, one.height / 2}}, false});
  }
}

}  // namespace

DxfDrawing site_dxf(const Job& job) {
  NamedDrawing drawing;
  const need::Project& project = job.project();
  const draw::SitePlan plan = plan_of(job);
  add_site(project.site, drawing);
  add_cameras(job, drawing);
  add_cables(plan.cables, drawing);
  add_points(project, plan, drawing);
  add_names(project, drawing);
  part_words(drawing);
  return {std::move(drawing.lines), std::move(drawing.words)};
}

}  // namespace sightfall::papers
