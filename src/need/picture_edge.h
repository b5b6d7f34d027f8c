// SPDX-License-Identifier: GPL-3.0-or-later
// Whether something far away stands in a camera's picture, or so near its edge that it shines into the lens.
//   Limits   the border is taken at kBorderPoints places of each side
//   Checked  sun_hours_test.cpp, lamp_cautions_test.cpp
#pragma once
#include <vector>

#include "need/station.h"

namespace sightfall::need {

inline constexpr Angle kNearEdge{10 * 0.017453292519943295};
inline constexpr int kBorderPoints = 48;

class PictureEdge {
 public:
  explicit PictureEdge(const Station& station);

  /// Whether a direction of the site (unit) lies in the picture.
  bool inside(geom::Vec3 towards) const;
  /// Whether it lies within kNearEdge of the border.
  bool near(geom::Vec3 towards) const;

 private:
  const Station* station_;
  std::vector<geom::Vec3> border_;  // rays of the camera's frame
};

}  // namespace sightfall::need
