// SPDX-License-Identifier: GPL-3.0-or-later
// How much of the ground beyond the boundary a camera shows: a ray through each of kCells cells from side to side of
// its picture, as far as the lowest level's density.
//   Model    docs/models.md section 9. Cells lie in blocks. A block casts no rays when all of them must come down on
//   the
//            user's own ground, or when one convex solid on even ground stops the four at its corners, and so all
//            between them: most of a picture costs nothing, and the answer is that of all its cells
//   Checked  overlook_test.cpp
#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

#include "loads/mask_frame.h"
#include "need/station.h"
#include "site/scene.h"

namespace sightfall::loads {

/// Cells that the picture is looked through in, from side to side.
inline constexpr int kCells = 320;

struct GroundSeen {
  PixelDensity density;  ///< the largest on it, on an upright plane
  Area area;
  camera::Mask mask;  ///< over all of it
};

/// Of a site with a boundary. Project and scene must outlive it; safe to ask from many threads.
class Beyond {
 public:
  /// Pictures are cut into cells once for stations that are alike.
  Beyond(const need::Project& project, const site::Scene& scene, const std::vector<need::Station>& stations);

  /// Nothing when the camera, one of the stations, shows none.
  std::optional<GroundSeen> seen_by(const need::Station& station) const;

 private:
  /// A cell of a picture, and the ray through its middle.
  struct Cell {
    geom::ImagePoint at;
    geom::Vec3 in_camera;
  };
  /// Neighbouring cells, all of whose rays lie between the four at its corners; none where the lens has no such ray.
  struct Block {
    std::vector<Cell> cells;
    std::optional<std::array<geom::Vec3, 4>> corners;
  };
  struct Look;

  static std::vector<Block> blocks_of(const camera::Projector& projector);
  bool may_show_others(const Look& look, const Block& block) const;
  bool hidden_by_one(const Look& look, const Block& block) const;
  void look_through(const Look& look, const Block& block, GroundSeen& seen, MaskFrame& frame) const;
  bool add_ground(const Look& look, geom::SitePoint ground, GroundSeen& seen) const;

  const site::Scene& scene_;
  geom::Outline own_;
  double lowest_ = 0, highest_ = 0;  // m, of the ground
  PixelDensity faintest_;
  std::vector<uint8_t> convex_;  // of the site's solids; none counts on ground that is not even
  std::vector<std::pair<camera::Projector, std::vector<Block>>> pictures_;
};

}  // namespace sightfall::loads
