// SPDX-License-Identifier: GPL-3.0-or-later
// A rolling shutter reads its rows one after the other: what moves is somewhere else for each, and lamps on the mains
// burn brighter for one than for another.
//   Model    a row waits for its turn by readout x its distance to another / all rows: what crosses the picture leans
//            by detail::rolling_lean. Lamps swing as 1 + D cos(2 pi f t), f twice the mains' frequency; a row that is
//            exposed for T has the mean of it, with D x sinc(f T) left of the swing (docs/models.md section 5)
//   Limits   lamps all swing together, as on one phase of the mains, and as a sine; what stands still does not lean
//            when the pole sways
//   Checked  rolling_test.cpp: the lean against rolling_lean, bands against the mean of the lamp's light
#pragma once
#include <vector>

#include "geom/mesh.h"
#include "need/station.h"

namespace sightfall::walk {

/// Moves each corner of a mesh to where it is when the row that it falls on is exposed, at a velocity (m/s). The row
/// `still` sees it as it is.
void lean(geom::Mesh& mesh, const need::Station& station, geom::Vec3 velocity, Time readout, double still);

/// When and for how long the rows of a frame are exposed.
struct RowTimes {
  double begin = 0;  ///< s, of the first row, from when the lamps were brightest
  double readout = 0, exposed = 0;
  int rows = 1;
};

/// By row, the swing of a lamp's light that is left in it, -1 to 1, at so many swings a second.
std::vector<float> swing_by_row(const RowTimes& times, double rate);

}  // namespace sightfall::walk
