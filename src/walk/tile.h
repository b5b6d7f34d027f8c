// SPDX-License-Identifier: GPL-3.0-or-later
// A raster of rays cast tile by tile: first surfaces and veils by packets of rays, light by what changes slowly.
//   Model    of a tile's points those on one plane of one coat are lit together: what each source would give them is
//            worked out at a few and taken between (walk/between.h), whether it reaches them is asked point by point.
//            Texture and pattern are evaluated at each point
//   Error    shadows and edges are exact, on a raster finer than the picture to within four of its points; light is to
//            kTolerance, and a source that gives less than Shade::floor is left out
//   Checked  tile_test.cpp, against need/look.h ray by ray
#pragma once
#include <optional>
#include <vector>

#include "walk/between.h"
#include "walk/fourier.h"
#include "walk/rays.h"
#include "walk/shade.h"
#include "walk/stage.h"

namespace sightfall::walk {

/// What rays of a raster bring.
struct Layers {
  Plane others;    ///< electrons a second by every light but the camera's own
  Plane own;       ///< by its infrared at full power
  Plane depth;     ///< m along the axis (fisheye: from the lens); kFarthest: sky
  Plane swinging;  ///< the part of `others` that swings with the mains; empty where nobody asks
  std::vector<uint8_t> hue;

  Layers() = default;
  Layers(int columns, int rows, bool swings = false)
      : others{columns, rows},
        own{columns, rows},
        depth{columns, rows, static_cast<float>(need::kFarthest.si())},
        hue(others.at.size(), kSkyHue) {
    if (swings) swinging = Plane{columns, rows};
  }
};

/// A piece of what a tile shows, for who asks later whether a shadow may fall on it.
struct Piece {
  geom::SitePoint middle;  ///< of a ball around it
  double radius = 0;
  std::optional<geom::Vec3> normal;  ///< of the plane that it lies on; none: of a veil, which is lit as it is looked at
  std::vector<size_t> sources;       ///< that give anything in it more than what matters
};

/// Casts what stands (kStanding), or the visitor (kVisitor), whose points alone are then written.
class Caster {
 public:
  /// All of it must outlive the caster.
  Caster(const Stage& stage, const need::Station& station, const Rays& rays, Raster raster, site::Meets meets);

  int tile_count() const { return across_ * down_; }
  /// A tile's place on the raster.
  int left_of(int index) const { return index % across_ * kTile; }
  int top_of(int index) const { return index / across_ * kTile; }
  /// Writes the tile's points into layers whose first point lies at `left` and `top` of the raster. Gives the pieces of
  /// what stands there.
  std::vector<Piece> tile(int index, Layers& layers, int left = 0, int top = 0) const;
  /// Writes the stray light over the tile.
  void stray(int index, Plane& plane) const;
  const Shade& shade() const { return shade_; }

 private:
  struct Places;
  struct Group;
  struct Work;

  void aim(int index, Work& work) const;
  void meet(Work& work) const;
  size_t group_of(const std::optional<site::Hit>& hit, size_t point, Work& work) const;
  void meet_veils(Work& work) const;
  bool shade_point(const Group& group, geom::Vec3 way, std::span<const size_t> sources, std::span<float> values) const;
  void find_live(const Group& group, Work& work) const;
  void set_out(const Group& group, Work& work) const;
  void set_factors(const Group& group, Work& work) const;
  void reach(size_t source, const Group& group, const float* values, Work& work) const;
  void set_out_from(size_t source, const Group& group, const Places& to, geom::Vec3 shift, Work& work) const;
  void light_group(const Group& group, Work& work) const;
  void write(const Work& work, Layers& layers, int left, int top) const;
  Piece piece_in_hand(const Group& group, const Work& work) const;

  const Stage& stage_;
  const need::Station& station_;
  const Rays& rays_;
  Raster raster_;
  site::Meets meets_;
  Shade shade_;
  int across_ = 0, down_ = 0;
};

}  // namespace sightfall::walk
