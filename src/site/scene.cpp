// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/scene.h"

#include <embree3/rtcore.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <limits>
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

/// Aims the packet at 16 targets that follow each other, each ray as long as its stretch.
void aim(RTCRay16& rays, const float* x, const float* y, const float* z) {
  for (int lane = 0; lane < kPacket; ++lane) {
    rays.dir_x[lane] = x[lane] - rays.org_x[lane];
    rays.dir_y[lane] = y[lane] - rays.org_y[lane];
    rays.dir_z[lane] = z[lane] - rays.org_z[lane];
    rays.tfar[lane] = kFarShare;
  }
}

/// The last targets of a list, filled up to a whole packet with the very last.
std::array<float, kPacket> filled_up(std::span<const float> last) {
  std::array<float, kPacket> whole;
  whole.fill(last.back());
  std::copy(last.begin(), last.end(), whole.begin());
  return whole;
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

geom::Vec3 normal_of(const RTCRayHit& query, geom::Vec3 direction) {
  const geom::Vec3 normal = geom::unit(
      {static_cast<double>(query.hit.Ng_x), static_cast<double>(query.hit.Ng_y), static_cast<double>(query.hit.Ng_z)});
  return dot(normal, direction) > 0 ? -1.0 * normal : normal;
}

}  // namespace

struct Scene::Impl {
  DeviceOwner owner;
  RTCScene solids = rtcNewScene(owner.device);
  RTCScene veils = rtcNewScene(owner.device);
  std::vector<float> veil_fractions;  // one a veil; Embree keeps pointers into it
  std::vector<int> solid_of;          // by triangle of the solids' one mesh
  std::vector<int> veil_of;           // by geometry of the veils
  unsigned solids_geometry = RTC_INVALID_GEOMETRY_ID, visitor_geometry = RTC_INVALID_GEOMETRY_ID;

  Impl() {
    for (RTCScene scene : {solids, veils}) {
      rtcSetSceneFlags(scene, RTC_SCENE_FLAG_ROBUST);
      rtcSetSceneBuildQuality(scene, RTC_BUILD_QUALITY_MEDIUM);
    }
  }
  ~Impl() {
    rtcReleaseScene(solids);
    rtcReleaseScene(veils);
  }
  Impl(const Impl&) = delete;
  Impl& operator=(const Impl&) = delete;

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

  unsigned add_solid(const geom::Mesh& mesh) const {
    if (mesh.triangles.empty()) return RTC_INVALID_GEOMETRY_ID;
    RTCGeometry geometry = geometry_of(mesh);
    rtcCommitGeometry(geometry);
    const unsigned id = rtcAttachGeometry(solids, geometry);
    rtcReleaseGeometry(geometry);
    return id;
  }

  void add_veil(const geom::Mesh& mesh, float* fraction, int veil) {
    veil_of.push_back(veil);  // Embree numbers geometries from zero in their order
    RTCGeometry geometry = geometry_of(mesh);
    rtcSetGeometryUserData(geometry, fraction);
    rtcSetGeometryOccludedFilterFunction(geometry, pass_veil);
    rtcCommitGeometry(geometry);
    rtcAttachGeometry(veils, geometry);
    rtcReleaseGeometry(geometry);
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
    rtcOccluded1(solids, &context, &ray);
    if (ray.tfar < 0) return 0;
    if (veil_fractions.empty()) return 1;
    VeilContext veil_context;
    veil_context.fraction[0] = 1;
    rtcInitIntersectContext(&veil_context.base);
    rtcOccluded1(veils, &veil_context.base, &ray);
    return veil_context.fraction[0];
  }

  /// Which of the packet's first `count` lanes no solid stops; their fractions after the veils go to `fraction`.
  void passed_packet(RTCRay16& rays, size_t count, float* fraction) const {
    alignas(64) std::array<int, kPacket> valid{};
    std::fill_n(valid.begin(), count, -1);
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    context.flags = RTC_INTERSECT_CONTEXT_FLAG_COHERENT;
    rtcOccluded16(valid.data(), solids, &context, &rays);
    bool any = false;
    for (size_t lane = 0; lane < count; ++lane) {
      const bool open = rays.tfar[lane] >= 0;  // Embree marks an occluded ray with -infinity
      fraction[lane] = open ? 1.0F : 0.0F;
      valid[lane] = open ? -1 : 0;
      any |= open;
    }
    if (!any || veil_fractions.empty()) return;
    VeilContext veil_context;
    veil_context.fraction.fill(1.0F);
    rtcInitIntersectContext(&veil_context.base);
    veil_context.base.flags = RTC_INTERSECT_CONTEXT_FLAG_COHERENT;
    rtcOccluded16(valid.data(), veils, &veil_context.base, &rays);
    for (size_t lane = 0; lane < count; ++lane) fraction[lane] *= veil_context.fraction[lane];
  }
};

