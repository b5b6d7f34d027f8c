// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/scene.h"

#include <embree3/rtcore.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <tuple>
#include <utility>
#include <vector>

#include "site/ground.h"

namespace sightfall::site {
namespace {

constexpr int kPacket = 16;
// Shares of a stretch left free at either end, so that the surface a camera or a subject touches does not hide it.
constexpr float kNearShare = 1e-4F, kFarShare = 0.9999F;

/// Embree fails only for want of memory or by our own mistake; neither has an answer to go on with.
void on_device_error(void*, RTCError code, const char* text) {
  std::fprintf(stderr, "ray tracing failed (%d): %s\n", static_cast<int>(code), text);
  std::abort();
}

struct DeviceOwner {
  RTCDevice device = rtcNewDevice(nullptr);
  DeviceOwner() { rtcSetDeviceErrorFunction(device, on_device_error, nullptr); }
  ~DeviceOwner() { rtcReleaseDevice(device); }
  DeviceOwner(const DeviceOwner&) = delete;
  DeviceOwner& operator=(const DeviceOwner&) = delete;
};

/// The veils that one ray has crossed. A ray through an edge or a corner meets every triangle there, which is one
/// crossing: met again nearer than kSameCrossing of the stretch, a veil does not count twice.
struct Crossings {
  static constexpr float kSameCrossing = 1e-5F;
  static constexpr size_t kMost = 32;  // beyond them next to nothing is left to pass

  size_t count = 0;
  std::array<float, kMost> where;
  std::array<unsigned, kMost> veil;

  bool is_new(unsigned crossed, float at) {
    for (size_t i = 0; i < count; ++i)
      if (veil[i] == crossed && std::abs(where[i] - at) < kSameCrossing) return false;
    if (count < kMost) {
      where[count] = at;
      veil[count++] = crossed;
    }
    return true;
  }
};

/// What a packet of rays through veils carries along.
struct VeilContext {
  RTCIntersectContext base;
  std::array<float, kPacket> fraction;  // passed so far
  std::array<Crossings, kPacket> crossings;
};

/// Called at each triangle of a veil that is met: takes the veil's fraction and lets the ray go on.
void pass_veil(const RTCFilterFunctionNArguments* args) {
  auto* context = reinterpret_cast<VeilContext*>(args->context);
  const float fraction = *static_cast<const float*>(args->geometryUserPtr);
  for (unsigned i = 0; i < args->N; ++i) {
    if (args->valid[i] == 0) continue;
    args->valid[i] = 0;
    const unsigned lane = RTCRayN_id(args->ray, args->N, i);
    const unsigned veil = RTCHitN_geomID(args->hit, args->N, i);
    if (context->crossings[lane].is_new(veil, RTCRayN_tfar(args->ray, args->N, i))) context->fraction[lane] *= fraction;
  }
}

RTCIntersectContext coherent() {
  RTCIntersectContext context;
  rtcInitIntersectContext(&context);
  context.flags = RTC_INTERSECT_CONTEXT_FLAG_COHERENT;
  return context;
}

/// A packet of rays from one eye: all that does not change from packet to packet.
void set_eye(RTCRay16& rays, geom::SitePoint eye) {
  for (int lane = 0; lane < kPacket; ++lane) {
    rays.org_x[lane] = static_cast<float>(eye.x);
    rays.org_y[lane] = static_cast<float>(eye.y);
    rays.org_z[lane] = static_cast<float>(eye.z);
    rays.tnear[lane] = kNearShare;
    rays.time[lane] = 0;
    rays.mask[lane] = 0xFFFFFFFF;
    rays.id[lane] = static_cast<unsigned>(lane);
    rays.flags[lane] = 0;
  }
}

/// Sixteen points that follow each other in a list, the last one repeated where the list ends.
struct Sixteen {
  const float *x, *y, *z;
  std::array<float, 3 * kPacket> room;  // for the list's end

