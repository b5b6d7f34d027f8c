// SPDX-License-Identifier: GPL-3.0-or-later
// What light can pass: occlusion by the site's solids, the fraction that its veils pass, the distance to the first
// surface.
//   Library  Embree, only in scene.cpp, always with its robust flag
//   Error    exact on the triangles but for rays that graze an edge within about 1e-6 of their length
//   Checked  scene_test.cpp; tests/outside/visibility_test.cpp (exact visibility polygons), viewshed_test.cpp (raster
//            viewsheds)
#pragma once
#include <cstdint>
#include <limits>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "geom/vec.h"
#include "site/site.h"

namespace sightfall::site {

/// A stretch between two points, as asked for in numbers. Points on a surface should be lifted off it by the caller.
struct Sightline {
  geom::SitePoint from_site, to_site;
};

/// Points, or directions, as a structure of arrays (metres, site frame).
struct Targets {
  std::span<const float> x, y, z;
};

/// The first surface along a ray.
struct Hit {
  double distance = 0;           ///< m
  geom::Vec3 normal;             ///< unit, to the side the ray came from
  int solid = -1;                ///< index in the site's list; -1: the ground; kVisitor: what was put on the site
  int triangle = -1;             ///< of the visitor's mesh
  double second = 0, third = 0;  ///< barycentric weights of that triangle's second and third corner
};
inline constexpr int kVisitor = -2;

/// The first veil along a ray.
struct VeilHit {
  double distance = 0;  ///< m
  double passed = 1;    ///< fraction of a crossing
  int veil = 0;         ///< index in the site's list
  geom::Vec3 normal;    ///< unit, to the side the ray came from
};

/// The first surfaces along many rays, as a structure of arrays; Scene::solid_hit and veil_hit tell each in full.
struct Hits {
  std::vector<float> distance;           ///< m; infinite: nothing is met
  std::vector<uint32_t> surface;         ///< a number that only points of one flat surface share
  std::vector<float> across, along, up;  ///< its normal, of any length and to either side
  std::vector<float> second, third;      ///< barycentric weights

  static constexpr float kNothing = std::numeric_limits<float>::infinity();
  void resize(size_t count) {
    for (auto* one : {&distance, &across, &along, &up, &second, &third}) one->resize(count);
    surface.resize(count);
  }
  size_t size() const { return distance.size(); }
};

/// What rays meet: everything; what stands on the site, as though no visitor were there; the visitor where nothing that
/// stands is nearer.
enum class Meets { kAll, kStanding, kVisitor };

/// Triangles of a site ready for rays. Cheap to move, safe to ask from many threads.
class Scene {
 public:
  Scene(const Site& site, Leaves leaves);
  /// The same with something that passes by: it hides and shadows as a solid does. What stands is shared.
  Scene(const Scene& standing, const geom::Mesh& visitor);
  ~Scene();
  Scene(Scene&&) noexcept;
  Scene& operator=(Scene&&) noexcept;

  /// The fraction of light passed along each stretch: 0 when a solid is in the way, the product over veils crossed.
  /// Fastest when neighbours in the span are neighbours on the site (packets of 16 with the coherent flag).
  void passed_from(geom::SitePoint eye_site, const Targets& targets, std::span<float> fraction) const;

  /// The same for stretches that each have their own beginning.
  void passed(const Targets& from, const Targets& to, std::span<float> fraction) const;

  /// The same for one stretch.
  double passed(const Sightline& sightline) const;

  /// The first solid, or veil, along a direction (unit vector), or nothing within `farthest`.
  std::optional<Hit> first_solid(geom::SitePoint from_site, geom::Vec3 direction, Length farthest,
                                 Meets meets = Meets::kAll) const;
  std::optional<VeilHit> first_veil(geom::SitePoint from_site, geom::Vec3 direction, Length farthest) const;

  /// The same along many directions from one place, fastest when neighbours in the list are neighbours in direction.
  void first_solids(geom::SitePoint from_site, const Targets& directions, Length farthest, Meets meets,
                    Hits& hits) const;
  void first_veils(geom::SitePoint from_site, const Targets& directions, Length farthest, Hits& hits) const;
  Hit solid_hit(const Hits& hits, size_t which, geom::Vec3 direction) const;
  VeilHit veil_hit(const Hits& hits, size_t which, geom::Vec3 direction) const;
  bool has_veils() const;

 private:
  struct Standing;
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace sightfall::site
