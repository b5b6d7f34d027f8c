// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/way_graph.h"

#include <algorithm>

#include "base/check.h"
#include "loads/buildings.h"
#include "site/ground.h"

namespace sightfall::loads {
namespace {

using geom::PlanPoint;
using geom::SitePoint;

/// Share of the way from `a` to `b` at which the segment is closest to a point.
double closest(PlanPoint a, PlanPoint b, PlanPoint to) {
  const PlanPoint along = b - a;
  const double square = dot(along, along);
  return square == 0 ? 0 : std::clamp(dot(to - a, along) / square, 0.0, 1.0);
}

/// Shares along two segments at which they cross.
std::optional<std::pair<double, double>> crossing(PlanPoint a, PlanPoint b, PlanPoint c, PlanPoint d) {
  const PlanPoint u = b - a, v = d - c;
  const double area = cross(u, v);
  if (area == 0) return std::nullopt;
  const double t = cross(c - a, v) / area, s = cross(c - a, u) / area;
  if (t < 0 || t > 1 || s < 0 || s > 1) return std::nullopt;
  return std::pair(t, s);
}

/// Whether a way may be left at this share of one of its segments.
bool may_leave(const site::Way& way, double share) {
  return way.kind != site::WayKind::kOverhead || share == 0 || share == 1;
}

}  // namespace

WayGraph::WayGraph(const site::Site& site) : site_{site} {
  for (const site::Way& way : site.ways) {
    Line line{&way, {}, {0}, {}};
    for (const PlanPoint point : way.line) {
      line.points.push_back(site::above_ground(site.terrain, point, way.height));
      if (line.points.size() > 1)
        line.metres.push_back(line.metres.back() + norm(line.points.back() - line.points[line.points.size() - 2]));
    }
    lines_.push_back(std::move(line));
  }
  for (size_t a = 0; a < lines_.size(); ++a)
    for (size_t b = a + 1; b < lines_.size(); ++b) join(a, b);
  sort_nodes();
}

void WayGraph::join(size_t a, size_t b) {
  const Line &first = lines_[a], &second = lines_[b];
  const auto metres = [](const Line& line, size_t segment, double share) {
    return line.metres[segment] + share * (line.metres[segment + 1] - line.metres[segment]);
  };
  for (size_t i = 0; i + 1 < first.points.size(); ++i)
    for (size_t k = 0; k + 1 < second.points.size(); ++k) {
      const PlanPoint p = plan(first.points[i]), q = plan(first.points[i + 1]);
      const PlanPoint u = plan(second.points[k]), v = plan(second.points[k + 1]);
      const auto offer = [&](double t, double s) {
        const double apart = norm(p + t * (q - p) - (u + s * (v - u)));
        if (apart <= kJoin && may_leave(*first.way, t) && may_leave(*second.way, s))
          add_joint(a, metres(first, i, t), b, metres(second, k, s));
      };
      if (const auto both = crossing(p, q, u, v)) offer(both->first, both->second);
      offer(0, closest(u, v, p));
      offer(1, closest(u, v, q));
      offer(closest(p, q, u), 0);
      offer(closest(p, q, v), 1);
    }
}

void WayGraph::add_joint(size_t a, double metres_a, size_t b, double metres_b) {
  const double gap = over_and_up(at(lines_[a], metres_a), at(lines_[b], metres_b));
  for (const auto& [line, metres] : {std::pair(a, metres_a), std::pair(b, metres_b)}) {
    lines_[line].nodes.push_back(nodes_.size());
    nodes_.push_back({line, metres, gap});
  }
}

void WayGraph::sort_nodes() {
  for (Line& line : lines_) {
    std::stable_sort(line.nodes.begin(), line.nodes.end(),
                     [&](size_t a, size_t b) { return nodes_[a].metres < nodes_[b].metres; });
    for (size_t i = 1; i < line.nodes.size(); ++i) {
      nodes_[line.nodes[i]].before = line.nodes[i - 1];
      nodes_[line.nodes[i - 1]].after = line.nodes[i];
    }
  }
}

SitePoint WayGraph::at(const Line& line, double metres) const {
  const auto next = std::upper_bound(line.metres.begin() + 1, line.metres.end() - 1, metres);
  const auto i = static_cast<size_t>(next - line.metres.begin());
  const double span = line.metres[i] - line.metres[i - 1];
  const double share = span == 0 ? 0 : (metres - line.metres[i - 1]) / span;
  return line.points[i - 1] + share * (line.points[i] - line.points[i - 1]);
}

double WayGraph::priced(SitePoint end, SitePoint foot) const {
  const double over = norm(plan(foot) - plan(end));
  return over_and_up(end, foot) + (kCorner - 1) * std::min(over, kReach) + (kPrice - 1) * std::max(0.0, over - kReach) +
         kPrice * static_cast<double>(walls_passed(site_, {end, foot}).size());
}

std::vector<WayGraph::Foot> WayGraph::feet(SitePoint end) const {
  std::vector<Foot> result;
  for (size_t number = 0; number < lines_.size(); ++number) {
    const Line& line = lines_[number];
    for (size_t i = 0; i + 1 < line.points.size(); ++i) {
      const double share = closest(plan(line.points[i]), plan(line.points[i + 1]), plan(end));
      const bool anywhere = line.way->kind != site::WayKind::kOverhead;
      for (const double t : anywhere ? std::vector{share} : std::vector{0.0, 1.0}) {
        const double metres = line.metres[i] + t * (line.metres[i + 1] - line.metres[i]);
        const SitePoint foot = at(line, metres);
        result.push_back({number, metres, foot, priced(end, foot)});
      }
    }
  }
  return result;
}

size_t WayGraph::line_of(const std::string& name) const {
  const auto found =
      std::find_if(lines_.begin(), lines_.end(), [&](const Line& line) { return line.way->name == name; });
  CHECK_EQ(found != lines_.end(), true);
  return static_cast<size_t>(found - lines_.begin());
}

bool WayGraph::meet(size_t a, size_t b) const {
  return std::any_of(lines_[a].nodes.begin(), lines_[a].nodes.end(),
                     [&](size_t node) { return nodes_[node ^ 1U].line == b; });
}

std::optional<std::pair<std::string, std::string>> WayGraph::gap(const std::vector<std::string>& names) const {
  for (size_t i = 1; i < names.size(); ++i)
    if (names[i] != names[i - 1] && !meet(line_of(names[i - 1]), line_of(names[i])))
      return std::pair(names[i - 1], names[i]);
  return std::nullopt;
}

}  // namespace sightfall::loads
