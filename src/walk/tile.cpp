// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/tile.h"

#include <algorithm>
#include <array>
#include <optional>

#include "walk/tile_work.h"

namespace sightfall::walk {

using geom::SitePoint;
using geom::Vec3;

Caster::Caster(const Stage& stage, const need::Station& station, const Rays& rays, Raster raster, site::Meets meets)
    : stage_{stage},
      station_{station},
      rays_{rays},
      raster_{raster},
      meets_{meets},
      shade_{stage.lighting(), station},
      across_{(raster.columns + kTile - 1) / kTile},
      down_{(raster.rows + kTile - 1) / kTile} {}

void Caster::aim(int index, Work& work) const {
  work.left = left_of(index), work.top = top_of(index);
  work.places.clear();
  work.ways.count = 0;
  work.group_count = 0;
  const int columns = std::min(kTile, raster_.columns - work.left), rows = std::min(kTile, raster_.rows - work.top);
  std::array<bool, kTile> whole{};
  for (int row = 0; row < rows; ++row) {
    const auto at = static_cast<size_t>(row * kTile);
    whole.at(static_cast<size_t>(row)) = rays_.row(raster_, work.left, work.top + row, columns, &work.by_row.x[at],
                                                   &work.by_row.y[at], &work.by_row.z[at]);
  }
  for (size_t place = 0; place < kMost; ++place) {
    const int column = column_of(static_cast<Place>(place)), row = row_of(static_cast<Place>(place));
    if (column >= columns || row >= rows) continue;
    if (whole[static_cast<size_t>(row)]) {
      const auto at = static_cast<size_t>(row * kTile + column);
      work.ways.add(work.by_row.x[at], work.by_row.y[at], work.by_row.z[at]);
    } else if (const auto one = rays_.through(raster_.at(work.left + column, work.top + row))) {
      work.ways.add(*one);
    } else {
      continue;  // outside a fisheye's circle
    }
    work.places.push_back(static_cast<Place>(place));
  }
  for (auto* plane : {&work.others, &work.own, &work.air, &work.swinging}) plane->assign(work.places.size(), 0);
}

void Caster::meet(Work& work) const {
  const site::Scene& scene = stage_.scene();
  scene.first_solids(station_.pose.eye_site, work.ways.targets(), need::kFarthest, meets_, work.hits);
  size_t last = 0;
  constexpr uint32_t kSkyNumber = 0xFFFFFFFF;
  std::optional<uint32_t> surface;  // that of the point before
  bool drawn = false;               // whether it is of a group
  work.drawn.assign(work.hits.size(), false);
  for (size_t i = 0; i < work.hits.size(); ++i) {
    const bool hits = work.hits.distance[i] < site::Hits::kNothing;
    const uint32_t here = hits ? work.hits.surface[i] : kSkyNumber;
    if (surface != here) {
      surface = here;
      std::optional<site::Hit> hit;
      if (hits) hit = scene.solid_hit(work.hits, i, work.ways.at(i));
      drawn = meets_ == site::Meets::kStanding || (hit && hit->solid == site::kVisitor);
      if (drawn) last = group_of(hit, i, work);
    }
    if (!drawn) continue;
    work.drawn[i] = true;
    work.groups[last].members.push_back(static_cast<uint16_t>(i));
  }
  work.veil_groups = work.group_count;
}

/// The group that a point belongs to by what it meets.
size_t Caster::group_of(const std::optional<site::Hit>& hit, size_t point, Work& work) const {
  if (!hit)
    return work.group_for(
        0, [](const Group& group) { return group.veil == kSky; },
        [](Group& group) {
          group.coat = nullptr;
          group.triangle = -1;
          group.veil = kSky;
        });
  const bool visitor = hit->solid == site::kVisitor;
  const Coat* coat = &stage_.coat(*hit);
  const double offset = geom::dot(hit->normal, station_.pose.eye_site + hit->distance * work.ways.at(point));
  const auto same = [&](const Group& group) {
    if (visitor) return group.triangle == hit->triangle && group.coat != nullptr;
    return group.coat == coat && group.triangle < 0 && group.on_plane(hit->normal, offset);
  };
  return work.group_for(0, same, [&](Group& group) {
    group.normal = hit->normal;
    group.offset = offset;
    group.coat = coat;
    group.triangle = visitor ? hit->triangle : -1;
    group.veil = -1;
  });
}

void Caster::meet_veils(Work& work) const {
  const site::Scene& scene = stage_.scene();
  if (!scene.has_veils()) return;
  const SitePoint eye = station_.pose.eye_site;
  scene.first_veils(eye, work.ways.targets(), need::kFarthest, work.veils);
  size_t last = 0;
  for (size_t i = 0; i < work.veils.size(); ++i) {
    const float distance = work.veils.distance[i];
    if (distance == site::Hits::kNothing || work.hits.distance[i] <= distance) continue;
    if (!work.drawn[i]) continue;
    const site::VeilHit veil = scene.veil_hit(work.veils, i, work.ways.at(i));
    const double offset = geom::dot(veil.normal, eye + veil.distance * work.ways.at(i));
    const auto same = [&](const Group& group) {
      return group.veil == veil.veil && group.on_plane(veil.normal, offset);
    };
    if (work.group_count == work.veil_groups || !same(work.groups[last]))
      last = work.group_for(work.veil_groups, same, [&](Group& group) {
        group.normal = veil.normal;
        group.offset = offset;
        group.coat = nullptr;
        group.triangle = -1;
        group.veil = veil.veil;
        group.passed = veil.passed;
      });
    work.groups[last].members.push_back(static_cast<uint16_t>(i));
  }
}

void Caster::write(const Work& work, Layers& layers, int left, int top) const {
  const bool flat = station_.lens.projector.mapping != camera::Mapping::kFisheye;
  const Vec3 axis = station_.pose.camera_from_site.row[2];
  for (size_t g = 0; g < work.veil_groups; ++g)
    for (const size_t point : work.groups[g].members) {
      const Place place = work.places[point];
      const size_t at = layers.others.index(work.left - left + column_of(place), work.top - top + row_of(place));
      layers.others.at[at] = work.others[point];
      layers.own.at[at] = work.own[point] + work.air[point];
      if (!layers.swinging.at.empty()) layers.swinging.at[at] = work.swinging[point];
      if (work.groups[g].veil == kSky) continue;
      const double scale = flat ? geom::dot(work.ways.at(point), axis) : 1;
      layers.depth.at[at] = work.hits.distance[point] * static_cast<float>(scale);
      layers.hue[at] = work.groups[g].coat->hue;
    }
}

std::vector<Piece> Caster::tile(int index, Layers& layers, int left, int top) const {
  thread_local Work work;  // a tile's points take some two megabytes, which are not asked for again for each
  aim(index, work);
  meet(work);
  meet_veils(work);
  std::vector<Piece> pieces;
  for (size_t g = 0; g < work.group_count; ++g) {
    const Group& group = work.groups[g];
    light_group(group, work);
    if (group.veil != kSky && meets_ == site::Meets::kStanding) pieces.push_back(piece_in_hand(group, work));
  }
  write(work, layers, left, top);
  return pieces;
}

void Caster::stray(int index, Plane& plane) const {
  thread_local Between between;
  thread_local std::vector<float> values;
  const int left = left_of(index), top = top_of(index);
  std::vector<Place> places;
  for (int place = 0; place < kTile * kTile; ++place) {
    const int column = left + column_of(static_cast<Place>(place)), row = top + row_of(static_cast<Place>(place));
    if (column < raster_.columns && row < raster_.rows) places.push_back(static_cast<Place>(place));
  }
  const auto at = [&](double column, double row, std::span<float> value) {
    const auto way = rays_.through(raster_.at(left + column, top + row));
    if (way) value[0] = shade_.stray(*way);
    return way.has_value();
  };
  between.spread({at, 1, shade_.floor(), false}, places, values);
  for (size_t i = 0; i < places.size(); ++i)
    plane.at[plane.index(left + column_of(places[i]), top + row_of(places[i]))] = values[i];
}

}  // namespace sightfall::walk
