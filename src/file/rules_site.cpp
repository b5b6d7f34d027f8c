// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <cctype>

#include "file/by_name.h"
#include "file/json.h"
#include "file/rules.h"

namespace sightfall::file {
namespace {

/// Whether no point of the line is the one before it given again.
bool check_points(const std::vector<geom::PlanPoint>& line, const Spot& spot, Report& report) {
  bool good = true;
  for (size_t i = 1; i < line.size(); ++i) {
    if (norm(line[i] - line[i - 1]) >= kLeastStep) continue;
    good = false;
    report.add(ErrorKind::kGeometry, spot.at(fmt::format("{}[{}]", spot.field, i)),
               fmt::format("found {}, less than {} m from the point before it; leave one of them out",
                           point_in_words(line[i]), kLeastStep));
  }
  return good;
}

bool check_ring(const geom::Ring& ring, const Spot& spot, Report& report) {
  const bool good = check_points(ring, spot, report);
  if (ring.size() < 2 || norm(ring.front() - ring.back()) >= kLeastStep) return good;
  report.add(ErrorKind::kGeometry, spot.at(fmt::format("{}[{}]", spot.field, ring.size() - 1)),
             fmt::format("found {}, the first point again; an outline closes by itself, leave it out",
                         point_in_words(ring.back())));
  return false;
}

void check_outline(const geom::Outline& outline, const Spot& spot, Report& report) {
  if (!report.clean(spot.path, spot.field) || !report.clean(spot.path, "holes")) return;
  bool good = check_ring(outline.outer, spot, report);
  for (size_t i = 0; i < outline.holes.size(); ++i)
    good &= check_ring(outline.holes[i], spot.at(fmt::format("holes[{}]", i)), report);
  if (!good) return;
  std::optional<std::string> flaw = geom::flaw(outline);
  if (!flaw) return;
  flaw->front() = static_cast<char>(std::tolower(static_cast<unsigned char>(flaw->front())));
  report.add(ErrorKind::kGeometry, spot,
             fmt::format("found a flaw: {}; allowed is an outline that does not cross or touch itself, with holes that "
                         "lie inside it and apart from one another",
                         *flaw));
}

void check_opening(const site::Solid& solid, const geom::Opening& opening, const Spot& spot, Report& report) {
  const auto& ring = solid.outline.outer;
  const auto edges = static_cast<int>(ring.size());
  const auto field = [&](const char* name) { return spot.at(spot.field + "." + name); };
  if (opening.edge >= edges) {
    report.add(ErrorKind::kGeometry, field("edge"),
               fmt::format("found {}; the outline has edges 0 to {}", opening.edge, edges - 1));
    return;
  }
  const auto from = static_cast<size_t>(opening.edge);
  const double length = norm(ring[(from + 1) % ring.size()] - ring[from]);
  constexpr double kSlack = 1e-6;
  if (opening.from + opening.width > length + kSlack)
    report.add(ErrorKind::kGeometry, field("width_m"),
               fmt::format("ends {} m along edge {}, which is {:.3f} m long",
                           print_number(opening.from + opening.width), opening.edge, length));
  if (report.clean(spot.path, "height_m") && opening.sill + opening.height > solid.height.si() + kSlack)
    report.add(ErrorKind::kGeometry, field("height_m"),
               fmt::format("ends {} m above the base of a building {} m high",
                           print_number(opening.sill + opening.height), print_number(solid.height.si())));
}

void check_openings(const site::Solid& solid, const Spot& spot, Report& report) {
  if (!report.clean(spot.path, "outline")) return;
  for (size_t i = 0; i < solid.openings.size(); ++i) {
    const Spot opening = spot.at(fmt::format("openings[{}]", i));
    if (report.clean(opening.path, opening.field)) check_opening(solid, solid.openings[i], opening, report);
  }
}

void check_solid(const site::Solid& solid, const Spot& spot, Report& report) {
  if (solid.kind == site::SolidKind::kBuilding) check_openings(solid, spot, report);
  const bool outlined = solid.kind == site::SolidKind::kBuilding || solid.kind == site::SolidKind::kRoof;
  if (outlined) check_outline(solid.outline, spot.at("outline"), report);
  if (solid.kind == site::SolidKind::kWall) check_line(solid.line, spot.at("line"), report);
}

void check_veil(const site::Veil& veil, const Spot& spot, Report& report) {
  if (veil.kind != site::VeilKind::kTree) {
    check_line(veil.line, spot.at("line"), report);
  } else if (report.clean(spot.path, "crown_base_m") && report.clean(spot.path, "height_m") &&
             veil.crown_base >= veil.height) {
    report.add(ErrorKind::kGeometry, spot.at("crown_base_m"),
               fmt::format("found {}; the crown must begin below its top at {} m", print_number(veil.crown_base.si()),
                           print_number(veil.height.si())));
  }
}

void check_place(const site::Place& place, const Spot& spot, Report& report) {
  if (place.kind == site::PlaceKind::kZone)
    check_outline(place.outline, spot.at("outline"), report);
  else
    check_line(place.line, spot.at("line"), report);
}

void check_terrain(const site::Terrain& terrain, Report& report) {
  const Spot spot{"site.terrain", {}, "heights_m"};
  const auto wanted = static_cast<size_t>(terrain.columns) * static_cast<size_t>(terrain.rows);
  for (const char* field : {"kind", "columns", "rows", "heights_m"})
    if (!report.clean(spot.path, field)) return;
  if (terrain.heights.size() == wanted) return;
  report.add(ErrorKind::kField, spot,
             fmt::format("found {} heights; {} columns x {} rows need {}", terrain.heights.size(), terrain.columns,
                         terrain.rows, wanted));
}

/// A name that leads nowhere but to a file beside the document.
void check_plan(const site::Site& site, Report& report) {
  if (!site.plan || !report.clean("site.plan", "picture")) return;
  const std::string& name = site.plan->picture;
  if (name.find('/') == std::string::npos && name.find('\\') == std::string::npos && name.front() != '.' &&
      name.ends_with(".png"))
    return;
  report.add(ErrorKind::kField, {"site.plan", {}, "picture"},
             "found " + in_quotes(name) + "; a bare file name that ends in .png and begins with no dot is needed");
}

void check_materials(const site::Site& site, const light::Materials& materials, Report& report) {
  const ByName known(materials.all, "", "", report);
  const auto check = [&](const std::string& name, const Spot& spot) {
    if (!name.empty()) known.find(name, spot, "material of data/materials.json", report);
  };
  check(site.ground, {"site", {}, "ground"});
  for (size_t i = 0; i < site.solids.size(); ++i)
    check(site.solids[i].material, item_spot("site.solids", i, site.solids[i].name).at("material"));
}

template <class Thing>
void check_each(const std::vector<Thing>& things, const std::string& list, Report& report,
                void (*check)(const Thing&, const Spot&, Report&)) {
  for (size_t i = 0; i < things.size(); ++i) {
    const Spot spot = item_spot(list, i, things[i].name);
    const bool is_object = report.clean(spot.path, "");
    if (is_object && report.clean(spot.path, "kind")) check(things[i], spot, report);
  }
}

}  // namespace

std::string point_in_words(geom::PlanPoint p) { return fmt::format("[{}, {}]", print_number(p.x), print_number(p.y)); }

void check_line(const std::vector<geom::PlanPoint>& line, const Spot& spot, Report& report) {
  if (report.clean(spot.path, spot.field)) check_points(line, spot, report);
}

void check_site(const site::Site& site, const light::Materials& materials, Report& report) {
  check_terrain(site.terrain, report);
  check_plan(site, report);
  check_materials(site, materials, report);
  check_each(site.solids, "site.solids", report, check_solid);
  check_each(site.veils, "site.veils", report, check_veil);
  check_each(site.places, "site.places", report, check_place);
  if (!site.boundary.empty()) check_outline({site.boundary, {}}, {"site", {}, "boundary"}, report);
}

}  // namespace sightfall::file
