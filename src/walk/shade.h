// SPDX-License-Identifier: GPL-3.0-or-later
// The light that comes to one camera from a surface, source by source, as though nothing stood in any source's way:
// electrons a second of a pixel. What is seen is the sum over the sources that reach the surface, and that is a matter
// of rays (walk/tile.h).
//   Model    need/look.h's, in another order: light, surface, air and lens are worked together into one number a source
//   Checked  tile_test.cpp, against need/look.h
#pragma once
#include <span>

#include "need/look.h"
#include "walk/stage.h"

namespace sightfall::walk {

/// Electrons a second of a patch of light, with the camera's own infrared at that power.
double rate_of(const need::Patch& patch, const need::Station& station, double power);

/// A ray of the site and what it meets.
struct Sight {
  geom::Vec3 direction;  ///< unit
  double distance = 0;
  geom::Vec3 normal;
};

class Shade {
 public:
  /// Before the sources' values: what no shadow takes away.
  enum Unshaded : size_t { kPath, kOwn, kOwnAir, kUnshadedCount };

  /// Both must outlive it.
  Shade(const need::Lighting& lighting, const need::Station& station);

  /// The sky and whatever comes from all round, then each point of light.
  size_t source_count() const { return 1 + lighting_.point_count(); }
  static size_t value(size_t source) { return kUnshadedCount + source; }
  size_t value_count() const { return value(source_count()); }

  /// How far a source's light swings with the mains over its mean, nominal.
  float flicker(size_t source) const {
    return source == 0 ? 0 : static_cast<float>(lighting_.usual_flicker(source - 1));
  }

  /// Least rate that matters.
  float floor() const { return floor_; }

  /// Every source, by its number.
  std::span<const size_t> sources() const { return sources_; }

  /// The values of a surface of a coat by some of the sources; kPath and kOwnAir do not change with its texture.
  void surface(const Sight& sight, const Coat& coat, std::span<const size_t> sources, std::span<float> values) const;
  /// Of the sky.
  void sky(geom::Vec3 direction, std::span<float> values) const;
  /// Of a veil, which lets `passed` through of what lies behind; kPath and kOwnAir are 0.
  void veil(const Sight& sight, int veil, double passed, std::span<const size_t> sources,
            std::span<float> values) const;

  /// Where a source's light for a place just off a surface sets out from; nothing when it comes from everywhere.
  std::optional<geom::SitePoint> sets_out(size_t source, geom::SitePoint off, geom::Vec3 normal) const;
  /// The same for any place; nothing when that depends on the place.
  std::optional<geom::SitePoint> place_of(size_t source) const;

  /// Stray light along a ray.
  float stray(geom::Vec3 direction) const;

 private:
  void lamps(const Sight& sight, geom::SitePoint off, const Coat& coat, double scale, const light::PerBand& through,
             std::span<const size_t> sources, std::span<float> values) const;

  const need::Lighting& lighting_;
  const need::Station& station_;
  std::vector<Coat> veils_;
  std::vector<size_t> sources_;
  std::vector<double>
      reach2_;  // m2, by point of light: farther than its root, what a matt surface sends is below floor_
  float floor_ = 0;
};

}  // namespace sightfall::walk
