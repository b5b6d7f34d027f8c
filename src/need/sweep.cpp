// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/sweep.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <optional>

namespace sightfall::need {
namespace {

using geom::SitePoint;
using geom::Vec3;

constexpr size_t kTile = SweepPoints::kTile;

/// What the kernel needs of a camera, in single precision.
struct NarrowStation {
  std::array<float, 3> eye, right, down, axis;
  float focal = 0, half_columns = 0, half_rows = 0, k1 = 0, k2 = 0, k3 = 0, largest_tangent2 = 0;
  bool closed_form = false;
};

std::array<float, 3> narrow(Vec3 v) {
  return {static_cast<float>(v.x), static_cast<float>(v.y), static_cast<float>(v.z)};
}

NarrowStation narrow_station(const Station& station) {
  const camera::Projector& p = station.lens.projector;
  const geom::Mat3& turn = station.pose.camera_from_site;
  NarrowStation aim{narrow(station.pose.eye_site), narrow(turn.row[0]), narrow(turn.row[1]), narrow(turn.row[2])};
  aim.focal = static_cast<float>(p.focal_px);
  aim.half_columns = static_cast<float>(p.columns) / 2;
  aim.half_rows = static_cast<float>(p.rows) / 2;
  aim.k1 = static_cast<float>(p.k[0]);
  aim.k2 = static_cast<float>(p.k[1]);
  aim.k3 = static_cast<float>(p.k[4]);
  const double tangent = std::tan(std::min(p.largest.si(), 1.55));
  aim.largest_tangent2 = static_cast<float>(tangent * tangent);
  aim.closed_form = p.mapping == camera::Mapping::kBrown && p.k[2] == 0 && p.k[3] == 0;
  return aim;
}

/// Density and depth of each point of a tile; density 0 where it is not in the picture.
struct TileView {
  alignas(64) std::array<float, kTile> density, depth;
};

/// The smaller singular value, squared, of the scales along and across the radius on a plane whose horizontal lies at
/// an angle (its cos^2 and sin^2) to the radius and whose vertical is foreshortened. The two eigenvalues are told apart
/// by a sum of squares: a difference of near equals would cost half the digits where the scales are alike.
inline float smaller2(float along2, float across2, float cos2, float sin2, float foreshortened2) {
  const float level = along2 * cos2 + across2 * sin2, upright = (along2 * sin2 + across2 * cos2) * foreshortened2;
  const float apart = level - upright, scales = along2 - across2;
  const float gap = std::sqrt(apart * apart + 4 * scales * scales * cos2 * sin2 * foreshortened2);
  return along2 * across2 * foreshortened2 / (0.5F * (level + upright + gap));
}

// The kernel again for processors with wider vectors, picked when the program starts. Every copy gives the same bits,
// for no copy may join a product and a sum (CMakeLists.txt). Sanitizers start too late for such a pick.
#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__) && !defined(__SANITIZE_ADDRESS__)
#define SIGHTFALL_WIDE_VECTORS __attribute__((target_clones("avx512f", "avx2", "default")))
#else
#define SIGHTFALL_WIDE_VECTORS
#endif

/// Brown form without tangential terms. All lanes take the same path, so that the compiler makes vectors of it.
SIGHTFALL_WIDE_VECTORS void view_tile(const NarrowStation a, const float* x, const float* y, const float* z,
                                      TileView& view) {
  float* const out_density = view.density.data();
  float* const out_depth = view.depth.data();
  for (size_t i = 0; i < kTile; ++i) {
    const float dx = x[i] - a.eye[0], dy = y[i] - a.eye[1], dz = z[i] - a.eye[2];
    const float cx = a.right[0] * dx + a.right[1] * dy + a.right[2] * dz;
    const float cy = a.down[0] * dx + a.down[1] * dy + a.down[2] * dz;
    const float cz = a.axis[0] * dx + a.axis[1] * dy + a.axis[2] * dz;
    const float level2 = dx * dx + dy * dy, square = level2 + dz * dz;
    const float iz = 1 / cz, u = cx * iz, v = cy * iz, r2 = u * u + v * v;
    const float radial = 1 + r2 * (a.k1 + r2 * (a.k2 + r2 * a.k3));
    const float slope = radial + 2 * r2 * (a.k1 + r2 * (2 * a.k2 + 3 * r2 * a.k3));
    // Scales on the unit sphere, squared: along the radius f slope / cos^2, across it f radial / cos.
    const float secant2 = 1 + r2;
    const float across2 = radial * radial * secant2, along2 = slope * slope * secant2 * secant2;
    // Angle between the radius and the plane's horizontal: cos^2 = (across . axis)^2 / sin^2(off axis).
    const float side = a.axis[1] * dx - a.axis[0] * dy;
    const float sine2 = r2 / secant2;
    const float mixed = sine2 > 1e-12F ? side * side / (level2 * sine2) : 1.0F;
    const float cos2 = mixed < 1.0F ? mixed : 1.0F, sin2 = 1 - cos2;
    const float foreshortened2 = level2 / square;
    const float density = a.focal * std::sqrt(smaller2(along2, across2, cos2, sin2, foreshortened2) / square);
    // Bitwise, for a branch a lane would keep the loop from being made of vectors.
    const int in = static_cast<int>(cz > 0) & static_cast<int>(std::fabs(u * radial) * a.focal <= a.half_columns) &
                   static_cast<int>(std::fabs(v * radial) * a.focal <= a.half_rows) &
                   static_cast<int>(r2 <= a.largest_tangent2);
    out_density[i] = in != 0 ? density : 0.0F;
    out_depth[i] = cz;
  }
}

/// A radial mapping as a table over sin(theta / 2), in which every mapping is smooth up to the point behind the camera:
/// radius in the picture and the scales along and across it, in pixels and pixels a radian.
struct RadialTable {
  static constexpr int kSteps = 1024;
  std::array<float, kSteps + 2> radius, along, across;
  float last = 0;  ///< beyond it nothing reaches the picture

