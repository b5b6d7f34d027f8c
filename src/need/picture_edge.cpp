// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/picture_edge.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace sightfall::need {
namespace {

using geom::Vec3;

/// The ray of a point of the border or, where the picture's corners are dark, of the first point towards the centre
/// that has one.
std::optional<Vec3> border_ray(const camera::Projector& projector, double u, double v) {
  constexpr int kSteps = 50;
  for (int step = kSteps; step > 0; --step) {
    const double share = static_cast<double>(step) / kSteps;
    const geom::ImagePoint at{projector.centre_u() + share * (u - projector.centre_u()),
                              projector.centre_v() + share * (v - projector.centre_v())};
    if (const auto ray = camera::ray_camera(projector, at)) return ray;
  }
  return std::nullopt;
}

std::vector<Vec3> border_of(const camera::Projector& projector) {
  std::vector<Vec3> border;
  const auto add = [&](double u, double v) {
    if (const auto ray = border_ray(projector, u, v)) border.push_back(*ray);
  };
  const double right = projector.columns - 1, bottom = projector.rows - 1;
  for (int i = 0; i <= kBorderPoints; ++i) {
    const double share = static_cast<double>(i) / kBorderPoints;
    add(share * right, 0);
    add(share * right, bottom);
    add(0, share * bottom);
    add(right, share * bottom);
  }
  return border;
}

}  // namespace

PictureEdge::PictureEdge(const Station& station) : station_{&station}, border_{border_of(station.lens.projector)} {}

bool PictureEdge::inside(Vec3 towards) const {
  const camera::Projector& projector = station_->lens.projector;
  const auto at = camera::image_point(projector, station_->pose.camera_from_site * towards);
  return at && camera::in_picture(projector, *at);
}

bool PictureEdge::near(Vec3 towards) const {
  const Vec3 ray = station_->pose.camera_from_site * towards;
  const double least = std::cos(kNearEdge.si());
  return std::any_of(border_.begin(), border_.end(), [&](const Vec3& b) { return geom::dot(b, ray) >= least; });
}

}  // namespace sightfall::need
