// SPDX-License-Identifier: GPL-3.0-or-later
// What one tile's points need while they are cast: for tile.cpp, which finds what they meet, and tile_light.cpp, which
// lights it.
#pragma once
#include <cmath>
#include <cstdint>
#include <optional>
#include <vector>

#include "walk/tile.h"

namespace sightfall::walk {

inline constexpr int kSky = -1000;                                   ///< of a group's veil: no veil, but the sky
inline constexpr size_t kMost = static_cast<size_t>(kTile) * kTile;  ///< points of a tile

/// At most kMost points as packets of rays want them.
struct Caster::Places {
  std::vector<float> x, y, z;
  size_t count = 0;

  Places() : x(kMost), y(kMost), z(kMost) {}
  void add(float ax, float ay, float az) {
    x[count] = ax, y[count] = ay, z[count] = az;
    ++count;
  }
  void add(geom::Vec3 at) { add(static_cast<float>(at.x), static_cast<float>(at.y), static_cast<float>(at.z)); }
  geom::Vec3 at(size_t i) const {
    return {static_cast<double>(x[i]), static_cast<double>(y[i]), static_cast<double>(z[i])};
  }
  site::Targets targets() const {
    return {std::span{x}.first(count), std::span{y}.first(count), std::span{z}.first(count)};
  }
};

/// Points of a tile that lie on one plane and look alike, or on the same plane of a veil, or in the sky.
struct Caster::Group {
  geom::Vec3 normal;
  double offset = 0;  // normal . place
  const Coat* coat = nullptr;
  int triangle = -1;  // of the visitor
  int veil = -1;
  double passed = 1;              // by the veil
  std::vector<uint16_t> members;  // rising indices into the tile's points

  bool on_plane(geom::Vec3 other, double other_offset) const {
    constexpr double kTurned = 1e-8, kApart = 1e-3;  // square of an angle; m
    const geom::Vec3 off = other - normal;
    return geom::dot(off, off) < kTurned && std::abs(other_offset - offset) < kApart;
  }
};

struct Caster::Work {
  int left = 0, top = 0;      // of the tile on the raster
  std::vector<Place> places;  // of the points that have a ray
  Places by_row, ways;        // unit vectors of the site: of the tile row by row; of the points
  site::Hits hits, veils;
  std::vector<bool> drawn;  // whether a point is of a group
  std::vector<float> others, own, air, swinging;
  std::vector<Group> groups;
  size_t group_count = 0, veil_groups = 0;  // in use; from here on those of veils
  // Of the group in hand.
  std::vector<size_t> live;  // sources
  std::vector<float> all_values, values, sum, swing, factor, through, reaches;
  std::vector<Place> member_places;
  std::vector<uint16_t> asked, lead;
  Places off, from, to, on_texture;  // off the surfaces
  Between between;

  Group& new_group() {
    if (group_count == groups.size()) groups.emplace_back();
    Group& group = groups[group_count++];
    group.members.clear();
    return group;
  }

  /// The group that `same` accepts, most recent first, or a new one that `fill` fills.
  template <class Same, class Fill>
  size_t group_for(size_t from_group, Same same, Fill fill) {
    for (size_t g = group_count; g-- > from_group;)
      if (same(groups[g])) return g;
    fill(new_group());
    return group_count - 1;
  }
};

}  // namespace sightfall::walk