  explicit RadialTable(const camera::Projector& p) {
    for (int i = 0; i <= kSteps + 1; ++i) {
      constexpr double kStraightBehind = 3.14159;  // a hair before it, for there the scale across has no end
      const double theta = std::min(2 * std::asin(std::min(1.0, static_cast<double>(i) / kSteps)), kStraightBehind);
      const camera::RadialScale scale = camera::radial_scale(p, Angle{theta});
      const auto k = static_cast<size_t>(i);
      radius[k] = static_cast<float>(scale.across * std::sin(theta));
      along[k] = static_cast<float>(scale.along);
      across[k] = static_cast<float>(scale.across);
    }
    last = static_cast<float>(std::sin(p.largest.si() / 2));
  }
};

/// Fisheye form: the same closed form with the scales from the table.
SIGHTFALL_WIDE_VECTORS void view_tile_by_table(const NarrowStation a, const RadialTable& table, const float* x,
                                               const float* y, const float* z, TileView& view) {
  for (size_t i = 0; i < kTile; ++i) {
    const float dx = x[i] - a.eye[0], dy = y[i] - a.eye[1], dz = z[i] - a.eye[2];
    const float cx = a.right[0] * dx + a.right[1] * dy + a.right[2] * dz;
    const float cy = a.down[0] * dx + a.down[1] * dy + a.down[2] * dz;
    const float cz = a.axis[0] * dx + a.axis[1] * dy + a.axis[2] * dz;
    const float level2 = dx * dx + dy * dy, square = level2 + dz * dz, distance = std::sqrt(square);
    const float half_sine = std::sqrt(std::max(0.0F, 0.5F * (1 - cz / distance)));
    const float place = std::min(half_sine, 1.0F) * RadialTable::kSteps;
    const auto step = static_cast<size_t>(place);
    const float share = place - static_cast<float>(step);
    const auto at = [&](const std::array<float, RadialTable::kSteps + 2>& t) {
      return t[step] + share * (t[step + 1] - t[step]);
    };
    const float off2 = cx * cx + cy * cy, to_picture = off2 > 0 ? at(table.radius) / std::sqrt(off2) : 0;
    const float along2 = at(table.along) * at(table.along), across2 = at(table.across) * at(table.across);
    const float side = a.axis[1] * dx - a.axis[0] * dy;
    const float mixed = off2 > 1e-12F * square ? side * side * square / (level2 * off2) : 1.0F;
    const float cos2 = std::min(mixed, 1.0F), sin2 = 1 - cos2, foreshortened2 = level2 / square;
    const bool in = half_sine <= table.last && std::fabs(cx * to_picture) <= a.half_columns &&
                    std::fabs(cy * to_picture) <= a.half_rows;
    view.density[i] = in ? std::sqrt(smaller2(along2, across2, cos2, sin2, foreshortened2) / square) : 0.0F;
    view.depth[i] = distance;
  }
}

/// A mapping that is not radial, or a picture with masks, point by point.
void view_tile_at_length(const Station& station, const float* x, const float* y, const float* z, TileView& view) {
  const camera::Projector& p = station.lens.projector;
  const geom::Mat3& turn = station.pose.camera_from_site;
  for (size_t i = 0; i < kTile; ++i) {
    view.density[i] = 0;
    const Vec3 ray =
        Vec3{static_cast<double>(x[i]), static_cast<double>(y[i]), static_cast<double>(z[i])} - station.pose.eye_site;
    const Vec3 at = turn * ray;
    const double level = std::hypot(ray.x, ray.y);
    if (!shows(station, at) || level < 1e-9) continue;
    const Vec3 across{-ray.y / level, ray.x / level, 0};
    const auto on = camera::surface_density(camera::jacobian(p, at), turn * across, turn * Vec3{0, 0, 1});
    view.density[i] = static_cast<float>(on.least);
    view.depth[i] = static_cast<float>(p.mapping == camera::Mapping::kFisheye ? norm(at) : at.z);
  }
}

/// The camera's cone and reach, for culling spheres.
struct Cone {
  SitePoint eye;
  Vec3 axis;
  double cosine = 0, sine = 0, reach = 0;

