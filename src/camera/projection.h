// SPDX-License-Identifier: GPL-3.0-or-later
// Where a point falls in the picture, back again, and how many pixels a metre there takes.
//   Model    Brown-Conrady (k1 k2 p1 p2 k3) on the pinhole, or the equidistant fisheye form
//            theta_d = theta (1 + k1 theta^2 + k2 theta^4 + k3 theta^6 + k4 theta^8)
//   Frames   camera: x right, y down, z along the axis; picture: (0,0) at the centre of the top left pixel
//   Error    kRoundTripError: pixel -> ray -> pixel over the picture
//   Source   D. C. Brown, Close-range camera calibration, Photogrammetric Engineering 37 (1971); J. Kannala and
//            S. S. Brandt, A generic camera model, IEEE TPAMI 28 (2006)
//   Checked  projection_test.cpp; tests/outside/projection_test.cpp against a reference library's projection
#pragma once
#include <array>
#include <optional>

#include "geom/vec.h"
#include "unit/quantity.h"

namespace sightfall::camera {

inline constexpr Pixels kRoundTripError{1e-6};

enum class Mapping { kBrown, kFisheye };

struct Projector {
  Mapping mapping = Mapping::kBrown;
  int columns = 0, rows = 0;
  double focal_px = 0;        ///< focal length over pixel pitch; pixels are square
  std::array<double, 5> k{};  ///< Brown: k1 k2 p1 p2 k3; fisheye: k1 k2 k3 k4
  Angle largest;              ///< rays farther from the axis do not reach the picture

  double centre_u() const { return (columns - 1) / 2.0; }
  double centre_v() const { return (rows - 1) / 2.0; }

  bool operator==(const Projector&) const = default;
};

/// Where a point of the camera frame falls, or nothing when it is behind or farther off the axis than `largest`.
/// The image point may lie outside the picture.
std::optional<geom::ImagePoint> image_point(const Projector& projector, geom::Vec3 point_camera);

/// Whether an image point lies on the picture's pixels.
bool in_picture(const Projector& projector, geom::ImagePoint at);

/// The unit ray that falls on an image point, or nothing when none does.
std::optional<geom::Vec3> ray_camera(const Projector& projector, geom::ImagePoint at);

/// d(u,v)/d(x,y,z) at a point that image_point accepts: pixels a metre along each camera axis.
struct PointJacobian {
  geom::Vec3 u, v;
};
PointJacobian jacobian(const Projector& projector, geom::Vec3 point_camera);

/// Pixels a metre on a surface spanned by two perpendicular unit vectors of the camera frame.
struct SurfaceDensity {
  double least = 0;           ///< smaller singular value of d(u,v)/d(surface), px/m
  double determinant = 0;     ///< |det J|, px^2/m^2
  double across = 0, up = 0;  ///< along the first and the second vector, px/m
};
SurfaceDensity surface_density(const PointJacobian& jacobian, geom::Vec3 across_camera, geom::Vec3 up_camera);

/// Angle of view between the middles of the left and right edges, and of the upper and lower ones.
Angle horizontal_view(const Projector& projector);
Angle vertical_view(const Projector& projector);

/// Scales of the mapping at an angle off the axis when it is radial (p1 = p2 = 0): pixels per radian along the radius
/// and across it.
struct RadialScale {
  double along = 0, across = 0;
};
RadialScale radial_scale(const Projector& projector, Angle angle);

/// The farthest angle off the axis at which the mapping still grows, at most `limit`.
Angle monotone_to(const Projector& projector, Angle limit);

}  // namespace sightfall::camera
