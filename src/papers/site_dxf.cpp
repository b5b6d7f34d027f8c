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

namespace sightfall::papers {
namespace {

using geom::PlanPoint;
using import::DxfDrawing;

constexpr double kMark = 0.3, kHeading = 2, kLetters = 0.6;  // m

std::vector<PlanPoint> round(PlanPoint middle, double radius) {
  return draw::circle(middle, radius).lines.front().points;
}

void add_site(const site::Site& site, DxfDrawing& drawing) {
  for (const site::Solid& solid : site.solids) {
    const char* layer = solid.kind == site::SolidKind::kBuilding ? "BUILDINGS" : "SOLIDS";
    const geom::Outline ground = solid.kind == site::SolidKind::kRoof ? solid.outline : draw::footprint(solid);
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
  for (const site::Way& way : site.ways) drawing.lines.push_back({"WAYS", way.line, false});
  for (const site::Feed& feed : site.feeds) {
    const PlanPoint corner{kMark, kMark};
    drawing.lines.push_back({"FEEDS", draw::rectangle(feed.at - corner, feed.at + corner).lines.front().points, true});
    drawing.words.push_back({"FEEDS", feed.name, feed.at + PlanPoint{2 * kMark, kMark}, kLetters});
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
  add_site(job.project().site, drawing);
  add_cameras(job, drawing);
  for (const loads::LaidRun& laid : job.here.loads.cable.runs) {
    std::vector<PlanPoint> line;
    for (const geom::SitePoint& point : laid.line) line.push_back(geom::plan(point));
    if (line.size() > 1)
      drawing.words.push_back(
          {"CABLE-LABELS", laid.run->name, draw::point_along(line, geom::length(line).si() / 2), kLetters});
    drawing.lines.push_back({"CABLES", std::move(line), false});
  }
  part_words(drawing.words);
  return drawing;
}

}  // namespace sightfall::papers