  bool meets(const SweepPoints::Tile& sphere) const {
    const Vec3 to = sphere.centre - eye;
    const double square = dot(to, to), far = reach + sphere.radius;
    if (square > far * far) return false;
    if (cosine <= 0) return true;  // half the world or more: nothing is culled by angle
    const double ahead = dot(to, axis);
    // Distance of the centre from the cone's surface, outwards; behind the tip it is too small, which culls less.
    return std::sqrt(std::max(0.0, square - ahead * ahead)) * cosine - ahead * sine <= sphere.radius;
  }
};

Cone cone_of(const Station& station, double faintest) {
  const camera::Projector& p = station.lens.projector;
  const auto corner = camera::ray_camera(p, {-0.5, -0.5});
  const double half = std::min(corner ? std::acos(std::clamp(corner->z, -1.0, 1.0)) : p.largest.si(), p.largest.si());
  // The smaller singular value is at most the smaller of the two scales: its most between axis and corner tells the
  // reach.
  double most = 0;
  constexpr int kSteps = 32;
  for (int i = 0; i <= kSteps; ++i) {
    const camera::RadialScale scale = camera::radial_scale(p, Angle{half * i / kSteps});
    most = std::max(most, std::min(scale.along, scale.across));
  }
  constexpr double kBetweenSteps = 1.01;  // the scale's most may lie between two steps
  return {station.pose.eye_site, station.pose.camera_from_site.row[2], std::cos(half), std::sin(half),
          kBetweenSteps * most / faintest};
}

/// Calls `visit(tile, view)` for each tile that the camera may see.
template <class Visit>
void for_each_tile(const Station& station, const SweepPoints& points, double faintest, Visit visit) {
  const NarrowStation aim = narrow_station(station);
  const Cone cone = cone_of(station, faintest);
  const bool fisheye = station.lens.projector.mapping == camera::Mapping::kFisheye;
  const bool unmasked = station.masks.empty();
  const std::optional<RadialTable> table = fisheye ? std::optional<RadialTable>{station.lens.projector} : std::nullopt;
  TileView view;
  for (const SweepPoints::Tile& group : points.groups) {
    if (!cone.meets(group)) continue;
    for (uint32_t t = group.first; t < group.first + group.count; ++t) {
      const SweepPoints::Tile& tile = points.tiles[t];
      if (!cone.meets(tile)) continue;
      const float* x = points.x.data() + tile.first;
      const float* y = points.y.data() + tile.first;
      const float* z = points.z.data() + tile.first;
      if (unmasked && aim.closed_form)
        view_tile(aim, x, y, z, view);
      else if (unmasked && fisheye)
        view_tile_by_table(aim, *table, x, y, z, view);
      else
        view_tile_at_length(station, x, y, z, view);
      visit(tile, view);
    }
  }
}

/// Points worth a ray, gathered over tiles so that packets of rays are full.
struct Chosen {
  static constexpr size_t kFull = 1024;
  std::array<float, kFull + kTile> density, depth, x, y, z, passed;
  std::array<uint32_t, kFull + kTile> point;
  size_t count = 0;

