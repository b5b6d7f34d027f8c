// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/tile.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace sightfall::walk {
using geom::SitePoint;
using geom::Vec3;

namespace {

constexpr int kSky = -1000;  // of a group's veil: no veil, but the sky

constexpr size_t kMost = static_cast<size_t>(kTile) * kTile;  // points of a tile

}  // namespace

/// At most kMost points as packets of rays want them.
struct Caster::Places {
  std::vector<float> x, y, z;
  size_t count = 0;

  Places() : x(kMost), y(kMost), z(kMost) {}
  void add(float ax, float ay, float az) {
    x[count] = ax, y[count] = ay, z[count] = az;
    ++count;
  }
  void add(Vec3 at) { add(static_cast<float>(at.x), static_cast<float>(at.y), static_cast<float>(at.z)); }
  Vec3 at(size_t i) const { return {static_cast<double>(x[i]), static_cast<double>(y[i]), static_cast<double>(z[i])}; }
  site::Targets targets() const {
    return {std::span{x}.first(count), std::span{y}.first(count), std::span{z}.first(count)};
  }
};

/// Points of a tile that lie on one plane and look alike, or on the same plane of a veil, or in the sky.
struct Caster::Group {
  Vec3 normal;
  double offset = 0;  // normal . place
  const Coat* coat = nullptr;
  int triangle = -1;  // of the visitor
  int veil = -1;
  double passed = 1;              // by the veil
  std::vector<uint16_t> members;  // rising indices into the tile's points

  bool on_plane(Vec3 other, double other_offset) const {
    constexpr double kTurned = 1e-8, kApart = 1e-3;  // square of an angle; m
    const Vec3 off = other - normal;
    return geom::dot(off, off) < kTurned && std::abs(other_offset - offset) < kApart;
  }
};

struct Caster::Work {
  int left = 0, top = 0;      // of the tile on the raster
  std::vector<Place> places;  // of the points that have a ray
  Places by_row, ways;        // unit vectors of the site: of the tile row by row; of the points
  std::vector<std::optional<site::Hit>> hits;
  std::vector<std::optional<site::VeilHit>> veils;
  std::vector<float> others, own, air;
  std::vector<Group> groups;
  size_t group_count = 0, veil_groups = 0;  // in use; from here on those of veils
  // Of the group in hand.
  std::vector<size_t> live;  // sources
  std::vector<float> all_values, values, sum, factor, through, reaches;
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
  work.hits.resize(work.places.size()), work.veils.resize(work.places.size());
  for (auto* plane : {&work.others, &work.own, &work.air}) plane->assign(work.places.size(), 0);
}

void Caster::meet(Work& work) const {
  const SitePoint eye = station_.pose.eye_site;
  stage_.scene().first_solids(eye, work.ways.targets(), need::kFarthest, meets_, work.hits);
  size_t last = 0;
  for (size_t i = 0; i < work.hits.size(); ++i) {
    const auto& hit = work.hits[i];
    const bool visitor = hit && hit->solid == site::kVisitor;
    if (meets_ == site::Meets::kAll && !visitor) continue;
    const Coat* coat = hit ? &stage_.coat(*hit) : nullptr;
    const double offset = hit ? geom::dot(hit->normal, eye + hit->distance * work.ways.at(i)) : 0;
    const auto same = [&](const Group& group) {
      if (!hit) return group.veil == kSky;
      if (visitor) return group.triangle == hit->triangle && group.coat != nullptr;
      return group.coat == coat && group.on_plane(hit->normal, offset);
    };
    if (work.group_count == 0 || !same(work.groups[last]))
      last = work.group_for(0, same, [&](Group& group) {
        group.normal = hit ? hit->normal : Vec3{};
        group.offset = offset;
        group.coat = coat;
        group.triangle = visitor ? hit->triangle : -1;
        group.veil = hit ? -1 : kSky;
      });
    work.groups[last].members.push_back(static_cast<uint16_t>(i));
  }
  work.veil_groups = work.group_count;
}

