// SPDX-License-Identifier: GPL-3.0-or-later
#include "raster_sweep.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace sightfall::outside {
namespace {

/// The sweep works outwards from the observer; `hides` holds, for cells done, the height that a line from the observer
/// must have there to pass over everything before it.
class Sweep {
 public:
  Sweep(const site::Terrain& terrain, const Observer& observer, double target_height)
      : terrain_{terrain},
        observer_{observer},
        target_{target_height},
        hides_{terrain.heights},
        seen_(terrain.heights.size(), 0) {
    eye_ = hides_[index(0, 0)] + observer.height;
  }

  std::vector<char> run() {
    const int reach = std::max(terrain_.columns, terrain_.rows);
    for (int ring = 0; ring < reach; ++ring)
      for (int dx = -ring; dx <= ring; ++dx)
        for (int dy = -ring; dy <= ring; ++dy)
          if (std::max(std::abs(dx), std::abs(dy)) == ring && inside(dx, dy)) cell(dx, dy);
    return seen_;
  }

 private:
  bool inside(int dx, int dy) const {
    const int c = observer_.column + dx, r = observer_.row + dy;
    return c >= 0 && c < terrain_.columns && r >= 0 && r < terrain_.rows;
  }
  size_t index(int dx, int dy) const {
    return static_cast<size_t>(observer_.row + dy) * static_cast<size_t>(terrain_.columns) +
           static_cast<size_t>(observer_.column + dx);
  }

  /// Height of a line from the eye over the cells one step nearer: the one before on the axis, or a plane through the
  /// eye, the cell towards the axis and the cell on the diagonal.
  double height_from_before(int dx, int dy) const {
    const int x = std::abs(dx), y = std::abs(dy), far = std::max(x, y), near = std::min(x, y);
    const int sx = dx > 0 ? 1 : dx < 0 ? -1 : 0, sy = dy > 0 ? 1 : dy < 0 ? -1 : 0;
    const double on_diagonal = hides_[index(dx - sx, dy - sy)];
    if (near == 0 || near == far) return (on_diagonal - eye_) / (far - 1) + on_diagonal;
    const double on_axis = hides_[x > y ? index(dx - sx, dy) : index(dx, dy - sy)];
    return ((on_diagonal - eye_) * near + (on_axis - eye_) * (far - near)) / (far - 1) + eye_;
  }

  void cell(int dx, int dy) {
    const int x = std::abs(dx), y = std::abs(dy), far = std::max(x, y);
    const size_t at = index(dx, dy);
    // The observer's own cell and its two neighbours in the row are seen whatever they are.
    const double needed = y == 0 && x <= 1 ? -1e300 : far == 1 ? hides_[index(0, 0)] : height_from_before(dx, dy);
    seen_[at] = hides_[at] + target_ >= needed ? 1 : 0;
    hides_[at] = std::max(hides_[at], needed);
  }

  const site::Terrain& terrain_;
  Observer observer_;
  double target_, eye_ = 0;
  std::vector<double> hides_;
  std::vector<char> seen_;
};

}  // namespace

std::vector<char> raster_sweep(const site::Terrain& terrain, const Observer& observer, double target_height) {
  return Sweep{terrain, observer, target_height}.run();
}

}  // namespace sightfall::outside
