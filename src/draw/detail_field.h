// SPDX-License-Identifier: GPL-3.0-or-later
// A detail map made ready to be drawn: where it is seen, its values between the grid's points, its tone.
//   Error    the edge of what is seen is drawn within one step of the map's grid
#pragma once
#include <vector>

#include "draw/canvas.h"
#include "geom/contour.h"
#include "need/map.h"
#include "site/site.h"

namespace sightfall::draw {

class DetailField {
 public:
  DetailField(const need::DetailMap& map, const site::Site& site);

  /// Delivered detail, zero where unseen; between points linear, next to unseen ones the nearest point's.
  PixelDensity at(geom::PlanPoint p) const;
  /// Values for contours. Under a building the ground's values go on a little, so that lines and tone meet its walls;
  /// the building is drawn over them. Unseen ground has none.
  geom::ValueGrid grid() const { return {map_.south_west, map_.step.si(), map_.columns, map_.rows, values_}; }
  /// Lines of equal detail. Where the detail falls as a cliff, at the edge of a nearer camera's picture, only the
  /// highest line that crosses a cell is kept. `higher` is the next higher density that is drawn.
  std::vector<geom::Polyline> lines_at(PixelDensity density, PixelDensity higher) const;
  /// Closed rings around what is seen, on the plan; at the map's border they run beyond it.
  Shape seen() const;
  Tint tint() const;
  /// Whether a solid is drawn without its top because a camera sees the ground inside it.
  bool open(size_t solid) const { return open_[solid]; }

 private:
  bool seen(int column, int row) const { return map_.at(column, row) > 0; }
  size_t index(int column, int row) const {
    return static_cast<size_t>(row) * static_cast<size_t>(map_.columns) + static_cast<size_t>(column);
  }
  void look_into(const site::Site& site);
  void spread(const std::vector<char>& where);

  const need::DetailMap& map_;
  std::vector<float> values_;
  std::vector<char> open_;
};

/// The ground that a solid stands on, or an empty outline for a wall or a roof.
geom::Outline footprint(const site::Solid& solid);

}  // namespace sightfall::draw
