// SPDX-License-Identifier: GPL-3.0-or-later
// What stands still before a camera in one condition, cast once: from frame to frame nothing of it changes but the
// power of the camera's own infrared and the visitor's shadow.
//   Model    a tile is cast again where the visitor may stand between anything it shows and any source that matters to
//            that: by balls around both, so that rather too many are
//   Error    none: the background is the same, to the bit, as one cast anew
//   Checked  still_test.cpp
#pragma once
#include "base/progress.h"
#include "walk/tile.h"

namespace sightfall::walk {

/// What stands still.
struct Background {
  Plane rate;   ///< electrons a second: others, and own infrared at the power asked for
  Plane stray;  ///< stray light laid over it
  Plane depth;  ///< m along the axis; kFarthest: sky
  std::vector<uint8_t> hue;
  Plane swinging;  ///< the part of the rate that swings with the mains; empty where nothing does
};

class StillCast {
 public:
  /// A stage's visitor is not seen but shadows: of one without, only that varies which `background` is given. The
  /// station must outlive it.
  StillCast(const Stage& stage, const need::Station& station, const Progress& progress = {});

  Background background(double power) const&;
  Background background(double power) &&;  ///< of a cast that is not needed again: nothing is copied
  /// With the shadow of another stage's visitor; that stage shares what stands with the one of the beginning, which had
  /// no visitor.
  Background background(const Stage& visited, double power) const;

  /// Tiles that this would cast again, of how many.
  int tiles_shaded(const Stage& visited) const;
  int tile_count() const { return static_cast<int>(pieces_.size()); }
  const Rays& rays() const { return rays_; }

 private:
  void add_own(double power, Plane& rate) const;
  std::vector<int> shaded(const Caster& caster, const Stage& visited) const;

  const need::Station& station_;
  Rays rays_;
  Layers layers_;
  Plane stray_;
  std::vector<std::vector<Piece>> pieces_;  // by tile
};

}  // namespace sightfall::walk
