// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/key.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "draw/plan_ink.h"
#include "draw/plan_lamps.h"
#include "draw/plan_layout.h"
#include "draw/signs.h"

namespace sightfall::draw {
namespace {

using Entry = KeyEntry;

constexpr double kSignWidth = kKeySignWidth;

std::vector<PagePoint> across(PagePoint left) { return {left, left + PagePoint{kSignWidth, 0}}; }
geom::Ring block(PagePoint left, double half_height) {
  return {left + PagePoint{0, half_height}, left + PagePoint{0, -half_height},
          left + PagePoint{kSignWidth, -half_height}, left + PagePoint{kSignWidth, half_height}};
}
PagePoint middle(PagePoint left) { return left + PagePoint{kSignWidth / 2, 0}; }

bool any_solid(const site::Site& site, site::SolidKind kind) {
  return std::any_of(site.solids.begin(), site.solids.end(), [&](const site::Solid& s) { return s.kind == kind; });
}
bool any_veil(const site::Site& site, std::initializer_list<site::VeilKind> kinds) {
  return std::any_of(site.veils.begin(), site.veils.end(),
                     [&](const site::Veil& v) { return std::find(kinds.begin(), kinds.end(), v.kind) != kinds.end(); });
}

void add_map_signs(std::vector<Entry>& entries, const PlanMap& plan) {
  entries.push_back({"camera and its heading", [](Canvas& c, PagePoint p) {
                       sign_mount(c, p + PagePoint{9, 0}, {{1, 0}});
                     }});
  entries.push_back(
      {"edge of what is seen", [](Canvas& c, PagePoint p) { sign_edge_of_view(c, line_shape(across(p))); }});
  if (plan.required > PixelDensity{}) {
    entries.push_back({fmt::format("{:g} px/m, as needed", plan.required.si()),
                       [](Canvas& c, PagePoint p) { c.stroke(line_shape(across(p)), contour_pen(true)); }});
    entries.push_back({"below what is needed", [](Canvas& c, PagePoint p) {
                         Shape strokes;
                         for (const double x : {0.0, 11.3, 22.6})
                           strokes.lines.push_back({{p + PagePoint{x, -8}, p + PagePoint{x + 16, 8}}, false});
                         c.stroke(strokes, missed_pen());
                       }});
  }
  if (const site::Place* place = place_of(plan))
    entries.push_back({place->kind == site::PlaceKind::kRoute ? "way asked about" : "place asked about",
                       [kind = place->kind](Canvas& c, PagePoint p) {
                         if (kind == site::PlaceKind::kZone) sign_zone(c, ring_shape(block(p, 7)));
                         if (kind == site::PlaceKind::kLine) sign_line(c, across(p));
                         if (kind == site::PlaceKind::kRoute) sign_route(c, across(p), 0);
                       }});
}

void add_solids(std::vector<Entry>& entries, const site::Site& site) {
  const auto add = [&](site::SolidKind kind, const char* name, std::function<void(Canvas&, PagePoint)> draw) {
    if (any_solid(site, kind)) entries.push_back({name, std::move(draw)});
  };
  add(site::SolidKind::kBuilding, "building",
      [](Canvas& c, PagePoint p) { sign_building(c, ring_shape(block(p, 8))); });
  add(site::SolidKind::kWall, "wall", [](Canvas& c, PagePoint p) { sign_wall(c, band(across(p), 3)); });
  add(site::SolidKind::kBox, "box", [](Canvas& c, PagePoint p) { sign_box(c, ring_shape(block(p, 7))); });
  add(site::SolidKind::kRoof, "roof above", [](Canvas& c, PagePoint p) { sign_roof(c, ring_shape(block(p, 7))); });
  add(site::SolidKind::kVehicle, "vehicle", [](Canvas& c, PagePoint p) { sign_vehicle(c, block(p, 8)); });
}

void add_rest(std::vector<Entry>& entries, const site::Site& site) {
  if (any_veil(site, {site::VeilKind::kMesh, site::VeilKind::kRailing}))
    entries.push_back({"mesh, railings", [](Canvas& c, PagePoint p) { sign_mesh(c, across(p)); }});
  if (any_veil(site, {site::VeilKind::kHedge}))
    entries.push_back({"hedge", [](Canvas& c, PagePoint p) { sign_hedge(c, block(p, 6)); }});
  if (any_veil(site, {site::VeilKind::kTree}))
    entries.push_back({"tree", [](Canvas& c, PagePoint p) { sign_tree(c, middle(p), 10); }});
  if (!site.boundary.empty())
    entries.push_back({"boundary", [](Canvas& c, PagePoint p) { sign_boundary(c, line_shape(across(p))); }});
  if (!site.neighbours.empty())
    entries.push_back({"neighbour's window", [](Canvas& c, PagePoint p) { sign_window(c, middle(p), {0, -1}, 30); }});
  if (!site.terrain.flat())
    entries.push_back({fmt::format("ground, every {:g} m", ground_interval(site.terrain).si()),
                       [](Canvas& c, PagePoint p) { c.stroke(line_shape(across(p)), ground_pen()); }});
}

void add_lamps(std::vector<Entry>& entries, const PlanMap& plan) {
  const std::vector<PlanLamp> lamps = lamps_on(plan, frame_around(*plan.map));
  for (const bool burning : {true, false})
    if (std::any_of(lamps.begin(), lamps.end(), [&](const PlanLamp& lamp) { return lamp.burning == burning; }))
      entries.push_back({burning ? "lamp, burning" : "lamp, off", [burning](Canvas& c, PagePoint p) {
                           sign_lamp(c, p + PagePoint{9, 0}, {1, 0}, burning);
                         }});
}

std::vector<Entry> entries_of(const PlanMap& plan) {
  std::vector<Entry> entries;
  add_map_signs(entries, plan);
  add_lamps(entries, plan);
  for (Entry& entry : key_of_site(plan.project->site)) entries.push_back(std::move(entry));
  return entries;
}

}  // namespace

std::vector<KeyEntry> key_of_site(const site::Site& site) {
  std::vector<KeyEntry> entries;
  add_solids(entries, site);
  add_rest(entries, site);
  return entries;
}

void draw_entries(Canvas& canvas, const std::vector<KeyEntry>& entries, PagePoint top_left, size_t rows) {
  constexpr double kRow = 27, kColumn = 232;
  for (size_t i = 0; i < entries.size(); ++i) {
    const size_t column = i / rows, row = i % rows;
    const PagePoint left =
        top_left + PagePoint{kColumn * static_cast<double>(column), 10 + kRow * static_cast<double>(row)};
    entries[i].draw(canvas, left);
    const Lettering lettering{.size = 14};
    canvas.letter_from(entries[i].name, lettering,
                       left + PagePoint{kSignWidth + 12, -measured(entries[i].name, lettering).height / 2});
  }
}

std::vector<std::string> key_names(const PlanMap& plan) {
  std::vector<std::string> names;
  for (const Entry& entry : entries_of(plan)) names.push_back(entry.name);
  return names;
}

void draw_key(Canvas& canvas, const PlanMap& plan, PagePoint top_left) {
  const std::vector<Entry> entries = entries_of(plan);
  draw_entries(canvas, entries, top_left, std::max<size_t>(10, (entries.size() + 1) / 2));
}

}  // namespace sightfall::draw
