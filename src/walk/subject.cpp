// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/subject.h"

#include <cmath>
#include <cstdint>
#include <numbers>

#include "base/check.h"
#include "walk/pattern.h"

namespace sightfall::walk {
namespace {

using geom::PlanPoint;
using geom::Vec3;

/// Two unit vectors square to an axis; the first, the second and the axis are a right-handed frame.
std::array<Vec3, 2> across(Vec3 axis) {
  const Vec3 other = std::abs(axis.x) < 0.9 ? Vec3{1, 0, 0} : Vec3{0, 1, 0};
  const Vec3 first = unit(cross(other, axis));
  return {first, cross(axis, first)};
}

LoopOfPoints circle(Vec3 centre, Vec3 axis, double radius, int around) {
  const auto [first, second] = across(axis);
  LoopOfPoints ring;
  for (int i = 0; i < around; ++i) {
    const double turn = 2 * std::numbers::pi * i / around;
    ring.push_back(centre + (radius * std::cos(turn)) * first + (radius * std::sin(turn)) * second);
  }
  return ring;
}

Vec3 middle(const LoopOfPoints& ring) {
  Vec3 sum;
  for (const Vec3& p : ring) sum = sum + p;
  return (1.0 / static_cast<double>(ring.size())) * sum;
}

}  // namespace

// What the table lacks is given the name of a surface about as bright: rubber and leather that of dark
// paint, a lamp's reflector that of light metal, a printed board's mean that of an object of no particular colour.
std::string_view material_of(Part part) {
  switch (part) {
    case Part::kFace:
    case Part::kSkin:
    case Part::kHair:  // as the face's pattern has it: skin, darkened
      return "skin";
    case Part::kClothing:
    case Part::kTrousers:
      return "clothing";
    case Part::kPaint:
      return "car paint";
    case Part::kGlass:
      return "glass";
    case Part::kPlate:
      return "plate sheeting";
    case Part::kRim:
    case Part::kHeadlight:
      return "light painted metal";
    case Part::kTarget:
      return "object";
    case Part::kPost:
      return "galvanised steel";
    case Part::kShoes:
    case Part::kTyre:
    case Part::kTrim:
    case Part::kTailLight:
      break;
  }
  return "dark painted metal";
}

void SubjectMesh::add(const geom::Mesh& shape, Part of) {
  mesh.append(shape);
  part.resize(mesh.triangles.size(), of);
  uv.resize(mesh.triangles.size());
}

void SubjectMesh::add_panel(Vec3 centre, Vec3 size, bool ahead, Part front, Part sides) {
  const size_t first = mesh.triangles.size();
  add(geom::box({centre.x, centre.y, centre.z - size.z / 2}, size, 0), sides);
  const double facing = ahead ? 1 : -1;
  const double plane = centre.y + facing * size.y / 2;
  for (size_t t = first; t < mesh.triangles.size(); ++t) {
    const auto corner = [&](size_t k) { return mesh.vertices[mesh.triangles[t][k]]; };
    const auto on_front = [&](size_t k) { return std::abs(corner(k).y - plane) < size.y / 2; };
    if (!on_front(0) || !on_front(1) || !on_front(2)) continue;
    part[t] = front;
    for (size_t k = 0; k < 3; ++k)  // who looks at its face sees the subject's right hand on the left
      uv[t][k] = {0.5 - facing * (corner(k).x - centre.x) / size.x, 0.5 - (corner(k).z - centre.z) / size.z};
  }
}

SubjectMesh target_board(Length above_ground) {
  constexpr double kSide = TargetPattern::kSide.si(), kThickness = 0.012, kPost = 0.04;  // m
  const double height = above_ground.si();
  CHECK_GT(height, kSide / 2);
  SubjectMesh target;
  target.add_panel({0, 0, height}, {kSide, kThickness, kSide}, true, Part::kTarget, Part::kPost);
  target.add(geom::box({0, -(kThickness + kPost) / 2, 0}, {kPost, kPost, height}, 0), Part::kPost);
  return target;
}

geom::Mesh lofted(const std::vector<LoopOfPoints>& rings) {
  geom::Mesh mesh;
  const auto around = static_cast<uint32_t>(rings.front().size());
  for (const LoopOfPoints& ring : rings) {
    CHECK_EQ(ring.size(), rings.front().size());
    mesh.vertices.insert(mesh.vertices.end(), ring.begin(), ring.end());
  }
  const auto last = static_cast<uint32_t>(rings.size() - 1) * around;
  for (uint32_t from = 0; from < last; from += around)
    for (uint32_t k = 0; k < around; ++k) {
      const uint32_t a = from + k, b = from + (k + 1) % around;
      mesh.triangles.push_back({a, b, b + around});
      mesh.triangles.push_back({a, b + around, a + around});
    }
  const uint32_t begin = mesh.add(middle(rings.front())), end = mesh.add(middle(rings.back()));
  for (uint32_t k = 0; k < around; ++k) mesh.triangles.push_back({begin, (k + 1) % around, k});
  for (uint32_t k = 0; k < around; ++k) mesh.triangles.push_back({end, last + k, last + (k + 1) % around});
  return mesh;
}

geom::Mesh limb(Vec3 a, double radius_a, Vec3 b, double radius_b, int around) {
  constexpr int kRings = 3;                                 // of each end
  constexpr double kApart = 37.5 * std::numbers::pi / 180;  // rad of latitude: the last is 15 degrees short of the pole
  const Vec3 axis = unit(b - a);
  std::vector<LoopOfPoints> rings;
  const auto add = [&](Vec3 centre, double radius, double latitude) {
    rings.push_back(circle(centre + (radius * std::sin(latitude)) * axis, axis, radius * std::cos(latitude), around));
  };
  for (int i = kRings - 1; i >= 0; --i) add(a, radius_a, -kApart * i);
  for (int i = 0; i < kRings; ++i) add(b, radius_b, kApart * i);
  return lofted(rings);
}

}  // namespace sightfall::walk