void Caster::meet_veils(Work& work) const {
  if (!stage_.scene().has_veils()) return;
  const SitePoint eye = station_.pose.eye_site;
  stage_.scene().first_veils(eye, work.ways.targets(), need::kFarthest, work.veils);
  size_t last = 0;
  for (size_t i = 0; i < work.veils.size(); ++i) {
    const auto& veil = work.veils[i];
    if (!veil || (work.hits[i] && work.hits[i]->distance <= veil->distance)) continue;
    if (meets_ == site::Meets::kAll && !(work.hits[i] && work.hits[i]->solid == site::kVisitor)) continue;
    const double offset = geom::dot(veil->normal, eye + veil->distance * work.ways.at(i));
    const auto same = [&](const Group& group) {
      return group.veil == veil->veil && group.on_plane(veil->normal, offset);
    };
    if (work.group_count == work.veil_groups || !same(work.groups[last]))
      last = work.group_for(work.veil_groups, same, [&](Group& group) {
        group.normal = veil->normal;
        group.offset = offset;
        group.coat = nullptr;
        group.triangle = -1;
        group.veil = veil->veil;
        group.passed = veil->passed;
      });
    work.groups[last].members.push_back(static_cast<uint16_t>(i));
  }
}

bool Caster::shade_point(const Group& group, Vec3 way, std::span<float> values) const {
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
    shade_.surface({way, distance, group.normal}, *group.coat, values);
  else
    shade_.veil({way, distance, -way}, group.veil, group.passed, values);
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
    if (!shade_point(group, work.ways.at(group.members[std::min(i, count - 1)]), work.all_values)) continue;
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
    const double distance = veil ? work.veils[point]->distance : work.hits[point]->distance;
    work.off.add(need::off_surface(station_.pose.eye_site + distance * way, veil ? -way : group.normal));
  }
  if (group.coat != nullptr) set_factors(group, work);
}

void Caster::set_factors(const Group& group, Work& work) const {
  const size_t count = group.members.size();
  if (group.triangle >= 0) {
    for (size_t i = 0; i < count; ++i)
      work.factor[i] = static_cast<float>(stage_.pattern(*work.hits[group.members[i]]));
    return;
  }
  if (group.coat->texture == Texture::kPlain) return;
  work.on_texture.count = 0;
  for (const size_t point : group.members) {
    const TexturePlace at = stage_.texture_place(*work.hits[point], work.ways.at(point));
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
    if (!way || !shade_point(group, *way, work.all_values)) return false;
    std::copy_n(work.all_values.begin(), kFixed, values.begin());
    for (size_t k = 0; k < work.live.size(); ++k) values[kFixed + k] = work.all_values[Shade::value(work.live[k])];
    return true;
  };
  const size_t count = group.members.size();
  const Slow slow{at, static_cast<int>(kFixed + work.live.size()), shade_.floor(), raster_.finer > 1};
  work.between.spread(slow, work.member_places, work.values);
  work.sum.assign(count, 0);
  for (size_t k = 0; k < work.live.size(); ++k) {
    const float* values = &work.values[(kFixed + k) * count];
    reach(work.live[k], group, values, work);
    for (size_t i = 0; i < count; ++i) work.sum[i] += values[i] * work.reaches[work.lead[i]];
  }
  const float *path = &work.values[Shade::kPath * count], *own = &work.values[Shade::kOwn * count],
              *air = &work.values[Shade::kOwnAir * count];
  const auto passed = static_cast<float>(group.passed);
  for (size_t i = 0; i < count; ++i) {
    const size_t point = group.members[i];
    if (group.veil >= 0) {
      work.others[point] = passed * work.others[point] + work.sum[i];
      work.own[point] = passed * passed * work.own[point] + own[i];
    } else {
      work.others[point] = work.factor[i] * work.sum[i] + path[i];
      work.own[point] = work.factor[i] * own[i];
      work.air[point] = air[i];
    }
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
      if (work.groups[g].veil == kSky) continue;
      const double scale = flat ? geom::dot(work.ways.at(point), axis) : 1;
      layers.depth.at[at] = static_cast<float>(work.hits[point]->distance * scale);
      layers.hue[at] = work.groups[g].coat->hue;
    }
}

/// The ball around the points of the group in hand, and the sources that matter to it.
Piece Caster::piece_in_hand(const Work& work) const {
  constexpr double kNone = 1e300;
  Vec3 low{kNone, kNone, kNone}, high{-kNone, -kNone, -kNone};
  for (size_t i = 0; i < work.off.count; ++i) {
    const Vec3 at = work.off.at(i);
    low = {std::min(low.x, at.x), std::min(low.y, at.y), std::min(low.z, at.z)};
    high = {std::max(high.x, at.x), std::max(high.y, at.y), std::max(high.z, at.z)};
  }
  return {0.5 * (low + high), 0.5 * geom::norm(high - low), work.live};
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
    if (group.veil != kSky && meets_ == site::Meets::kStanding) pieces.push_back(piece_in_hand(work));
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
