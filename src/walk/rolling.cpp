// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/rolling.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "detail/transfer.h"

namespace sightfall::walk {

void lean(geom::Mesh& mesh, const need::Station& station, geom::Vec3 velocity, Time readout, double still) {
  const camera::Projector& projector = station.lens.projector;
  const double row_time = readout.si() / projector.rows;
  for (geom::Vec3& corner : mesh.vertices) {
    geom::SitePoint moved = corner;
    constexpr int kTurns = 2;  // the row changes as the corner moves, by little
    for (int i = 0; i < kTurns; ++i) {
      const auto at = camera::image_point(projector, station.pose.camera_from_site * (moved - station.pose.eye_site));
      if (!at) break;
      moved = corner + (row_time * (std::clamp(at->v, 0.0, projector.rows - 1.0) - still)) * velocity;
    }
    corner = moved;
  }
}

std::vector<float> swing_by_row(const RowTimes& times, double rate) {
  const double left = detail::sinc_with_sign(times.exposed, rate);
  std::vector<float> swing;
  for (int row = 0; row < times.rows; ++row) {
    const double middle = times.begin + times.readout * row / times.rows + times.exposed / 2;
    swing.push_back(static_cast<float>(left * std::cos(2 * std::numbers::pi * rate * middle)));
  }
  return swing;
}

}  // namespace sightfall::walk