Scene::Scene(const Site& site, Leaves leaves) : Scene{site, leaves, geom::Mesh{}} {}

Scene::Scene(const Site& site, Leaves leaves, const geom::Mesh& visitor) : impl_{std::make_unique<Impl>()} {
  impl_->add_solid(terrain_mesh(site));
  geom::Mesh all;
  for (size_t i = 0; i < site.solids.size(); ++i) {
    all.append(solid_mesh(site.terrain, site.solids[i]));
    impl_->solid_of.resize(all.triangles.size(), static_cast<int>(i));
  }
  impl_->solids_geometry = impl_->add_solid(all);
  impl_->visitor_geometry = impl_->add_solid(visitor);
  impl_->veil_fractions.reserve(site.veils.size());
  for (const Veil& veil : site.veils) {
    impl_->veil_fractions.push_back(static_cast<float>(fraction_per_crossing(veil, leaves)));
    impl_->add_veil(veil_mesh(site.terrain, veil), &impl_->veil_fractions.back(),
                    static_cast<int>(impl_->veil_fractions.size()) - 1);
  }
  rtcCommitScene(impl_->solids);
  rtcCommitScene(impl_->veils);
}

Scene::~Scene() = default;
Scene::Scene(Scene&&) noexcept = default;
Scene& Scene::operator=(Scene&&) noexcept = default;

void Scene::passed_from(geom::SitePoint eye_site, const Targets& targets, std::span<float> fraction) const {
  alignas(64) RTCRay16 rays;
  set_eye(rays, eye_site);
  const size_t whole = fraction.size() - fraction.size() % kPacket;
  for (size_t first = 0; first < whole; first += kPacket) {
    aim(rays, &targets.x[first], &targets.y[first], &targets.z[first]);
    impl_->passed_packet(rays, kPacket, &fraction[first]);
  }
  if (whole == fraction.size()) return;
  const auto x = filled_up(targets.x.subspan(whole)), y = filled_up(targets.y.subspan(whole)),
             z = filled_up(targets.z.subspan(whole));
  aim(rays, x.data(), y.data(), z.data());
  impl_->passed_packet(rays, fraction.size() - whole, &fraction[whole]);
}

double Scene::passed(const Sightline& sightline) const { return static_cast<double>(impl_->passed_one(sightline)); }

std::optional<Hit> Scene::first_solid(geom::SitePoint from_site, geom::Vec3 direction, Length farthest) const {
  RTCRayHit query = ray_along(from_site, direction, farthest);
  RTCIntersectContext context;
  rtcInitIntersectContext(&context);
  rtcIntersect1(impl_->solids, &context, &query);
  if (query.hit.geomID == RTC_INVALID_GEOMETRY_ID) return std::nullopt;
  Hit hit{static_cast<double>(query.ray.tfar), normal_of(query, direction), -1};
  if (query.hit.geomID == impl_->solids_geometry) hit.solid = impl_->solid_of[query.hit.primID];
  if (query.hit.geomID == impl_->visitor_geometry) {
    hit.solid = kVisitor;
    hit.triangle = static_cast<int>(query.hit.primID);
    hit.second = static_cast<double>(query.hit.u);
    hit.third = static_cast<double>(query.hit.v);
  }
  return hit;
}

std::optional<VeilHit> Scene::first_veil(geom::SitePoint from_site, geom::Vec3 direction, Length farthest) const {
  if (impl_->veil_fractions.empty()) return std::nullopt;
  RTCRayHit query = ray_along(from_site, direction, farthest);
  RTCIntersectContext context;
  rtcInitIntersectContext(&context);
  rtcIntersect1(impl_->veils, &context, &query);
  if (query.hit.geomID == RTC_INVALID_GEOMETRY_ID) return std::nullopt;
  const int veil = impl_->veil_of[query.hit.geomID];
  return VeilHit{static_cast<double>(query.ray.tfar),
                 static_cast<double>(impl_->veil_fractions[static_cast<size_t>(veil)]), veil};
}

}  // namespace sightfall::site
