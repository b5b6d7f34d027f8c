// SPDX-License-Identifier: GPL-3.0-or-later
#include "bare_picture.h"

#include <embree3/rtcore.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <mutex>

#include "site/ground.h"
#include "stopwatch.h"
#include "walk/between.h"
#include "walk/shade.h"

namespace sightfall::bench {
namespace {

using geom::Vec3;

constexpr size_t kPacket = 16;

/// A scene of the site's ground and solids, as site/scene.cpp makes it.
struct Bare {
  RTCDevice device = rtcNewDevice(nullptr);
  RTCScene scene = rtcNewScene(device);

  explicit Bare(const site::Site& site) {
    rtcSetSceneFlags(scene, RTC_SCENE_FLAG_ROBUST);
    add(site::terrain_mesh(site));
    geom::Mesh solids;
    for (const site::Solid& solid : site.solids) solids.append(site::solid_mesh(site.terrain, solid));
    add(solids);
    rtcCommitScene(scene);
  }
  ~Bare() {
    rtcReleaseScene(scene);
    rtcReleaseDevice(device);
  }
  Bare(const Bare&) = delete;
  Bare& operator=(const Bare&) = delete;

  void add(const geom::Mesh& mesh) const {
    if (mesh.triangles.empty()) return;
    RTCGeometry geometry = rtcNewGeometry(device, RTC_GEOMETRY_TYPE_TRIANGLE);
    auto* v = static_cast<float*>(rtcSetNewGeometryBuffer(geometry, RTC_BUFFER_TYPE_VERTEX, 0, RTC_FORMAT_FLOAT3,
                                                          3 * sizeof(float), mesh.vertices.size()));
    for (const Vec3& p : mesh.vertices)
      for (const double c : {p.x, p.y, p.z}) *v++ = static_cast<float>(c);
    auto* t = static_cast<uint32_t*>(rtcSetNewGeometryBuffer(geometry, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3,
                                                             3 * sizeof(uint32_t), mesh.triangles.size()));
    for (const auto& triangle : mesh.triangles) t = std::copy(triangle.begin(), triangle.end(), t);
    rtcCommitGeometry(geometry);
    rtcAttachGeometry(scene, geometry);
    rtcReleaseGeometry(geometry);
  }
};

/// Rays laid out in packets.
template <class Packet>
struct Laid {
  struct One {
    alignas(64) std::array<int, kPacket> valid{};
    Packet rays;
  };
  std::vector<One> packets;
  size_t count = 0;

  RTCRay16& ray_of(One& one) {
    if constexpr (std::is_same_v<Packet, RTCRayHit16>)
      return one.rays.ray;
    else
      return one.rays;
  }
  void add(Vec3 from, Vec3 way, float near, float far) {
    const size_t lane = count++ % kPacket;
    if (lane == 0) packets.emplace_back();
    packets.back().valid[lane] = -1;
    if constexpr (std::is_same_v<Packet, RTCRayHit16>) packets.back().rays.hit.geomID[lane] = RTC_INVALID_GEOMETRY_ID;
    RTCRay16& ray = ray_of(packets.back());
    ray.org_x[lane] = static_cast<float>(from.x), ray.dir_x[lane] = static_cast<float>(way.x);
    ray.org_y[lane] = static_cast<float>(from.y), ray.dir_y[lane] = static_cast<float>(way.y);
    ray.org_z[lane] = static_cast<float>(from.z), ray.dir_z[lane] = static_cast<float>(way.z);
    ray.tnear[lane] = near, ray.tfar[lane] = far;
    ray.time[lane] = 0, ray.mask[lane] = 0xFFFFFFFF, ray.id[lane] = static_cast<unsigned>(lane), ray.flags[lane] = 0;
  }
  template <class Trace>
  double traced(Trace trace) {
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    context.flags = RTC_INTERSECT_CONTEXT_FLAG_COHERENT;
    const Stopwatch watch;
    for (One& one : packets) trace(one.valid.data(), &context, &one.rays);
    return watch.seconds();
  }
};

}  // namespace

BareTimes bare_picture(const site::Site& site, const walk::Stage& stage, const need::Station& station) {
  const Bare bare{site};
  const walk::Shade shade{stage.lighting(), station};
  const camera::Projector& p = station.lens.projector;
  const Vec3 eye = station.pose.eye_site;
  const int across = (p.columns + walk::kTile - 1) / walk::kTile, down = (p.rows + walk::kTile - 1) / walk::kTile;
  BareTimes all;
  std::mutex adding;
  tbb::parallel_for(0, across * down, [&](int tile) {
    Laid<RTCRayHit16> primary;
    std::vector<Vec3> ways;
    for (int place = 0; place < walk::kTile * walk::kTile; ++place) {
      const int column = tile % across * walk::kTile + walk::column_of(static_cast<walk::Place>(place));
      const int row = tile / across * walk::kTile + walk::row_of(static_cast<walk::Place>(place));
      if (column >= p.columns || row >= p.rows) continue;
      const auto ray = camera::ray_camera(p, {static_cast<double>(column), static_cast<double>(row)});
      if (!ray) continue;
      ways.push_back(geom::transposed(station.pose.camera_from_site) * *ray);
      primary.add(eye, ways.back(), 0, static_cast<float>(need::kFarthest.si()));
    }
    BareTimes here;
    here.primary_rays = static_cast<double>(primary.count);
    here.primary = primary.traced([&](const int* valid, RTCIntersectContext* context, RTCRayHit16* rays) {
      rtcIntersect16(valid, bare.scene, context, rays);
    });
    std::vector<Laid<RTCRay16>> shadows(shade.source_count());
    std::vector<float> values(shade.value_count());
    for (const Vec3 way : ways) {
      const auto hit = stage.scene().first_solid(eye, way, need::kFarthest, site::Meets::kStanding);
      if (!hit) continue;
      shade.surface({way, hit->distance, hit->normal}, stage.coat(*hit), shade.sources(), values);
      const geom::SitePoint off = need::off_surface(eye + hit->distance * way, hit->normal);
      for (size_t source = 0; source < shade.source_count(); ++source) {
        if (values[walk::Shade::value(source)] <= shade.floor()) continue;
        const auto from = shade.sets_out(source, off, hit->normal);
        if (from) shadows[source].add(*from, off - *from, 1e-4F, 0.9999F);
      }
    }
    for (auto& one : shadows) {
      here.shadow_rays += static_cast<double>(one.count);
      here.shadows += one.traced([&](const int* valid, RTCIntersectContext* context, RTCRay16* rays) {
        rtcOccluded16(valid, bare.scene, context, rays);
      });
    }
    const std::lock_guard lock{adding};
    all.primary += here.primary, all.shadows += here.shadows;
    all.primary_rays += here.primary_rays, all.shadow_rays += here.shadow_rays;
  });
  return all;
}

}  // namespace sightfall::bench