  Sixteen(const Targets& list, size_t first, size_t count) : x{&list.x[first]}, y{&list.y[first]}, z{&list.z[first]} {
    if (count == kPacket) return;
    const auto fill = [&](const float*& from, size_t row) {
      float* to = &room.at(row * kPacket);
      for (size_t lane = 0; lane < kPacket; ++lane) to[lane] = from[std::min(lane, count - 1)];
      from = to;
    };
    fill(x, 0), fill(y, 1), fill(z, 2);
  }
  Sixteen(const Sixteen&) = delete;
  Sixteen& operator=(const Sixteen&) = delete;
};

void begin_at(RTCRay16& rays, const Sixteen& points) {
  std::copy_n(points.x, kPacket, &rays.org_x[0]);
  std::copy_n(points.y, kPacket, &rays.org_y[0]);
  std::copy_n(points.z, kPacket, &rays.org_z[0]);
}

/// Aims the packet at 16 targets that follow each other, each ray as long as its stretch.
void aim(RTCRay16& rays, const Sixteen& targets) {
  const auto [x, y, z] = std::tuple{targets.x, targets.y, targets.z};
  for (int lane = 0; lane < kPacket; ++lane) {
    rays.dir_x[lane] = x[lane] - rays.org_x[lane];
    rays.dir_y[lane] = y[lane] - rays.org_y[lane];
    rays.dir_z[lane] = z[lane] - rays.org_z[lane];
    rays.tfar[lane] = kFarShare;
  }
}

RTCRayHit ray_along(geom::SitePoint from, geom::Vec3 direction, Length farthest) {
  RTCRayHit query{};
  query.ray.org_x = static_cast<float>(from.x);
  query.ray.org_y = static_cast<float>(from.y);
  query.ray.org_z = static_cast<float>(from.z);
  query.ray.dir_x = static_cast<float>(direction.x);
  query.ray.dir_y = static_cast<float>(direction.y);
  query.ray.dir_z = static_cast<float>(direction.z);
  query.ray.tfar = static_cast<float>(farthest.si());
  query.ray.mask = 0xFFFFFFFF;
  query.hit.geomID = RTC_INVALID_GEOMETRY_ID;
  return query;
}

/// A packet of rays along 16 directions.
void aim_along(RTCRay16& rays, const Sixteen& directions, Length farthest) {
  std::copy_n(directions.x, kPacket, &rays.dir_x[0]);
  std::copy_n(directions.y, kPacket, &rays.dir_y[0]);
  std::copy_n(directions.z, kPacket, &rays.dir_z[0]);
  std::fill_n(&rays.tnear[0], kPacket, 0.0F);
  std::fill_n(&rays.tfar[0], kPacket, static_cast<float>(farthest.si()));
}

// A surface's number: its triangle's, and above that what kind of scene and geometry it belongs to.
constexpr unsigned kGeometryShift = 29, kTriangleMask = (1U << kGeometryShift) - 1, kOfVisitor = 7;

/// What a ray has met.
struct Touch {
  float distance;
  std::array<float, 3> direction, normal;
  unsigned geometry, triangle;
  float u, v;

  explicit Touch(const RTCRayHit& q)
      : distance{q.ray.tfar},
        direction{q.ray.dir_x, q.ray.dir_y, q.ray.dir_z},
        normal{q.hit.Ng_x, q.hit.Ng_y, q.hit.Ng_z},
        geometry{q.hit.geomID},
        triangle{q.hit.primID},
        u{q.hit.u},
        v{q.hit.v} {}
  Touch(const Hits& hits, size_t i, geom::Vec3 way)
      : distance{hits.distance[i]},
        direction{static_cast<float>(way.x), static_cast<float>(way.y), static_cast<float>(way.z)},
        normal{hits.across[i], hits.along[i], hits.up[i]},
        geometry{hits.surface[i] >> kGeometryShift},
        triangle{hits.surface[i] & kTriangleMask},
        u{hits.second[i]},
        v{hits.third[i]} {}

