// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/beyond.h"

#include <algorithm>
#include <cmath>

#include "base/check.h"
#include "camera/mask.h"
#include "geom/segment.h"
#include "need/window.h"

namespace sightfall::loads {
namespace {

using geom::PlanPoint;
using geom::SitePoint;
using geom::Vec3;
using need::Station;

constexpr int kBlock = 10;  // cells from side to side of a block

double cell_px(const camera::Projector& projector) { return static_cast<double>(projector.columns) / kCells; }

bool box_within(const geom::Outline& outline, const geom::Box2& box) {
  if (!geom::contains(outline, box.centre())) return false;
  const geom::Ring& ring = outline.outer;
  for (size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++)
    if (geom::part_within(ring[j], ring[i], box)) return false;
  return true;
}

/// Of solids of which it is soon told.
bool is_convex(const site::Solid& solid) {
  if (solid.kind == site::SolidKind::kBox) return true;
  if (solid.kind != site::SolidKind::kBuilding || !solid.openings.empty() || !solid.outline.holes.empty()) return false;
  const geom::Ring& ring = solid.outline.outer;
  bool left = false, right = false;
  for (size_t i = 0; i < ring.size(); ++i) {
    const PlanPoint a = ring[i], b = ring[(i + 1) % ring.size()], c = ring[(i + 2) % ring.size()];
    const double turn = cross(b - a, c - b);
    left = left || turn > 0, right = right || turn < 0;
  }
  return !(left && right);
}

}  // namespace

/// A camera that looks.
struct Beyond::Look {
  const Station& station;
  geom::Mat3 to_site;
  Length farthest;  // twice what is reached on the axis: a point aside is farther than it is deep