  /// Tiles that lie wholly in or out of the picture, most of them, go without a look at each point; of the others every
  /// point's row is written and stepped past when it counts, so that there is no branch for the processor to guess.
  void add(const SweepPoints::Tile& tile, const TileView& view, float least) {
    int enough = 0;
    for (const float here : view.density) enough += static_cast<int>(here >= least);
    if (enough == 0) return;
    if (enough == static_cast<int>(kTile) && tile.count == kTile) {
      std::copy(view.density.begin(), view.density.end(), density.begin() + static_cast<ptrdiff_t>(count));
      std::copy(view.depth.begin(), view.depth.end(), depth.begin() + static_cast<ptrdiff_t>(count));
      std::iota(point.begin() + static_cast<ptrdiff_t>(count), point.begin() + static_cast<ptrdiff_t>(count + kTile),
                tile.first);
      count += kTile;
      return;
    }
    size_t next = count;
    for (uint32_t i = 0; i < tile.count; ++i) {
      density[next] = view.density[i];
      depth[next] = view.depth[i];
      point[next] = tile.first + i;
      next += static_cast<size_t>(view.density[i] >= least);
    }
    count = next;
  }

  void fetch(const SweepPoints& points) {
    for (size_t k = 0; k < count; ++k) {
      x[k] = points.x[point[k]];
      y[k] = points.y[point[k]];
      z[k] = points.z[point[k]];
    }
  }
};

}  // namespace

void sweep(const Station& station, const site::Scene& scene, const SweepPoints& points, PixelDensity faintest,
           std::vector<SweepHit>& hits) {
  const auto least = static_cast<float>(faintest.si());
  Chosen chosen;
  const auto cast = [&] {
    const size_t n = chosen.count;
    chosen.fetch(points);
    scene.passed_from(station.pose.eye_site, {{chosen.x.data(), n}, {chosen.y.data(), n}, {chosen.z.data(), n}},
                      {chosen.passed.data(), n});
    for (size_t k = 0; k < n; ++k)
      if (chosen.passed[k] > 0)
        hits.push_back({points.original[chosen.point[k]], chosen.density[k], chosen.depth[k], chosen.passed[k]});
    chosen.count = 0;
  };
  for_each_tile(station, points, faintest.si(), [&](const SweepPoints::Tile& tile, const TileView& view) {
    chosen.add(tile, view, least);
    if (chosen.count >= Chosen::kFull) cast();
  });
  cast();
}

size_t sweep_rays(const Station& station, const SweepPoints& points, PixelDensity faintest,
                  std::vector<uint32_t>* in_tile_order) {
  const auto least = static_cast<float>(faintest.si());
  size_t rays = 0;
  for_each_tile(station, points, faintest.si(), [&](const SweepPoints::Tile& tile, const TileView& view) {
    for (uint32_t i = 0; i < tile.count; ++i) {
      if (!(view.density[i] >= least)) continue;
      ++rays;
      if (in_tile_order != nullptr) in_tile_order->push_back(tile.first + i);
    }
  });
  return rays;
}

}  // namespace sightfall::need