  bool any() const { return geometry != RTC_INVALID_GEOMETRY_ID; }
  geom::Vec3 towards_eye() const {
    const auto wide = [](const std::array<float, 3>& a) {
      return geom::Vec3{static_cast<double>(a[0]), static_cast<double>(a[1]), static_cast<double>(a[2])};
    };
    const geom::Vec3 unit = geom::unit(wide(normal));
    return dot(unit, wide(direction)) > 0 ? -1.0 * unit : unit;
  }
};

/// Sends packets along all directions: `trace` sends one, of `count` rays from the one numbered `first` on.
template <class Trace>
void along_all(geom::SitePoint from, const Targets& directions, Length farthest, Trace trace) {
  alignas(64) RTCRayHit16 query;
  set_eye(query.ray, from);
  for (size_t first = 0; first < directions.x.size(); first += kPacket) {
    const size_t count = std::min<size_t>(kPacket, directions.x.size() - first);
    alignas(64) std::array<int, kPacket> valid{};
    std::fill_n(valid.begin(), count, -1);
    aim_along(query.ray, Sixteen{directions, first, count}, farthest);
    std::fill_n(&query.hit.geomID[0], kPacket, RTC_INVALID_GEOMETRY_ID);
    trace(query, valid, first, count);
  }
}

/// Takes what one lane has met.
void take(const RTCRayHit16& query, size_t lane, unsigned geometry, size_t to, Hits& hits) {
  hits.distance[to] = query.ray.tfar[lane];
  hits.surface[to] = (geometry << kGeometryShift) | query.hit.primID[lane];
  hits.across[to] = query.hit.Ng_x[lane], hits.along[to] = query.hit.Ng_y[lane], hits.up[to] = query.hit.Ng_z[lane];
  hits.second[to] = query.hit.u[lane], hits.third[to] = query.hit.v[lane];
}

}  // namespace

/// What stands on a site; scenes with and without a visitor share it.
struct Scene::Standing {
  DeviceOwner owner;
  RTCScene solids = rtcNewScene(owner.device);
  RTCScene veils = rtcNewScene(owner.device);
  std::vector<float> veil_fractions;  // one a veil; Embree keeps pointers into it
  std::vector<int> solid_of;          // by triangle of the solids' one mesh
  unsigned solids_geometry = RTC_INVALID_GEOMETRY_ID;

  Standing(const Site& site, Leaves leaves) {
    for (RTCScene scene : {solids, veils}) {
      rtcSetSceneFlags(scene, RTC_SCENE_FLAG_ROBUST);
      rtcSetSceneBuildQuality(scene, RTC_BUILD_QUALITY_MEDIUM);
    }
    add(solids, terrain_mesh(site));
    geom::Mesh all;
    for (size_t i = 0; i < site.solids.size(); ++i) {
      all.append(solid_mesh(site.terrain, site.solids[i]));
      solid_of.resize(all.triangles.size(), static_cast<int>(i));
    }
    solids_geometry = add(solids, all);
    veil_fractions.reserve(site.veils.size());
    for (const Veil& veil : site.veils) {
      veil_fractions.push_back(static_cast<float>(fraction_per_crossing(veil, leaves)));
      add_veil(veil_mesh(site.terrain, veil), &veil_fractions.back());
    }
    rtcCommitScene(solids);
    rtcCommitScene(veils);
  }
  ~Standing() {
    rtcReleaseScene(solids);
    rtcReleaseScene(veils);
  }
  Standing(const Standing&) = delete;
  Standing& operator=(const Standing&) = delete;

  RTCGeometry geometry_of(const geom::Mesh& mesh) const {
    RTCGeometry geometry = rtcNewGeometry(owner.device, RTC_GEOMETRY_TYPE_TRIANGLE);
    auto* vertices = static_cast<float*>(rtcSetNewGeometryBuffer(geometry, RTC_BUFFER_TYPE_VERTEX, 0, RTC_FORMAT_FLOAT3,
                                                                 3 * sizeof(float), mesh.vertices.size()));
    for (const geom::Vec3& v : mesh.vertices) {
      *vertices++ = static_cast<float>(v.x);
      *vertices++ = static_cast<float>(v.y);
      *vertices++ = static_cast<float>(v.z);
    }
    auto* indices = static_cast<uint32_t*>(rtcSetNewGeometryBuffer(geometry, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3,
                                                                   3 * sizeof(uint32_t), mesh.triangles.size()));
    for (const auto& t : mesh.triangles) indices = std::copy(t.begin(), t.end(), indices);
    return geometry;
  }

