// SPDX-License-Identifier: GPL-3.0-or-later
#include "geom/polygon.h"

#include <geos_c.h>

#include <algorithm>
#include <memory>

#include "base/check.h"

namespace sightfall::geom {
namespace {

/// One GEOS context a call: the library's state is per context, so calls from many threads do not meet.
class Geos {
 public:
  Geos() : handle_{GEOS_init_r()} {}
  ~Geos() { GEOS_finish_r(handle_); }
  Geos(const Geos&) = delete;
  Geos& operator=(const Geos&) = delete;
  GEOSContextHandle_t handle() const { return handle_; }

  struct Free {
    GEOSContextHandle_t handle;
    void operator()(GEOSGeometry* g) const { GEOSGeom_destroy_r(handle, g); }
  };
  using Geometry = std::unique_ptr<GEOSGeometry, Free>;
  Geometry own(GEOSGeometry* g) const { return {g, Free{handle_}}; }

  /// A closed ring; null when it has fewer than three points, which GEOS refuses.
  GEOSGeometry* ring(const Ring& points) const {
    const auto count = static_cast<unsigned>(points.size());
    GEOSCoordSequence* sequence = GEOSCoordSeq_create_r(handle_, count + 1, 2);
    for (unsigned i = 0; i <= count; ++i) {
      const PlanPoint p = points[i % count];
      GEOSCoordSeq_setXY_r(handle_, sequence, i, p.x, p.y);
    }
    return GEOSGeom_createLinearRing_r(handle_, sequence);
  }

  Geometry polygon(const Outline& outline) const {
    std::vector<GEOSGeometry*> holes;
    holes.reserve(outline.holes.size());
    for (const Ring& hole : outline.holes) holes.push_back(ring(hole));
    return own(
        GEOSGeom_createPolygon_r(handle_, ring(outline.outer), holes.data(), static_cast<unsigned>(holes.size())));
  }

  std::vector<PlanPoint> points(const GEOSGeometry* line) const {
    const GEOSCoordSequence* sequence = GEOSGeom_getCoordSeq_r(handle_, line);
    unsigned count = 0;
    GEOSCoordSeq_getSize_r(handle_, sequence, &count);
    std::vector<PlanPoint> result(count);
    for (unsigned i = 0; i < count; ++i) GEOSCoordSeq_getXY_r(handle_, sequence, i, &result[i].x, &result[i].y);
    return result;
  }