  Look(const Station& of, PixelDensity faintest)
      : station{of},
        to_site{transposed(of.pose.camera_from_site)},
        farthest{2 * (Pixels{of.lens.projector.focal_px} / faintest)} {}
  SitePoint eye() const { return station.pose.eye_site; }
};

Beyond::Beyond(const need::Project& project, const site::Scene& scene, const std::vector<Station>& stations)
    : scene_{scene}, own_{project.site.boundary, {}}, faintest_{need::faintest(project.settings.levels)} {
  const std::vector<double>& heights = project.site.terrain.heights;
  if (!project.site.terrain.flat()) {
    lowest_ = *std::min_element(heights.begin(), heights.end());
    highest_ = *std::max_element(heights.begin(), heights.end());
  }
  for (const site::Solid& solid : project.site.solids)
    convex_.push_back(project.site.terrain.flat() && is_convex(solid) ? 1 : 0);
  const auto same = [](const camera::Projector& projector) {
    return [&](const auto& picture) { return picture.first == projector; };
  };
  for (const Station& station : stations) {
    const camera::Projector& projector = station.lens.projector;
    if (std::none_of(pictures_.begin(), pictures_.end(), same(projector)))
      pictures_.emplace_back(projector, blocks_of(projector));
  }
}

std::vector<Beyond::Block> Beyond::blocks_of(const camera::Projector& p) {
  const double cell = cell_px(p);
  const int rows = std::max(1, static_cast<int>(std::ceil(p.rows / cell)));
  std::vector<Block> blocks;
  for (int top = 0; top < rows; top += kBlock)
    for (int left = 0; left < kCells; left += kBlock) {
      const int below = std::min(top + kBlock, rows), right = std::min(left + kBlock, kCells);
      Block block;
      for (int row = top; row < below; ++row)
        for (int column = left; column < right; ++column) {
          const geom::ImagePoint at{(column + 0.5) * cell - 0.5, (row + 0.5) * cell - 0.5};
          const auto ray = camera::ray_camera(p, at);
          if (ray && camera::in_picture(p, at)) block.cells.push_back({at, *ray});
        }
      if (block.cells.empty()) continue;
      // Half a cell beyond its outermost rays: over so small a block a lens bends a line by a third of that at the
      // most.
      std::array<Vec3, 4> corners;
      bool all = true;
      for (size_t i = 0; i < 4; ++i) {
        const auto ray =
            camera::ray_camera(p, {(i % 2 == 0 ? left : right) * cell - 0.5, (i < 2 ? top : below) * cell - 0.5});
        all = all && ray;
        if (ray) corners.at(i) = *ray;
      }
      if (all) block.corners = corners;
      blocks.push_back(std::move(block));
    }
  return blocks;
}

/// Whether some of its rays may come down beyond the boundary. The ground that they reach lies between its lowest and
/// its highest height, so in plan between the ends of what is there of the rays at the corners.
bool Beyond::may_show_others(const Look& look, const Block& block) const {
  if (!block.corners) return true;
  constexpr double kBulge = 1.02;  // rays of one length end on a sphere, which lies beyond the corners' ends
  const double longest = kBulge * look.farthest.si();
  const SitePoint eye = look.eye();
  std::array<Vec3, 4> towards;
  std::transform(block.corners->begin(), block.corners->end(), towards.begin(),
                 [&](Vec3 ray) { return look.to_site * ray; });
  const bool any_down = std::any_of(towards.begin(), towards.end(), [](Vec3 way) { return way.z < 0; });
  if (!any_down && eye.z >= highest_) return false;
  geom::Box2 box;
  for (const Vec3& way : towards) {
    double from = 0, upto = longest;
    if (way.z < 0) {
      from = std::clamp((eye.z - highest_) / -way.z, 0.0, longest);
      upto = std::clamp((eye.z - lowest_) / -way.z, 0.0, longest);
    }
    box.include(plan(eye + from * way));
    box.include(plan(eye + upto * way));
  }
  return !box_within(own_, box);
}

/// Adds a cell's ground, unless it is the user's own or so faint that it is not told.
bool Beyond::add_ground(const Look& look, SitePoint ground, GroundSeen& seen) const {
  if (geom::contains(own_, plan(ground))) return false;
  const Station& station = look.station;
  const PlanPoint back = plan(look.eye() - ground);
  const double level = norm(back);
  const PixelDensity density{need::density_upright(station, ground, level > 0 ? (1 / level) * back : PlanPoint{0, 1})};
  if (density < faintest_) return false;
  seen.density = std::max(seen.density, density);
  const camera::Projector& p = station.lens.projector;
  const geom::Mat3& turned = station.pose.camera_from_site;
  const auto flat = camera::surface_density(camera::jacobian(p, turned * (ground - look.eye())), turned * Vec3{1, 0, 0},
                                            turned * Vec3{0, 1, 0});
  const double cell = cell_px(p);
  if (flat.determinant > 0) seen.area = seen.area + Area{cell * cell / flat.determinant};
  return true;
}

void Beyond::look_through(const Look& look, const Block& block, GroundSeen& seen, MaskFrame& frame) const {
  const camera::Projector& p = look.station.lens.projector;
  std::vector<float> x, y, z;
  std::vector<std::pair<geom::ImagePoint, Vec3>> looked;
  for (const Cell& cell : block.cells) {
    if (camera::masked(look.station.masks, p, cell.at)) continue;
    const Vec3 towards = look.to_site * cell.in_camera;
    x.push_back(static_cast<float>(towards.x));
    y.push_back(static_cast<float>(towards.y));
    z.push_back(static_cast<float>(towards.z));
    looked.emplace_back(cell.at, towards);
  }
  site::Hits hits;
  scene_.first_solids(look.eye(), {x, y, z}, look.farthest, site::Meets::kStanding, hits);
  for (size_t i = 0; i < looked.size(); ++i) {
    const auto& [at, towards] = looked[i];
    if (hits.distance[i] == site::Hits::kNothing || scene_.solid_hit(hits, i, towards).solid != -1) continue;
    const SitePoint ground = look.eye() + static_cast<double>(hits.distance[i]) * towards;
    if (add_ground(look, ground, seen)) frame.include(at, cell_px(p) / 2);
  }
}

/// Whether one convex solid is the first that the rays at the corners meet. What of it stands above even ground is
/// convex, too, and so are the directions in which it stands.
bool Beyond::hidden_by_one(const Look& look, const Block& block) const {
  if (!block.corners) return false;
  int solid = -1;
  for (const Vec3& ray : *block.corners) {
    const auto hit = scene_.first_solid(look.eye(), look.to_site * ray, look.farthest);
    if (!hit || hit->solid < 0 || convex_[static_cast<size_t>(hit->solid)] == 0) return false;
    if (solid >= 0 && hit->solid != solid) return false;
    solid = hit->solid;
  }
  return true;
}

std::optional<GroundSeen> Beyond::seen_by(const Station& station) const {
  const camera::Projector& p = station.lens.projector;
  const auto picture =
      std::find_if(pictures_.begin(), pictures_.end(), [&](const auto& one) { return one.first == p; });
  CHECK_EQ(picture != pictures_.end(), true);
  const Look look{station, faintest_};
  GroundSeen seen;
  MaskFrame frame(p);
  for (const Block& block : picture->second)
    if (may_show_others(look, block) && !hidden_by_one(look, block)) look_through(look, block, seen, frame);
  if (seen.density <= PixelDensity{0}) return std::nullopt;
  seen.mask = frame.mask("beyond the boundary");
  return seen;
}

}  // namespace sightfall::loads
