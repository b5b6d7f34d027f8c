// SPDX-License-Identifier: GPL-3.0-or-later
#include "geom/mesh.h"

#include <algorithm>
#include <cmath>

namespace sightfall::geom {
namespace {

Vec3 at(PlanPoint p, double z) { return {p.x, p.y, z}; }

/// One vertical wall from a to b with rectangles cut out: the wall is split in columns at the openings' sides, and in
/// each column in the bands between openings.
void add_wall(Mesh& mesh, PlanPoint a, PlanPoint b, double base, double top, const std::vector<Opening>& openings) {
  const double span = norm(b - a);
  std::vector<double> cuts{0, span};
  for (const Opening& o : openings) {
    cuts.push_back(std::clamp(o.from, 0.0, span));
    cuts.push_back(std::clamp(o.from + o.width, 0.0, span));
  }
  std::sort(cuts.begin(), cuts.end());
  const auto point = [&](double along, double z) { return at(a + (along / span) * (b - a), z); };
  for (size_t i = 1; i < cuts.size(); ++i) {
    if (cuts[i] - cuts[i - 1] <= 0) continue;
    const double middle = (cuts[i] + cuts[i - 1]) / 2;
    std::vector<std::array<double, 2>> gaps;
    for (const Opening& o : openings)
      if (o.from < middle && middle < o.from + o.width) gaps.push_back({base + o.sill, base + o.sill + o.height});
    std::sort(gaps.begin(), gaps.end());
    double z = base;
    const auto fill_to = [&](double upper) {
      if (upper > z)
        mesh.add_quad(point(cuts[i - 1], z), point(cuts[i], z), point(cuts[i], upper), point(cuts[i - 1], upper));
    };
    for (const auto& gap : gaps) {
      fill_to(std::min(gap[0], top));
      z = std::max(z, gap[1]);
    }
    fill_to(top);
  }
}

void add_ring_walls(Mesh& mesh, const Ring& ring, double base, double top, const std::vector<Opening>& openings) {
  for (size_t i = 0; i < ring.size(); ++i) {
    std::vector<Opening> here;
    std::copy_if(openings.begin(), openings.end(), std::back_inserter(here),
                 [&](const Opening& o) { return o.edge == static_cast<int>(i); });
    add_wall(mesh, ring[i], ring[(i + 1) % ring.size()], base, top, here);
  }
}

/// Offset of a polyline's points to its left, with mitred corners.
std::vector<PlanPoint> offset(const std::vector<PlanPoint>& line, double by) {
  std::vector<PlanPoint> result;
  constexpr double kLongestMitre = 4;
  for (size_t i = 0; i < line.size(); ++i) {
    const auto normal = [&](size_t from) {
      const PlanPoint d = line[from + 1] - line[from];
      return (1 / norm(d)) * PlanPoint{-d.y, d.x};
    };
    const PlanPoint before = normal(i == 0 ? 0 : i - 1), after = normal(i + 1 == line.size() ? i - 1 : i);
    const PlanPoint sum = before + after;
    const double square = dot(sum, sum);
    const PlanPoint mitre = square > 1e-9 ? (2 / square) * sum : before;
    const double stretch = std::min(1.0, kLongestMitre / norm(mitre));
    result.push_back(line[i] + (by * stretch) * mitre);
  }
  return result;
}

}  // namespace

uint32_t Mesh::add(Vec3 vertex) {
  vertices.push_back(vertex);
  return static_cast<uint32_t>(vertices.size() - 1);
}

void Mesh::add_triangle(Vec3 a, Vec3 b, Vec3 c) {
  const uint32_t first = add(a);
  add(b);
  add(c);
  triangles.push_back({first, first + 1, first + 2});
}

void Mesh::add_quad(Vec3 a, Vec3 b, Vec3 c, Vec3 d) {
  const uint32_t first = add(a);
  add(b);
  add(c);
  add(d);
  triangles.push_back({first, first + 1, first + 2});
  triangles.push_back({first, first + 2, first + 3});
}

void Mesh::append(const Mesh& other) {
  const auto first = static_cast<uint32_t>(vertices.size());
  vertices.insert(vertices.end(), other.vertices.begin(), other.vertices.end());
  for (const auto& t : other.triangles) triangles.push_back({t[0] + first, t[1] + first, t[2] + first});
}

Mesh extruded(const Outline& outline, double base, double top, const std::vector<Opening>& openings) {
  Mesh mesh;
  add_ring_walls(mesh, outline.outer, base, top, openings);
  for (const Ring& hole : outline.holes) add_ring_walls(mesh, hole, base, top, {});
  for (const auto& t : triangles(outline)) {
    mesh.add_triangle(at(t[0], top), at(t[1], top), at(t[2], top));
    mesh.add_triangle(at(t[0], base), at(t[2], base), at(t[1], base));
  }
  return mesh;
}

Mesh wall(const std::vector<PlanPoint>& line, const std::vector<double>& base, double height, double thickness) {
  Mesh mesh;
  if (thickness <= 0) {
    for (size_t i = 1; i < line.size(); ++i)
      mesh.add_quad(at(line[i - 1], base[i - 1]), at(line[i], base[i]), at(line[i], base[i] + height),
                    at(line[i - 1], base[i - 1] + height));
    return mesh;
  }
  const auto left = offset(line, thickness / 2), right = offset(line, -thickness / 2);
  const auto corner = [&](const std::vector<PlanPoint>& side, size_t i, double up) {
    return at(side[i], base[i] + up);
  };
  for (size_t i = 1; i < line.size(); ++i) {
    const size_t j = i - 1;
    mesh.add_quad(corner(right, j, 0), corner(right, i, 0), corner(right, i, height), corner(right, j, height));
    mesh.add_quad(corner(left, i, 0), corner(left, j, 0), corner(left, j, height), corner(left, i, height));
    mesh.add_quad(corner(right, j, height), corner(right, i, height), corner(left, i, height), corner(left, j, height));
    mesh.add_quad(corner(left, j, 0), corner(left, i, 0), corner(right, i, 0), corner(right, j, 0));
  }
  const size_t last = line.size() - 1;
  mesh.add_quad(corner(left, 0, 0), corner(right, 0, 0), corner(right, 0, height), corner(left, 0, height));
  mesh.add_quad(corner(right, last, 0), corner(left, last, 0), corner(left, last, height), corner(right, last, height));
  return mesh;
}

Mesh box(Vec3 base_centre, Vec3 size, double heading) {
  const PlanPoint ahead{std::sin(heading), std::cos(heading)}, right{ahead.y, -ahead.x}, centre = plan(base_centre);
  const PlanPoint across = (size.x / 2) * right, along = (size.y / 2) * ahead;
  const Ring ring{centre - across - along, centre + across - along, centre + across + along, centre - across + along};
  return extruded({ring, {}}, base_centre.z, base_centre.z + size.z);
}

Mesh ellipsoid(Vec3 centre, Vec3 radii) {
  constexpr int kParts = 8;  // a side of each of the octahedron's eight faces
  Mesh mesh;
  const auto surface = [&](Vec3 octant, int i, int j) {
    const Vec3 flat{static_cast<double>(i) / kParts, static_cast<double>(j) / kParts,
                    static_cast<double>(kParts - i - j) / kParts};
    const Vec3 u = unit(flat);
    return Vec3{centre.x + octant.x * radii.x * u.x, centre.y + octant.y * radii.y * u.y,
                centre.z + octant.z * radii.z * u.z};
  };
  for (int face = 0; face < 8; ++face) {
    const Vec3 octant{face & 1 ? -1.0 : 1.0, face & 2 ? -1.0 : 1.0, face & 4 ? -1.0 : 1.0};
    const bool flipped = octant.x * octant.y * octant.z < 0;
    const auto add = [&](Vec3 a, Vec3 b, Vec3 c) { flipped ? mesh.add_triangle(a, c, b) : mesh.add_triangle(a, b, c); };
    for (int i = 0; i < kParts; ++i)
      for (int j = 0; i + j < kParts; ++j) {
        add(surface(octant, i, j), surface(octant, i + 1, j), surface(octant, i, j + 1));
        if (i + j + 2 <= kParts)
          add(surface(octant, i + 1, j), surface(octant, i + 1, j + 1), surface(octant, i, j + 1));
      }
  }
  return mesh;
}

Mesh height_grid(PlanPoint south_west, double step, int columns, int rows,
                 const std::function<double(int, int)>& height) {
  Mesh mesh;
  mesh.vertices.reserve(static_cast<size_t>(columns) * static_cast<size_t>(rows));
  for (int r = 0; r < rows; ++r)
    for (int c = 0; c < columns; ++c) mesh.add({south_west.x + c * step, south_west.y + r * step, height(c, r)});
  for (int r = 0; r + 1 < rows; ++r)
    for (int c = 0; c + 1 < columns; ++c) {
      const auto a = static_cast<uint32_t>(r * columns + c), b = a + 1, d = a + static_cast<uint32_t>(columns),
                 e = d + 1;
      mesh.triangles.push_back({a, b, e});
      mesh.triangles.push_back({a, e, d});
    }
  return mesh;
}

}  // namespace sightfall::geom
