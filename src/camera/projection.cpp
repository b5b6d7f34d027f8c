// SPDX-License-Identifier: GPL-3.0-or-later
#include "camera/projection.h"

#include <algorithm>
#include <cmath>

namespace sightfall::camera {
namespace {

using geom::ImagePoint;
using geom::Vec3;

/// Distorted plane coordinates of the Brown form and their derivatives by the undistorted ones.
struct BrownPoint {
  double x, y, xx, xy, yy;  // xy = dx/dy = dy/dx: the form's Jacobian is symmetric
};

BrownPoint brown(const std::array<double, 5>& k, double x, double y) {
  const double k1 = k[0], k2 = k[1], p1 = k[2], p2 = k[3], k3 = k[4];
  const double r2 = x * x + y * y;
  const double radial = 1 + r2 * (k1 + r2 * (k2 + r2 * k3));
  const double slope = k1 + r2 * (2 * k2 + 3 * k3 * r2);  // d(radial)/d(r2)
  return {x * radial + 2 * p1 * x * y + p2 * (r2 + 2 * x * x), y * radial + p1 * (r2 + 2 * y * y) + 2 * p2 * x * y,
          radial + 2 * x * x * slope + 2 * p1 * y + 6 * p2 * x, 2 * x * y * slope + 2 * p1 * x + 2 * p2 * y,
          radial + 2 * y * y * slope + 6 * p1 * y + 2 * p2 * x};
}

double fisheye(const std::array<double, 5>& k, double theta) {
  const double t = theta * theta;
  return theta * (1 + t * (k[0] + t * (k[1] + t * (k[2] + t * k[3]))));
}

double fisheye_slope(const std::array<double, 5>& k, double theta) {
  const double t = theta * theta;
  return 1 + t * (3 * k[0] + t * (5 * k[1] + t * (7 * k[2] + t * 9 * k[3])));
}

/// Metres and rays are far from where their squares leave the range of numbers, for which std::hypot takes care.
double across(Vec3 p) { return std::sqrt(p.x * p.x + p.y * p.y); }

double off_axis(Vec3 p) { return std::atan2(across(p), p.z); }

constexpr int kNewtonSteps = 60;
constexpr double kConverged = 1e-15;

std::optional<Vec3> brown_ray(const Projector& p, double x, double y) {
  double ux = x, uy = y;
  for (int i = 0; i < kNewtonSteps; ++i) {
    const BrownPoint at = brown(p.k, ux, uy);
    const double ex = at.x - x, ey = at.y - y;
    const double det = at.xx * at.yy - at.xy * at.xy;
    if (!(std::abs(det) > 1e-12)) return std::nullopt;
    ux -= (at.yy * ex - at.xy * ey) / det;
    uy -= (at.xx * ey - at.xy * ex) / det;
    if (ex * ex + ey * ey < kConverged * kConverged) break;
  }
  const BrownPoint at = brown(p.k, ux, uy);
  if (!(std::hypot(at.x - x, at.y - y) * p.focal_px < kRoundTripError.si())) return std::nullopt;
  return unit(Vec3{ux, uy, 1});
}

std::optional<Vec3> fisheye_ray(const Projector& p, double x, double y) {
  const double target = std::hypot(x, y);
  if (target == 0) return Vec3{0, 0, 1};
  double theta = std::min(target, p.largest.si());
  for (int i = 0; i < kNewtonSteps; ++i) {
    const double slope = fisheye_slope(p.k, theta);
    if (!(slope > 1e-9)) return std::nullopt;
    const double step = (fisheye(p.k, theta) - target) / slope;
    theta -= step;
    if (std::abs(step) < kConverged) break;
  }
  if (!(std::abs(fisheye(p.k, theta) - target) * p.focal_px < kRoundTripError.si())) return std::nullopt;
  const double s = std::sin(theta) / target;
  return Vec3{s * x, s * y, std::cos(theta)};
}

}  // namespace

std::optional<ImagePoint> image_point(const Projector& p, Vec3 point) {
  const double angle = off_axis(point);
  if (angle > p.largest.si()) return std::nullopt;
  double x = 0, y = 0;
  if (p.mapping == Mapping::kBrown) {
    if (point.z <= 0) return std::nullopt;
    const BrownPoint at = brown(p.k, point.x / point.z, point.y / point.z);
    x = at.x;
    y = at.y;
  } else if (const double r = across(point); r > 0) {
    const double scale = fisheye(p.k, angle) / r;
    x = scale * point.x;
    y = scale * point.y;
  }
  return ImagePoint{p.focal_px * x + p.centre_u(), p.focal_px * y + p.centre_v()};
}

bool in_picture(const Projector& p, ImagePoint at) {
  return at.u >= -0.5 && at.u <= p.columns - 0.5 && at.v >= -0.5 && at.v <= p.rows - 0.5;
}

std::optional<Vec3> ray_camera(const Projector& p, ImagePoint at) {
  const double x = (at.u - p.centre_u()) / p.focal_px, y = (at.v - p.centre_v()) / p.focal_px;
  const auto ray = p.mapping == Mapping::kBrown ? brown_ray(p, x, y) : fisheye_ray(p, x, y);
  if (!ray || off_axis(*ray) > p.largest.si()) return std::nullopt;
  return ray;
}

PointJacobian jacobian(const Projector& p, Vec3 point) {
  const double f = p.focal_px;
  if (p.mapping == Mapping::kBrown) {
    const double x = point.x / point.z, y = point.y / point.z;
    const BrownPoint at = brown(p.k, x, y);
    const Vec3 dx{1 / point.z, 0, -x / point.z}, dy{0, 1 / point.z, -y / point.z};
    return {f * (at.xx * dx + at.xy * dy), f * (at.xy * dx + at.yy * dy)};
  }
  const double r = across(point), square = dot(point, point);
  if (r < 1e-12 * std::abs(point.z)) return {{f / point.z, 0, 0}, {0, f / point.z, 0}};
  const double theta = off_axis(point);
  const double height = f * fisheye(p.k, theta), slope = f * fisheye_slope(p.k, theta);
  // Image radius grows along the meridian with slope * d(theta); the azimuth turns with d(phi).
  const double cx = point.x / r, cy = point.y / r;
  const Vec3 dtheta{point.z * cx / square, point.z * cy / square, -r / square};
  const Vec3 dphi{-cy / r, cx / r, 0};
  return {slope * cx * dtheta - height * cy * dphi, slope * cy * dtheta + height * cx * dphi};
}

SurfaceDensity surface_density(const PointJacobian& j, Vec3 across, Vec3 up) {
  const double a = dot(j.u, across), b = dot(j.u, up), c = dot(j.v, across), d = dot(j.v, up);
  const double square = a * a + b * b + c * c + d * d, det = std::abs(a * d - b * c);
  const double largest = std::sqrt((square + std::sqrt(std::max(0.0, square * square - 4 * det * det))) / 2);
  // The smaller singular value by way of the larger one keeps its digits when it is small.
  return {largest > 0 ? det / largest : 0, det, std::hypot(a, c), std::hypot(b, d)};
}

Angle horizontal_view(const Projector& p) {
  const auto side = [&](double u) { return ray_camera(p, {u, p.centre_v()}); };
  const auto left = side(-0.5), right = side(p.columns - 0.5);
  if (!left || !right) return 2 * p.largest;
  return Angle{off_axis(*left) + off_axis(*right)};
}

Angle vertical_view(const Projector& p) {
  const auto side = [&](double v) { return ray_camera(p, {p.centre_u(), v}); };
  const auto upper = side(-0.5), lower = side(p.rows - 0.5);
  if (!upper || !lower) return 2 * p.largest;
  return Angle{off_axis(*upper) + off_axis(*lower)};
}

RadialScale radial_scale(const Projector& p, Angle angle) {
  const double theta = angle.si(), f = p.focal_px;
  if (p.mapping == Mapping::kFisheye)
    return {f * fisheye_slope(p.k, theta), theta < 1e-9 ? f : f * fisheye(p.k, theta) / std::sin(theta)};
  const double t = std::tan(theta), c = std::cos(theta);
  const BrownPoint at = brown({p.k[0], p.k[1], 0, 0, p.k[4]}, t, 0);
  return {f * at.xx / (c * c), theta < 1e-9 ? f : f * at.x / std::sin(theta)};
}

Angle monotone_to(const Projector& p, Angle limit) {
  constexpr int kSteps = 2000;
  const std::array<double, 5> radial{p.k[0], p.k[1], 0, 0, p.k[4]};
  const auto grows = [&](double theta) {
    return p.mapping == Mapping::kFisheye ? fisheye_slope(p.k, theta) > 0 : brown(radial, std::tan(theta), 0).xx > 0;
  };
  for (int i = 1; i <= kSteps; ++i)
    if (!grows(static_cast<double>(i) / kSteps * limit.si())) return (static_cast<double>(i - 1) / kSteps) * limit;
  return limit;
}

}  // namespace sightfall::camera