  unsigned add(RTCScene to, const geom::Mesh& mesh) const {
    if (mesh.triangles.empty()) return RTC_INVALID_GEOMETRY_ID;
    RTCGeometry geometry = geometry_of(mesh);
    rtcCommitGeometry(geometry);
    const unsigned id = rtcAttachGeometry(to, geometry);
    rtcReleaseGeometry(geometry);
    return id;
  }

  /// Embree numbers geometries from zero in their order: a veil's is its place in the site's list.
  void add_veil(const geom::Mesh& mesh, float* fraction) const {
    RTCGeometry geometry = geometry_of(mesh);
    rtcSetGeometryUserData(geometry, fraction);
    rtcSetGeometryOccludedFilterFunction(geometry, pass_veil);
    rtcCommitGeometry(geometry);
    rtcAttachGeometry(veils, geometry);
    rtcReleaseGeometry(geometry);
  }
};

struct Scene::Impl {
  std::shared_ptr<const Standing> standing;
  RTCScene visitor = nullptr;  // apart, so that rays may go on as though it were not there

  explicit Impl(std::shared_ptr<const Standing> what) : standing{std::move(what)} {}
  ~Impl() {
    if (visitor != nullptr) rtcReleaseScene(visitor);
  }
  Impl(const Impl&) = delete;
  Impl& operator=(const Impl&) = delete;

  void add_visitor(const geom::Mesh& mesh) {
    if (mesh.triangles.empty()) return;
    visitor = rtcNewScene(standing->owner.device);
    rtcSetSceneFlags(visitor, RTC_SCENE_FLAG_ROBUST);
    rtcSetSceneBuildQuality(visitor, RTC_BUILD_QUALITY_MEDIUM);
    standing->add(visitor, mesh);
    rtcCommitScene(visitor);
  }

  /// The fraction passed along one stretch.
  float passed_one(const Sightline& sightline) const {
    RTCRay ray{};
    ray.org_x = static_cast<float>(sightline.from_site.x);
    ray.org_y = static_cast<float>(sightline.from_site.y);
    ray.org_z = static_cast<float>(sightline.from_site.z);
    ray.dir_x = static_cast<float>(sightline.to_site.x) - ray.org_x;
    ray.dir_y = static_cast<float>(sightline.to_site.y) - ray.org_y;
    ray.dir_z = static_cast<float>(sightline.to_site.z) - ray.org_z;
    ray.tnear = kNearShare;
    ray.tfar = kFarShare;
    ray.mask = 0xFFFFFFFF;
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    rtcOccluded1(standing->solids, &context, &ray);
    if (visitor != nullptr && ray.tfar >= 0) rtcOccluded1(visitor, &context, &ray);
    if (ray.tfar < 0) return 0;
    if (standing->veil_fractions.empty()) return 1;
    VeilContext veil_context;
    veil_context.fraction[0] = 1;
    rtcInitIntersectContext(&veil_context.base);
    rtcOccluded1(standing->veils, &veil_context.base, &ray);
    return veil_context.fraction[0];
  }

  /// Which of the packet's first `count` lanes no solid stops; their fractions after the veils go to `fraction`.
  void passed_packet(RTCRay16& rays, size_t count, float* fraction) const {
    alignas(64) std::array<int, kPacket> valid{};
    std::fill_n(valid.begin(), count, -1);
    RTCIntersectContext context = coherent();
    rtcOccluded16(valid.data(), standing->solids, &context, &rays);
    const auto still_open = [&] {  // Embree marks an occluded ray with -infinity
      for (size_t lane = 0; lane < count; ++lane) valid[lane] = rays.tfar[lane] >= 0 ? -1 : 0;
      return std::any_of(valid.begin(), valid.end(), [](int lane) { return lane != 0; });
    };
    bool any = still_open();
    if (any && visitor != nullptr) {
      rtcOccluded16(valid.data(), visitor, &context, &rays);
      any = still_open();
    }
    for (size_t lane = 0; lane < count; ++lane) fraction[lane] = valid[lane] != 0 ? 1.0F : 0.0F;
    if (!any || standing->veil_fractions.empty()) return;
    VeilContext veil_context;
    veil_context.fraction.fill(1.0F);
    veil_context.base = coherent();
    rtcOccluded16(valid.data(), standing->veils, &veil_context.base, &rays);
    for (size_t lane = 0; lane < count; ++lane) fraction[lane] *= veil_context.fraction[lane];
  }

