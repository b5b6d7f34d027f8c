// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/mount_place.h"

#include <fmt/format.h>

#include <optional>

#include "geom/segment.h"
#include "need/words.h"
#include "papers/tape.h"
#include "papers/told.h"

namespace sightfall::papers {
namespace {

using geom::PlanPoint;

struct OnWall {
  double off = kArm.si();  ///< metres from the mount to the wall
  std::string words;
};

/// The nearer end of a wall from `a` to `b` that has a name, and how far along the wall it is from the mount.
std::optional<std::pair<TapePoint, Length>> nearer_end(const std::vector<TapePoint>& named, PlanPoint a, PlanPoint b,
                                                       PlanPoint mount) {
  const PlanPoint foot = geom::nearest_on_segment(mount, a, b);
  std::optional<std::pair<TapePoint, Length>> nearer;
  for (const TapePoint& one : named) {
    if (one.at != a && one.at != b) continue;
    const Length along{geom::norm(foot - one.at)};
    if (!nearer || along < nearer->second) nearer = {one, along};
  }
  return nearer;
}

/// Which of a building's walls that is, seen from its inside; nothing where the wall has no name.
std::string side_of_wall(const geom::Outline& outline, PlanPoint a, PlanPoint b) {
  constexpr double kStep = 0.01;  // m
  const PlanPoint along = b - a, middle = 0.5 * (a + b);
  PlanPoint out{along.y, -along.x};
  if (geom::contains(outline, middle + (kStep / geom::norm(out)) * out)) out = {-out.x, -out.y};
  return std::string(geom::compass_side(out));
}

void look_at(const site::Solid& solid, const std::vector<TapePoint>& named, const site::Mount& mount, need::Units units,
             OnWall& nearest) {
  const bool building = solid.kind == site::SolidKind::kBuilding;
  const geom::Ring& corners = building ? solid.outline.outer : solid.line;
  for (size_t i = building ? 0 : 1; i < corners.size(); ++i) {
    const PlanPoint a = corners[i > 0 ? i - 1 : corners.size() - 1], b = corners[i];
    const double off = geom::distance_to_segment(mount.at, a, b);
    if (off >= nearest.off) continue;
    const auto end = nearer_end(named, a, b, mount.at);
    if (!end) continue;
    nearest = {off, fmt::format("{} from {}, along {}", need::measured_words(end->second, units), end->first.name,
                                building ? "its " + side_of_wall(solid.outline, a, b) + " wall" : "it")};
    if (building && geom::contains(solid.outline, mount.at)) nearest.words += ", inside";
  }
}

}  // namespace

std::string mount_place_words(const need::Project& project, const site::Mount& mount, const site::Scene& in_leaf) {
  const std::vector<TapePoint> fixed = fixed_points(project.site);
  OnWall nearest;
  for (const site::Solid& solid : project.site.solids)
    if (solid.kind == site::SolidKind::kBuilding || solid.kind == site::SolidKind::kWall)
      look_at(solid, fixed, mount, project.settings.units, nearest);
  if (!nearest.words.empty()) return nearest.words;
  return (mount.pole ? "the pole's middle " : "") + tape_words(fixed, in_leaf, mount.at, project);
}

}  // namespace sightfall::papers