 private:
  GEOSContextHandle_t handle_;
};

bool ring_contains(const Ring& ring, PlanPoint p) {
  bool inside = false;
  for (size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
    const PlanPoint a = ring[i], b = ring[j];
    if ((a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x) inside = !inside;
  }
  return inside;
}

bool on_edge(const Ring& ring, PlanPoint p) {
  for (size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
    const PlanPoint along = ring[i] - ring[j], to = p - ring[j];
    const double span = dot(along, along);
    if (cross(along, to) == 0 && dot(along, to) >= 0 && dot(along, to) <= span) return true;
  }
  return false;
}

bool too_few_points(const Outline& outline) {
  return outline.outer.size() < 3 ||
         std::any_of(outline.holes.begin(), outline.holes.end(), [](const Ring& hole) { return hole.size() < 3; });
}

using Triangles = std::vector<std::array<PlanPoint, 3>>;

void add_triangles(const Geos& geos, const GEOSGeometry* parts, Triangles& result) {
  const int count = GEOSGetNumGeometries_r(geos.handle(), parts);
  result.reserve(result.size() + static_cast<size_t>(count));
  for (int i = 0; i < count; ++i) {
    const GEOSGeometry* part = GEOSGetGeometryN_r(geos.handle(), parts, i);
    const auto ring = geos.points(GEOSGetExteriorRing_r(geos.handle(), part));
    CHECK_EQ(ring.size(), size_t{4});
    if (cross(ring[1] - ring[0], ring[2] - ring[0]) > 0)
      result.push_back({ring[0], ring[1], ring[2]});
    else
      result.push_back({ring[0], ring[2], ring[1]});
  }
}

/// Halvings of a polygon, each of the longer side of its box. Six were the most in 250,000 outlines whose rings touch.
constexpr int kMostCuts = 30;

/// GEOS 3.11 cannot triangulate some polygons whose rings touch: these are cut in two, and each half tried again.
void triangulate(const Geos& geos, const GEOSGeometry* polygon, int cuts, Triangles& result) {
  if (const auto parts = geos.own(GEOSConstrainedDelaunayTriangulation_r(geos.handle(), polygon)))
    return add_triangles(geos, parts.get(), result);
  CHECK_GT(cuts, 0);
  Box2 box;
  GEOSGeom_getXMin_r(geos.handle(), polygon, &box.low.x);
  GEOSGeom_getXMax_r(geos.handle(), polygon, &box.high.x);
  GEOSGeom_getYMin_r(geos.handle(), polygon, &box.low.y);
  GEOSGeom_getYMax_r(geos.handle(), polygon, &box.high.y);
  Box2 first = box, second = box;
  if (box.high.x - box.low.x > box.high.y - box.low.y)
    first.high.x = second.low.x = box.centre().x;
  else
    first.high.y = second.low.y = box.centre().y;
  for (const Box2& half : {first, second}) {
    const Ring corners{half.low, {half.high.x, half.low.y}, half.high, {half.low.x, half.high.y}};
    const auto piece = geos.own(GEOSIntersection_r(geos.handle(), polygon, geos.polygon({corners, {}}).get()));
    const int count = piece ? GEOSGetNumGeometries_r(geos.handle(), piece.get()) : 0;
    for (int i = 0; i < count; ++i)
      triangulate(geos, GEOSGetGeometryN_r(geos.handle(), piece.get(), i), cuts - 1, result);
  }
}

}  // namespace

void Box2::include(PlanPoint p) {
  low = {std::min(low.x, p.x), std::min(low.y, p.y)};
  high = {std::max(high.x, p.x), std::max(high.y, p.y)};
}

Area signed_area(const Ring& ring) {
  double twice = 0;
  for (size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) twice += cross(ring[j], ring[i]);
  return Area{twice / 2};
}

Area area(const Outline& outline) {
  double total = std::abs(signed_area(outline.outer).si());
  for (const Ring& hole : outline.holes) total -= std::abs(signed_area(hole).si());
  return Area{total};
}

std::optional<std::string> flaw(const Outline& outline) {
  if (too_few_points(outline)) return "a ring has fewer than three points";
  const Geos geos;
  const Geos::Geometry polygon = geos.polygon(outline);
  char* reason = nullptr;
  GEOSGeometry* place = nullptr;
  const char valid = GEOSisValidDetail_r(geos.handle(), polygon.get(), 0, &reason, &place);
  const Geos::Geometry owned_place = geos.own(place);
  std::string text = reason != nullptr ? reason : "";
  GEOSFree_r(geos.handle(), reason);
  if (valid == 1) return area(outline).si() > 0 ? std::nullopt : std::optional<std::string>("its area is zero");
  if (place != nullptr) {
    double x = 0, y = 0;
    GEOSGeomGetX_r(geos.handle(), place, &x);
    GEOSGeomGetY_r(geos.handle(), place, &y);
    text += " at (" + std::to_string(x) + ", " + std::to_string(y) + ")";
  }
  return text;
}

bool contains(const Outline& outline, PlanPoint point) {
  if (on_edge(outline.outer, point)) return true;
  if (!ring_contains(outline.outer, point)) return false;
  return std::none_of(outline.holes.begin(), outline.holes.end(),
                      [&](const Ring& hole) { return ring_contains(hole, point) && !on_edge(hole, point); });
}

Box2 bounds(const Ring& ring) {
  Box2 box;
  for (const PlanPoint p : ring) box.include(p);
  return box;
}

Length length(const std::vector<PlanPoint>& line) {
  double total = 0;
  for (size_t i = 1; i < line.size(); ++i) total += norm(line[i] - line[i - 1]);
  return Length{total};
}

Triangles triangles(const Outline& outline) {
  const Geos geos;
  Triangles result;
  triangulate(geos, geos.polygon(outline).get(), kMostCuts, result);
  return result;
}

Outline grown(const Outline& outline, Length by) {
  const Geos geos;
  const Geos::Geometry polygon = geos.polygon({outline.outer, {}});
  constexpr int kQuadrantSegments = 8;
  constexpr double kMitreLimit = 5;
  const Geos::Geometry buffer = geos.own(GEOSBufferWithStyle_r(geos.handle(), polygon.get(), by.si(), kQuadrantSegments,
                                                               GEOSBUF_CAP_FLAT, GEOSBUF_JOIN_MITRE, kMitreLimit));
  Ring ring = geos.points(GEOSGetExteriorRing_r(geos.handle(), buffer.get()));
  ring.pop_back();
  return {std::move(ring), {}};
}

}  // namespace sightfall::geom