  /// Most rays miss a visitor, and need not ask what stands.
  void first_of_visitor(geom::SitePoint from, const Targets& directions, Length farthest, Hits& hits) const {
    std::fill(hits.distance.begin(), hits.distance.end(), Hits::kNothing);
    if (visitor == nullptr) return;
    RTCIntersectContext context = coherent();
    along_all(from, directions, farthest, [&](RTCRayHit16& query, auto& valid, size_t first, size_t count) {
      rtcIntersect16(valid.data(), visitor, &context, &query);
      bool any = false;
      for (size_t lane = 0; lane < count; ++lane) {
        valid[lane] = query.hit.geomID[lane] != RTC_INVALID_GEOMETRY_ID ? -1 : 0;
        if (valid[lane] != 0) take(query, lane, kOfVisitor, first + lane, hits);
        any = any || valid[lane] != 0;
      }
      if (!any) return;
      rtcOccluded16(valid.data(), standing->solids, &context, &query.ray);
      for (size_t lane = 0; lane < count; ++lane)
        if (query.ray.tfar[lane] < 0) hits.distance[first + lane] = Hits::kNothing;
    });
  }

  Hit hit_of(const Touch& touch, bool of_visitor) const {
    Hit hit{static_cast<double>(touch.distance), touch.towards_eye(), -1};
    if (of_visitor) {
      hit.solid = kVisitor;
      hit.triangle = static_cast<int>(touch.triangle);
      hit.second = static_cast<double>(touch.u);
      hit.third = static_cast<double>(touch.v);
    } else if (touch.geometry == standing->solids_geometry) {
      hit.solid = standing->solid_of[touch.triangle];
    }
    return hit;
  }

