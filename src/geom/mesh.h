// SPDX-License-Identifier: GPL-3.0-or-later
// Triangle meshes and the shapes that a site is built of.
//   Frame    site frame, metres; triangles index vertices
//   Checked  mesh_test.cpp: closed surfaces (each edge twice), volumes and areas by pencil
#pragma once
#include <array>
#include <cstdint>
#include <functional>
#include <vector>

#include "geom/polygon.h"
#include "geom/vec.h"

namespace sightfall::geom {

struct Mesh {
  std::vector<Vec3> vertices;
  std::vector<std::array<uint32_t, 3>> triangles;

  uint32_t add(Vec3 vertex);
  void add_triangle(Vec3 a, Vec3 b, Vec3 c);
  /// Two triangles a-b-c and a-c-d.
  void add_quad(Vec3 a, Vec3 b, Vec3 c, Vec3 d);
  void append(const Mesh& other);
};

/// A rectangle cut out of a wall that stands on one edge of an outline.
struct Opening {
  int edge = 0;       ///< the outline's edge, from point `edge` to the next
  double from = 0;    ///< m along the edge to the near side
  double width = 1;   ///< m
  double sill = 0;    ///< m above the base
  double height = 2;  ///< m
};

/// The closed shell of an outline between two heights, with openings cut through its outer walls.
Mesh extruded(const Outline& outline, double base, double top, const std::vector<Opening>& openings = {});

/// A wall along a polyline: each point carries its own base; thickness zero gives a single sheet.
Mesh wall(const std::vector<PlanPoint>& line, const std::vector<double>& base, double height, double thickness);

/// A box turned clockwise from north by `heading` radians: x is its size across, y along the heading, z up.
Mesh box(Vec3 base_centre, Vec3 size, double heading);

/// A closed ellipsoid around a centre, from a subdivided octahedron.
Mesh ellipsoid(Vec3 centre, Vec3 radii);

/// A regular grid of heights, row 0 in the south; heights(column, row).
Mesh height_grid(PlanPoint south_west, double step, int columns, int rows,
                 const std::function<double(int, int)>& height);

}  // namespace sightfall::geom
