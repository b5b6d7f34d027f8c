// SPDX-License-Identifier: GPL-3.0-or-later
#include "geom/section.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <map>
#include <optional>
#include <utility>

namespace sightfall::geom {
namespace {

/// An edge of the mesh, by its ends, the smaller first: where lines of neighbouring triangles meet.
using Edge = std::pair<uint32_t, uint32_t>;

struct Cut {
  Edge edge;
  PlanPoint at;
};

/// A triangle's line: from one of its edges to another.
using Line = std::array<Cut, 2>;

/// For each vertex the first one at the same place: meshes of flat sides have corners several times.
std::vector<uint32_t> welded(const std::vector<Vec3>& vertices) {
  std::map<std::array<double, 3>, uint32_t> first;
  std::vector<uint32_t> result;
  result.reserve(vertices.size());
  for (const Vec3& v : vertices)
    result.push_back(first.try_emplace({v.x, v.y, v.z}, static_cast<uint32_t>(result.size())).first->second);
  return result;
}

/// The piece of a line between two distances, or nothing.
std::optional<std::pair<PlanPoint, PlanPoint>> within(PlanPoint a, PlanPoint b, double reach) {
  if ((a.x < 0 && b.x < 0) || (a.x > reach && b.x > reach)) return std::nullopt;
  const auto at = [&](double x) { return PlanPoint{x, a.y + (x - a.x) / (b.x - a.x) * (b.y - a.y)}; };
  const auto held = [&](PlanPoint p) { return p.x < 0 ? at(0) : p.x > reach ? at(reach) : p; };
  return std::pair{held(a), held(b)};
}

/// Joins lines that share an edge of the mesh.
std::vector<std::vector<PlanPoint>> joined(const std::vector<Line>& lines) {
  std::map<Edge, std::vector<size_t>> at;
  for (size_t i = 0; i < lines.size(); ++i)
    for (const Cut& cut : lines[i]) at[cut.edge].push_back(i);
  std::vector<char> used(lines.size(), 0);
  const auto next = [&](Edge edge) -> std::optional<size_t> {
    for (const size_t i : at[edge])
      if (used[i] == 0) return i;
    return std::nullopt;
  };
  std::vector<std::vector<PlanPoint>> chains;
  for (size_t first = 0; first < lines.size(); ++first) {
    if (used[first] != 0) continue;
    used[first] = 1;
    std::vector<PlanPoint> chain{lines[first][0].at, lines[first][1].at};
    for (const bool ahead : {true, false}) {
      Edge end = lines[first][ahead ? 1 : 0].edge;
      while (const auto i = next(end)) {
        used[*i] = 1;
        const Cut& far = lines[*i][lines[*i][0].edge == end ? 1 : 0];
        chain.insert(ahead ? chain.end() : chain.begin(), far.at);
        end = far.edge;
      }
    }
    chains.push_back(std::move(chain));
  }
  return chains;
}

}  // namespace

std::vector<Polyline> section(const Mesh& mesh, PlanPoint origin, PlanPoint direction, double reach) {
  const PlanPoint across{-direction.y, direction.x};
  std::vector<double> side;  // of the plane
  side.reserve(mesh.vertices.size());
  for (const Vec3& v : mesh.vertices) side.push_back(dot(plan(v) - origin, across));
  const std::vector<uint32_t> same = welded(mesh.vertices);
  std::vector<Line> lines;
  for (const auto& triangle : mesh.triangles) {
    std::array<Cut, 2> cuts;
    size_t count = 0;
    for (size_t k = 0; k < 3; ++k) {
      const uint32_t i = same[triangle[k]], j = same[triangle[(k + 1) % 3]];
      // What touches the plane lies on its left, so that each way through is counted once.
      if ((side[i] < 0) == (side[j] < 0)) continue;
      const double share = side[i] / (side[i] - side[j]);
      const Vec3 at = mesh.vertices[i] + share * (mesh.vertices[j] - mesh.vertices[i]);
      cuts[count++] = {std::minmax(i, j), {dot(plan(at) - origin, direction), at.z}};
    }
    if (count == 2) lines.push_back(cuts);
  }
  std::vector<Polyline> result;
  for (const std::vector<PlanPoint>& chain : joined(lines)) {
    Polyline part;
    const auto finish = [&] {
      if (part.points.size() > 1) result.push_back(part);
      part.points.clear();
    };
    for (size_t i = 0; i + 1 < chain.size(); ++i) {
      const auto piece = within(chain[i], chain[i + 1], reach);
      if (!piece) {
        finish();
        continue;
      }
      if (part.points.empty() || norm(part.points.back() - piece->first) > 0) {
        if (!part.points.empty()) finish();
        part.points.push_back(piece->first);
      }
      part.points.push_back(piece->second);
    }
    finish();
  }
  return result;
}

}  // namespace sightfall::geom
