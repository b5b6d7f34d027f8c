// SPDX-License-Identifier: GPL-3.0-or-later
#include "import/outline_parts.h"

#include <fmt/format.h>
#include <ogr_api.h>

#include <algorithm>
#include <cmath>
#include <memory>

#include "import/gdal_quiet.h"
#include "import/limits.h"
#include "import/ogr_outline.h"

namespace sightfall::import {
namespace {

using Geometry = std::unique_ptr<std::remove_pointer_t<OGRGeometryH>, decltype(&OGR_G_DestroyGeometry)>;

Geometry own(OGRGeometryH geometry) { return {geometry, OGR_G_DestroyGeometry}; }

void tidy(geom::Ring& ring) {
  const auto rounded = [](double metres) { return std::round(metres * 1000) / 1000; };
  for (geom::PlanPoint& p : ring) p = {rounded(p.x), rounded(p.y)};
  ring.erase(std::unique(ring.begin(), ring.end()), ring.end());
  while (ring.size() > 1 && ring.front() == ring.back()) ring.pop_back();
}

void tidy(geom::Outline& outline) {
  tidy(outline.outer);
  for (geom::Ring& hole : outline.holes) tidy(hole);
  std::erase_if(outline.holes, [](const geom::Ring& hole) {
    return hole.size() < 3 || std::abs(geom::signed_area(hole).si()) < kLeastArea.si();
  });
}

bool has_area(const geom::Outline& outline) { return outline.outer.size() >= 3 && geom::area(outline) >= kLeastArea; }

OGRGeometryH ring_geometry(const geom::Ring& ring) {
  OGRGeometryH line = OGR_G_CreateGeometry(wkbLinearRing);
  for (const geom::PlanPoint p : ring) OGR_G_AddPoint_2D(line, p.x, p.y);
  OGR_G_CloseRings(line);
  return line;
}

Geometry polygon(const geom::Outline& outline) {
  Geometry result = own(OGR_G_CreateGeometry(wkbPolygon));
  OGR_G_AddGeometryDirectly(result.get(), ring_geometry(outline.outer));
  for (const geom::Ring& hole : outline.holes) OGR_G_AddGeometryDirectly(result.get(), ring_geometry(hole));
  return result;
}

/// Every polygon within a geometry goes into the multipolygon; lines and points that a repair left are not areas.
void add_polygons(OGRGeometryH from, OGRGeometryH multi) {
  if (OGR_GT_Flatten(OGR_G_GetGeometryType(from)) == wkbPolygon) {
    OGR_G_AddGeometry(multi, from);
    return;
  }
  for (int i = 0; i < OGR_G_GetGeometryCount(from); ++i) {
    OGRGeometryH part = OGR_G_GetGeometryRef(from, i);
    if (OGR_GT_IsSubClassOf(OGR_GT_Flatten(OGR_G_GetGeometryType(part)), wkbCurve) == 0) add_polygons(part, multi);
  }
}

/// Keeps the outlines that are whole and large enough; the first flaw of the others is returned.
std::string keep_sound(std::vector<geom::Outline> found, std::vector<geom::Outline>& kept) {
  std::string flaw;
  for (geom::Outline& outline : found) {
    tidy(outline);
    const std::optional<std::string> wrong =
        has_area(outline) ? geom::flaw(outline) : fmt::format("its area is below {} m2", kLeastArea.si());
    if (!wrong)
      kept.push_back(std::move(outline));
    else if (flaw.empty())
      flaw = *wrong;
  }
  return flaw;
}

/// All parts in one geometry, crossings repaired and touching parts made one; null when the library cannot.
Geometry united(const std::vector<geom::Outline>& parts, std::string& repaired) {
  const Geometry multi = own(OGR_G_CreateGeometry(wkbMultiPolygon));
  for (const geom::Outline& part : parts) {
    const std::optional<std::string> wrong = geom::flaw(part);
    if (!wrong) {
      add_polygons(polygon(part).get(), multi.get());
      continue;
    }
    repaired = *wrong;
    if (const Geometry valid = own(OGR_G_MakeValid(polygon(part).get()))) add_polygons(valid.get(), multi.get());
  }
  return own(OGR_G_UnionCascaded(multi.get()));
}

}  // namespace

Joined joined(std::vector<geom::Outline> parts) {
  const GdalQuiet quiet;
  Joined result;
  for (geom::Outline& part : parts) tidy(part);
  std::erase_if(parts, [](const geom::Outline& part) { return part.outer.size() < 3; });
  if (parts.size() == 1 && has_area(parts[0]) && !geom::flaw(parts[0])) {
    result.outlines = std::move(parts);
    return result;
  }
  std::vector<geom::Outline> found;
  if (const Geometry whole = united(parts, result.repaired)) {
    const Geometry multi = own(OGR_G_ForceToMultiPolygon(OGR_G_Clone(whole.get())));
    for (int i = 0; i < OGR_G_GetGeometryCount(multi.get()); ++i)
      found.push_back(outline_of(OGR_G_GetGeometryRef(multi.get(), i)));
  }
  const std::string flaw = keep_sound(std::move(found), result.outlines);
  if (result.outlines.empty()) result.dropped = flaw.empty() ? "it encloses no area" : flaw;
  return result;
}

}  // namespace sightfall::import
