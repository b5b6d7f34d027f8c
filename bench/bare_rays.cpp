// SPDX-License-Identifier: GPL-3.0-or-later
#include "bare_rays.h"

#include <embree3/rtcore.h>

#include <algorithm>
#include <array>

#include "site/ground.h"
#include "stopwatch.h"

namespace sightfall::bench {
namespace {

constexpr size_t kPacket = 16, kStream = 256;
constexpr float kNear = 1e-4F, kFar = 0.9999F;

struct Packet {
  alignas(64) std::array<int, kPacket> valid;
  RTCRay16 rays;
};

RTCIntersectContext coherent() {
  RTCIntersectContext context;
  rtcInitIntersectContext(&context);
  context.flags = RTC_INTERSECT_CONTEXT_FLAG_COHERENT;
  return context;
}

RTCRay ray_of(geom::SitePoint eye, geom::SitePoint target) {
  RTCRay ray{};
  ray.org_x = static_cast<float>(eye.x);
  ray.org_y = static_cast<float>(eye.y);
  ray.org_z = static_cast<float>(eye.z);
  ray.dir_x = static_cast<float>(target.x) - ray.org_x;
  ray.dir_y = static_cast<float>(target.y) - ray.org_y;
  ray.dir_z = static_cast<float>(target.z) - ray.org_z;
  ray.tnear = kNear;
  ray.tfar = kFar;
  ray.mask = 0xFFFFFFFF;
  return ray;
}

std::vector<Packet> packets_of(const std::vector<RTCRay>& rays) {
  std::vector<Packet> packets((rays.size() + kPacket - 1) / kPacket);
  for (size_t p = 0; p < packets.size(); ++p)
    for (size_t lane = 0; lane < kPacket; ++lane) {
      const size_t i = std::min(p * kPacket + lane, rays.size() - 1);
      packets[p].valid[lane] = p * kPacket + lane < rays.size() ? -1 : 0;
      RTCRay16& to = packets[p].rays;
      to.org_x[lane] = rays[i].org_x;
      to.org_y[lane] = rays[i].org_y;
      to.org_z[lane] = rays[i].org_z;
      to.dir_x[lane] = rays[i].dir_x;
      to.dir_y[lane] = rays[i].dir_y;
      to.dir_z[lane] = rays[i].dir_z;
      to.tnear[lane] = kNear;
      to.tfar[lane] = kFar;
      to.time[lane] = 0;
      to.mask[lane] = 0xFFFFFFFF;
      to.id[lane] = static_cast<unsigned>(lane);
      to.flags[lane] = 0;
    }
  return packets;
}

}  // namespace

struct BareRays::Impl {
  RTCDevice device = rtcNewDevice(nullptr);
  RTCScene scene = rtcNewScene(device);

  void add(const geom::Mesh& mesh) const {
    if (mesh.triangles.empty()) return;
    RTCGeometry geometry = rtcNewGeometry(device, RTC_GEOMETRY_TYPE_TRIANGLE);
    auto* v = static_cast<float*>(rtcSetNewGeometryBuffer(geometry, RTC_BUFFER_TYPE_VERTEX, 0, RTC_FORMAT_FLOAT3,
                                                          3 * sizeof(float), mesh.vertices.size()));
    for (const geom::Vec3& p : mesh.vertices)
      for (const double c : {p.x, p.y, p.z}) *v++ = static_cast<float>(c);
    auto* t = static_cast<uint32_t*>(rtcSetNewGeometryBuffer(geometry, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3,
                                                             3 * sizeof(uint32_t), mesh.triangles.size()));
    for (const auto& triangle : mesh.triangles) t = std::copy(triangle.begin(), triangle.end(), t);
    rtcCommitGeometry(geometry);
    rtcAttachGeometry(scene, geometry);
    rtcReleaseGeometry(geometry);
  }
};

BareRays::BareRays(const site::Site& site) : impl_{std::make_unique<Impl>()} {
  rtcSetSceneFlags(impl_->scene, RTC_SCENE_FLAG_ROBUST);
  impl_->add(site::terrain_mesh(site));
  geom::Mesh solids;
  for (const site::Solid& solid : site.solids) solids.append(site::solid_mesh(site.terrain, solid));
  impl_->add(solids);
  rtcCommitScene(impl_->scene);
}

BareRays::~BareRays() {
  rtcReleaseScene(impl_->scene);
  rtcReleaseDevice(impl_->device);
}

double BareRays::Times::best() const {
  double least = packets;
  if (streams > 0) least = std::min(least, streams);
  if (single > 0) least = std::min(least, single);
  return least;
}

void BareRays::add(geom::SitePoint eye, const std::vector<geom::SitePoint>& targets, bool packets_alone,
                   Times& times) const {
  if (targets.empty()) return;
  std::vector<RTCRay> rays;
  rays.reserve(targets.size());
  for (const geom::SitePoint& target : targets) rays.push_back(ray_of(eye, target));
  std::vector<Packet> packets = packets_of(rays);
  {
    RTCIntersectContext context = coherent();
    const Stopwatch watch;
    for (Packet& packet : packets) rtcOccluded16(packet.valid.data(), impl_->scene, &context, &packet.rays);
    times.packets += watch.seconds();
  }
  if (packets_alone) return;
  std::vector<RTCRay> again = rays;
  {
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    const Stopwatch watch;
    for (size_t i = 0; i < rays.size(); i += kStream)
      rtcOccluded1M(impl_->scene, &context, &rays[i], static_cast<unsigned>(std::min(kStream, rays.size() - i)),
                    sizeof(RTCRay));
    times.streams += watch.seconds();
  }
  RTCIntersectContext context;
  rtcInitIntersectContext(&context);
  const Stopwatch watch;
  for (RTCRay& ray : again) rtcOccluded1(impl_->scene, &context, &ray);
  times.single += watch.seconds();
}

}  // namespace sightfall::bench
