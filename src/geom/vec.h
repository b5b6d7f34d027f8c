// SPDX-License-Identifier: GPL-3.0-or-later
// Vectors and rotations.
//   Frames   names say the frame: `eye_site` is a point in the site frame (x east, y north, z up, metres), `ray_camera`
//            a direction in the camera frame (x right, y down, z along the axis). A Mat3 `camera_from_site` turns the
//            second into the first. Coordinates are metres; quantities that are not coordinates carry unit types.
#pragma once
#include <array>
#include <cmath>

namespace sightfall::geom {

struct Vec2 {
  double x = 0, y = 0;
  bool operator==(const Vec2&) const = default;
};
constexpr Vec2 operator+(Vec2 a, Vec2 b) { return {a.x + b.x, a.y + b.y}; }
constexpr Vec2 operator-(Vec2 a, Vec2 b) { return {a.x - b.x, a.y - b.y}; }
constexpr Vec2 operator*(double k, Vec2 a) { return {k * a.x, k * a.y}; }
constexpr double dot(Vec2 a, Vec2 b) { return a.x * b.x + a.y * b.y; }
constexpr double cross(Vec2 a, Vec2 b) { return a.x * b.y - a.y * b.x; }
inline double norm(Vec2 a) { return std::hypot(a.x, a.y); }

struct Vec3 {
  double x = 0, y = 0, z = 0;
  bool operator==(const Vec3&) const = default;
};
constexpr Vec3 operator+(Vec3 a, Vec3 b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
constexpr Vec3 operator-(Vec3 a, Vec3 b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
constexpr Vec3 operator-(Vec3 a) { return {-a.x, -a.y, -a.z}; }
constexpr Vec3 operator*(double k, Vec3 a) { return {k * a.x, k * a.y, k * a.z}; }
constexpr double dot(Vec3 a, Vec3 b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
constexpr Vec3 cross(Vec3 a, Vec3 b) { return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x}; }
inline double norm(Vec3 a) { return std::sqrt(dot(a, a)); }
inline Vec3 unit(Vec3 a) { return (1.0 / norm(a)) * a; }
constexpr Vec2 plan(Vec3 a) { return {a.x, a.y}; }

/// A point in the site frame, metres.
using SitePoint = Vec3;
/// A point on the ground plan, metres east and north.
using PlanPoint = Vec2;
/// A point in the picture: u right, v down, (0,0) at the centre of the top left pixel.
struct ImagePoint {
  double u = 0, v = 0;
};

/// Rows of a 3x3 matrix.
struct Mat3 {
  std::array<Vec3, 3> row;
};
constexpr Vec3 operator*(const Mat3& m, Vec3 a) { return {dot(m.row[0], a), dot(m.row[1], a), dot(m.row[2], a)}; }
constexpr Mat3 transposed(const Mat3& m) {
  return {{Vec3{m.row[0].x, m.row[1].x, m.row[2].x}, Vec3{m.row[0].y, m.row[1].y, m.row[2].y},
           Vec3{m.row[0].z, m.row[1].z, m.row[2].z}}};
}

}  // namespace sightfall::geom
