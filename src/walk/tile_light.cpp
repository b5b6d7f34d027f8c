// SPDX-License-Identifier: GPL-3.0-or-later
// The light on what a tile's points meet (tile.h).
#include <algorithm>
#include <optional>

#include "walk/tile_work.h"

namespace sightfall::walk {

using geom::SitePoint;
using geom::Vec3;

bool Caster::shade_point(const Group& group, Vec3 way, std::span<const size_t> sources, std::span<float> values) const {
  if (group.veil == kSky) {
    shade_.sky(way, values);
    return true;
  }
  const double facing = -geom::dot(group.normal, way);
  constexpr double kAlong = 1e-9;  // a ray along the plane does not meet it
  if (facing < kAlong) return false;
  const double distance = (geom::dot(group.normal, station_.pose.eye_site) - group.offset) / facing;
  if (distance <= 0 || distance > 2 * need::kFarthest.si()) return false;
  if (group.coat != nullptr)
    shade_.surface({way, distance, group.normal}, *group.coat, sources, values);
  else
    shade_.veil({way, distance, -way}, group.veil, group.passed, sources, values);
  return true;
}

/// Which sources give any of the group's points more than what matters: by points spread evenly over them.
void Caster::find_live(const Group& group, Work& work) const {
  const size_t tried = raster_.finer > 1 ? 3 : 32;
  const size_t count = group.members.size(), step = std::max<size_t>(1, count / tried);
  work.live.clear();
  work.all_values.assign(shade_.value_count(), 0);
  std::vector<float>& most = work.sum;
  most.assign(shade_.value_count(), 0);
  for (size_t i = 0; i < count + step; i += step) {
    const Vec3 way = work.ways.at(group.members[std::min(i, count - 1)]);
    if (!shade_point(group, way, shade_.sources(), work.all_values)) continue;
    for (size_t v = 0; v < most.size(); ++v) most[v] = std::max(most[v], work.all_values[v]);
  }
  for (size_t source = 0; source < shade_.source_count(); ++source)
    if (most[Shade::value(source)] > shade_.floor()) work.live.push_back(source);
}

/// How much of a source's light reaches each of the group's points, where it would give more than what matters.
void Caster::reach(size_t source, const Group& group, const float* values, Work& work) const {
  const size_t count = group.members.size();
  const bool coarse = raster_.finer > 1;
  const auto shift = shade_.sets_out(source, {}, group.normal);
  if (!shift) return work.reaches.assign(count, 1);  // comes from everywhere
  work.asked.clear();
  for (size_t i = 0; i < count; ++i)
    if (coarse ? work.lead[i] == i : values[i] > shade_.floor()) work.asked.push_back(static_cast<uint16_t>(i));
  const bool all = work.asked.size() == count;
  if (!all) {
    work.to.count = 0;
    for (const size_t i : work.asked) work.to.add(work.off.x[i], work.off.y[i], work.off.z[i]);
  }
  const Places& to = all ? work.off : work.to;
  work.through.resize(to.count);
  if (const auto eye = shade_.place_of(source)) {
    stage_.scene().passed_from(*eye, to.targets(), work.through);
  } else {
    set_out_from(source, group, to, *shift, work);
    stage_.scene().passed(to.targets(), work.from.targets(), work.through);
  }
  if (all) return work.reaches.swap(work.through);
  work.reaches.assign(count, 1);
  for (size_t k = 0; k < work.asked.size(); ++k) work.reaches[work.asked[k]] = work.through[k];
}

/// Where the light of the sky, the sun or the moon for each place sets out from: on a plane always as far away.
void Caster::set_out_from(size_t source, const Group& group, const Places& to, Vec3 shift, Work& work) const {
  work.from.count = 0;
  const bool all = &to == &work.off;
  for (size_t k = 0; k < to.count; ++k) {
    const size_t point = group.members[all ? k : work.asked[k]];
    if (group.veil >= 0) shift = shade_.sets_out(source, {}, -work.ways.at(point)).value_or(shift);
    work.from.add(to.at(k) + shift);
  }
}

/// The group's points by place, where they lie, and which of them asks for its neighbours on a fine raster.
void Caster::set_out(const Group& group, Work& work) const {
  const size_t count = group.members.size();
  constexpr unsigned kNeighbours = 16;  // a cell of 4 x 4
  work.member_places.resize(count), work.lead.resize(count);
  work.factor.assign(count, 1);
  work.off.count = 0;
  for (size_t i = 0; i < count; ++i) {
    const size_t point = group.members[i];
    work.member_places[i] = work.places[point];
    const bool follows =
        raster_.finer > 1 && i > 0 && work.member_places[i] / kNeighbours == work.member_places[i - 1] / kNeighbours;
    work.lead[i] = follows ? work.lead[i - 1] : static_cast<uint16_t>(i);
    if (group.veil == kSky) continue;
    const Vec3 way = work.ways.at(point);
    const bool veil = group.veil >= 0;
    const auto distance = static_cast<double>((veil ? work.veils : work.hits).distance[point]);
    work.off.add(need::off_surface(station_.pose.eye_site + distance * way, veil ? -way : group.normal));
  }
  if (group.coat != nullptr) set_factors(group, work);
}

void Caster::set_factors(const Group& group, Work& work) const {
  const size_t count = group.members.size();
  if (group.triangle >= 0) {
    for (size_t i = 0; i < count; ++i) {
      const size_t point = group.members[i];
      site::Hit hit;
      hit.triangle = group.triangle;
      hit.second = static_cast<double>(work.hits.second[point]),
      hit.third = static_cast<double>(work.hits.third[point]);
      work.factor[i] = static_cast<float>(stage_.pattern(hit));
    }
    return;
  }
  if (group.coat->texture == Texture::kPlain) return;
  work.on_texture.count = 0;
  for (const size_t point : group.members) {
    const TexturePlace at =
        stage_.texture_place(static_cast<double>(work.hits.distance[point]), group.normal, work.ways.at(point));
    work.on_texture.add({at.x, at.y, at.footprint});
  }
  const site::Targets at = work.on_texture.targets();
  textures_at(group.coat->texture, {at.x, at.y, at.z}, work.factor);
}

void Caster::light_group(const Group& group, Work& work) const {
  find_live(group, work);
  set_out(group, work);
  constexpr size_t kFixed = Shade::kUnshadedCount;
  const auto at = [&](double column, double row, std::span<float> values) {
    const auto way = rays_.through(raster_.at(work.left + column, work.top + row));
    if (!way || !shade_point(group, *way, work.live, work.all_values)) return false;
    std::copy_n(work.all_values.begin(), kFixed, values.begin());
    for (size_t k = 0; k < work.live.size(); ++k) values[kFixed + k] = work.all_values[Shade::value(work.live[k])];
    return true;
  };
  const size_t count = group.members.size();
  const Slow slow{at, static_cast<int>(kFixed + work.live.size()), shade_.floor(), raster_.finer > 1};
  work.between.spread(slow, work.member_places, work.values);
  work.sum.assign(count, 0);
  work.swing.assign(count, 0);
  for (size_t k = 0; k < work.live.size(); ++k) {
    const float* values = &work.values[(kFixed + k) * count];
    reach(work.live[k], group, values, work);
    for (size_t i = 0; i < count; ++i) work.sum[i] += values[i] * work.reaches[work.lead[i]];
    const float flicker = shade_.flicker(work.live[k]);
    if (flicker <= 0) continue;
    for (size_t i = 0; i < count; ++i) work.swing[i] += flicker * values[i] * work.reaches[work.lead[i]];
  }
  const float *path = &work.values[Shade::kPath * count], *own = &work.values[Shade::kOwn * count],
              *air = &work.values[Shade::kOwnAir * count];
  const auto passed = static_cast<float>(group.passed);
  for (size_t i = 0; i < count; ++i) {
    const size_t point = group.members[i];
    if (group.veil >= 0) {
      work.others[point] = passed * work.others[point] + work.sum[i];
      work.swinging[point] = passed * work.swinging[point] + work.swing[i];
      work.own[point] = passed * passed * work.own[point] + own[i];
    } else {
      work.others[point] = work.factor[i] * work.sum[i] + path[i];
      work.swinging[point] = work.factor[i] * work.swing[i];
      work.own[point] = work.factor[i] * own[i];
      work.air[point] = air[i];
    }
  }
}

/// The ball around the points of the group in hand, and the sources that matter to it.
Piece Caster::piece_in_hand(const Group& group, const Work& work) const {
  constexpr double kNone = 1e300;
  Vec3 low{kNone, kNone, kNone}, high{-kNone, -kNone, -kNone};
  for (size_t i = 0; i < work.off.count; ++i) {
    const Vec3 at = work.off.at(i);
    low = {std::min(low.x, at.x), std::min(low.y, at.y), std::min(low.z, at.z)};
    high = {std::max(high.x, at.x), std::max(high.y, at.y), std::max(high.z, at.z)};
  }
  return {0.5 * (low + high), 0.5 * geom::norm(high - low), group.veil < 0 ? std::optional{group.normal} : std::nullopt,
          work.live};
}

}  // namespace sightfall::walk