  VeilHit veil_hit_of(const Touch& touch) const {
    return {static_cast<double>(touch.distance), static_cast<double>(standing->veil_fractions[touch.geometry]),
            static_cast<int>(touch.geometry), touch.towards_eye()};
  }
};

Scene::Scene(const Site& site, Leaves leaves)
    : impl_{std::make_unique<Impl>(std::make_shared<const Standing>(site, leaves))} {}

Scene::Scene(const Scene& standing, const geom::Mesh& visitor)
    : impl_{std::make_unique<Impl>(standing.impl_->standing)} {
  impl_->add_visitor(visitor);
}

Scene::~Scene() = default;
Scene::Scene(Scene&&) noexcept = default;
Scene& Scene::operator=(Scene&&) noexcept = default;

void Scene::passed_from(geom::SitePoint eye_site, const Targets& targets, std::span<float> fraction) const {
  alignas(64) RTCRay16 rays;
  set_eye(rays, eye_site);
  for (size_t first = 0; first < fraction.size(); first += kPacket) {
    const size_t count = std::min<size_t>(kPacket, fraction.size() - first);
    aim(rays, Sixteen{targets, first, count});
    impl_->passed_packet(rays, count, &fraction[first]);
  }
}

void Scene::passed(const Targets& from, const Targets& to, std::span<float> fraction) const {
  alignas(64) RTCRay16 rays;
  set_eye(rays, {});
  for (size_t first = 0; first < fraction.size(); first += kPacket) {
    const size_t count = std::min<size_t>(kPacket, fraction.size() - first);
    begin_at(rays, Sixteen{from, first, count});
    aim(rays, Sixteen{to, first, count});
    impl_->passed_packet(rays, count, &fraction[first]);
  }
}

double Scene::passed(const Sightline& sightline) const { return static_cast<double>(impl_->passed_one(sightline)); }

std::optional<Hit> Scene::first_solid(geom::SitePoint from_site, geom::Vec3 direction, Length farthest,
                                      Meets meets) const {
  RTCRayHit query = ray_along(from_site, direction, farthest);
  RTCIntersectContext context;
  rtcInitIntersectContext(&context);
  rtcIntersect1(impl_->standing->solids, &context, &query);
  Touch solid{query};
  if (meets == Meets::kVisitor) solid.geometry = RTC_INVALID_GEOMETRY_ID;
  if (impl_->visitor != nullptr && meets != Meets::kStanding) {
    query.hit.geomID = RTC_INVALID_GEOMETRY_ID;
    rtcIntersect1(impl_->visitor, &context, &query);  // only nearer than the solid
    if (const Touch nearer{query}; nearer.any()) return impl_->hit_of(nearer, true);
  }
  if (!solid.any()) return std::nullopt;
  return impl_->hit_of(solid, false);
}

std::optional<VeilHit> Scene::first_veil(geom::SitePoint from_site, geom::Vec3 direction, Length farthest) const {
  if (!has_veils()) return std::nullopt;
  RTCRayHit query = ray_along(from_site, direction, farthest);
  RTCIntersectContext context;
  rtcInitIntersectContext(&context);
  rtcIntersect1(impl_->standing->veils, &context, &query);
  const Touch touch{query};
  if (!touch.any()) return std::nullopt;
  return impl_->veil_hit_of(touch);
}

void Scene::first_solids(geom::SitePoint from_site, const Targets& directions, Length farthest, Meets meets,
                         Hits& hits) const {
  RTCIntersectContext context = coherent();
  hits.resize(directions.x.size());
  if (meets == Meets::kVisitor) return impl_->first_of_visitor(from_site, directions, farthest, hits);
  along_all(from_site, directions, farthest, [&](RTCRayHit16& query, auto& valid, size_t first, size_t count) {
    rtcIntersect16(valid.data(), impl_->standing->solids, &context, &query);
    for (size_t lane = 0; lane < count; ++lane) {
      take(query, lane, query.hit.geomID[lane], first + lane, hits);
      if (query.hit.geomID[lane] == RTC_INVALID_GEOMETRY_ID) hits.distance[first + lane] = Hits::kNothing;
    }
    if (impl_->visitor == nullptr || meets == Meets::kStanding) return;
    std::fill_n(&query.hit.geomID[0], kPacket, RTC_INVALID_GEOMETRY_ID);
    rtcIntersect16(valid.data(), impl_->visitor, &context, &query);  // only nearer than the solid
    for (size_t lane = 0; lane < count; ++lane)
      if (query.hit.geomID[lane] != RTC_INVALID_GEOMETRY_ID) take(query, lane, kOfVisitor, first + lane, hits);
  });
}

void Scene::first_veils(geom::SitePoint from_site, const Targets& directions, Length farthest, Hits& hits) const {
  hits.resize(directions.x.size());
  std::fill(hits.distance.begin(), hits.distance.end(), Hits::kNothing);
  if (!has_veils()) return;
  RTCIntersectContext context = coherent();
  along_all(from_site, directions, farthest, [&](RTCRayHit16& query, auto& valid, size_t first, size_t count) {
    rtcIntersect16(valid.data(), impl_->standing->veils, &context, &query);
    for (size_t lane = 0; lane < count; ++lane) {
      const unsigned veil = query.hit.geomID[lane];
      if (veil == RTC_INVALID_GEOMETRY_ID) continue;
      take(query, lane, 0, first + lane, hits);
      hits.surface[first + lane] = veil;
    }
  });
}

Hit Scene::solid_hit(const Hits& hits, size_t which, geom::Vec3 direction) const {
  const Touch touch{hits, which, direction};
  return impl_->hit_of(touch, touch.geometry == kOfVisitor);
}

VeilHit Scene::veil_hit(const Hits& hits, size_t which, geom::Vec3 direction) const {
  Touch touch{hits, which, direction};
  touch.geometry = hits.surface[which];
  return impl_->veil_hit_of(touch);
}

bool Scene::has_veils() const { return !impl_->standing->veil_fractions.empty(); }

}  // namespace sightfall::site
