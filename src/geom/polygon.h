// SPDX-License-Identifier: GPL-3.0-or-later
// Outlines on the ground plan: validity, area, containment, triangles.
//   Library  GEOS (C interface), only in polygon.cpp
//   Checked  polygon_test.cpp: areas by pencil, triangles that cover the outline exactly, self-crossing rings
#pragma once
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "geom/vec.h"
#include "unit/quantity.h"

namespace sightfall::geom {

/// A ring of plan points without the closing repeat; either direction.
using Ring = std::vector<PlanPoint>;

/// An outer ring with holes.
struct Outline {
  Ring outer;
  std::vector<Ring> holes;
};

struct Box2 {
  PlanPoint low{1e300, 1e300};
  PlanPoint high{-1e300, -1e300};

  void include(PlanPoint p);
  bool empty() const { return low.x > high.x; }
  Box2 grown(double metres) const { return {{low.x - metres, low.y - metres}, {high.x + metres, high.y + metres}}; }
  PlanPoint centre() const { return 0.5 * (low + high); }
};

/// Signed area of a ring: positive when it runs anticlockwise.
Area signed_area(const Ring& ring);

/// Area of the outline less its holes.
Area area(const Outline& outline);

/// Nothing when the outline is a valid simple polygon; otherwise what is wrong and where, in words.
std::optional<std::string> flaw(const Outline& outline);

/// Whether the point lies inside or on the edge of the outline and not inside a hole.
bool contains(const Outline& outline, PlanPoint point);

Box2 bounds(const Ring& ring);

/// Total length of a polyline.
Length length(const std::vector<PlanPoint>& line);

/// Triangles, anticlockwise, that cover the outline exactly (constrained Delaunay). The outline must be without flaw.
std::vector<std::array<PlanPoint, 3>> triangles(const Outline& outline);

/// The outline grown outwards by a distance (mitred corners); its holes are dropped.
Outline grown(const Outline& outline, Length by);

}  // namespace sightfall::geom
