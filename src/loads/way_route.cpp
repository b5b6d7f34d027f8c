// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <limits>
#include <queue>

#include "base/check.h"
#include "loads/way_graph.h"

namespace sightfall::loads {
namespace {

using geom::SitePoint;

constexpr double kFar = std::numeric_limits<double>::infinity();

void extend(std::vector<SitePoint>& line, SitePoint point) {
  if (line.empty() || line.back() != point) line.push_back(point);
}

/// Up or down at the end that lies on no way, so over at the way's height.
Leg open_leg(SitePoint end, SitePoint foot) {
  Leg leg{nullptr, {}, Length{over_and_up(end, foot)}, Length{norm(plan(foot) - plan(end))}};
  for (const SitePoint point : {end, SitePoint{end.x, end.y, foot.z}, foot}) extend(leg.line, point);
  return leg;
}

}  // namespace

/// Shortest ways from one end to all nodes (Dijkstra). With lines that must be taken in order, a state is a node and
/// how many of them have been left; without, there is one layer and every line may be taken.
class WayGraph::Search {
 public:
  Search(const WayGraph& graph, const std::vector<Foot>& start, const std::vector<size_t>& lines)
      : graph_{graph},
        start_{start},
        lines_{lines},
        layers_{std::max<size_t>(1, lines.size())},
        states_(layers_ * graph.nodes_.size()) {
    for (size_t i = 0; i < start.size(); ++i) enter(i);
    while (!open_.empty()) {
      const auto [cost, state] = open_.top();
      open_.pop();
      if (cost <= states_[state].cost) leave(state);
    }
  }

  /// The points on lines that lead to a foot of the other end, and what they cost.
  struct Found {
    double cost = kFar;
    size_t state = kNone;  ///< none: along one line from foot to foot
    size_t start = 0, end = 0;
  };
  Found best(const std::vector<Foot>& feet) const {
    Found best;
    const auto offer = [&](const Found& found) {
      if (found.cost < best.cost) best = found;
    };
    for (size_t end = 0; end < feet.size(); ++end) {
      const Foot& foot = feet[end];
      if (!allowed(foot.line, layers_ - 1)) continue;
      if (layers_ == 1)
        for (size_t start = 0; start < start_.size(); ++start)
          if (start_[start].line == foot.line)
            offer({start_[start].cost + foot.cost + std::abs(start_[start].metres - foot.metres), kNone, start, end});
      for (const size_t node : around(foot)) {
        const size_t state = (layers_ - 1) * graph_.nodes_.size() + node;
        offer({states_[state].cost + std::abs(graph_.nodes_[node].metres - foot.metres) + foot.cost, state, 0, end});
      }
    }
    return best;
  }

  /// Nodes on the way to a state, in order, and the foot that they start at.
  std::pair<std::vector<size_t>, size_t> way_to(size_t state) const {
    std::vector<size_t> nodes;
    size_t foot = 0;
    while (state != kNone) {
      nodes.push_back(state % graph_.nodes_.size());
      foot = states_[state].foot;
      state = states_[state].from;
    }
    std::reverse(nodes.begin(), nodes.end());
    return {nodes, foot};
  }

 private:
  struct State {
    double cost = kFar;
    size_t from = kNone;
    size_t foot = 0;
  };

  bool allowed(size_t line, size_t layer) const { return lines_.empty() || lines_[layer] == line; }

  std::vector<size_t> around(const Foot& foot) const {
    const std::vector<size_t>& nodes = graph_.lines_[foot.line].nodes;
    const auto after = std::partition_point(nodes.begin(), nodes.end(),
                                            [&](size_t node) { return graph_.nodes_[node].metres < foot.metres; });
    std::vector<size_t> result;
    if (after != nodes.end()) result.push_back(*after);
    if (after != nodes.begin()) result.push_back(*(after - 1));
    return result;
  }

  void enter(size_t i) {
    const Foot& foot = start_[i];
    if (!allowed(foot.line, 0)) return;
    for (const size_t node : around(foot))
      relax(node, {foot.cost + std::abs(graph_.nodes_[node].metres - foot.metres), kNone, i});
  }

  void leave(size_t state) {
    const size_t count = graph_.nodes_.size(), layer = state / count, at = state % count;
    const Node& node = graph_.nodes_[at];
    const State here = states_[state];
    for (const size_t next : {node.before, node.after})
      if (next != kNone)
        relax(layer * count + next, {here.cost + std::abs(graph_.nodes_[next].metres - node.metres), state, here.foot});
    const size_t other = at ^ 1U, to_layer = lines_.empty() ? 0 : layer + 1;
    if (to_layer < layers_ && allowed(graph_.nodes_[other].line, to_layer))
      relax(to_layer * count + other, {here.cost + node.gap, state, here.foot});
  }

  void relax(size_t state, const State& offered) {
    if (offered.cost >= states_[state].cost) return;
    states_[state] = offered;
    open_.emplace(offered.cost, state);
  }

  const WayGraph& graph_;
  const std::vector<Foot>& start_;
  const std::vector<size_t>& lines_;
  size_t layers_;
  std::vector<State> states_;
  std::priority_queue<std::pair<double, size_t>, std::vector<std::pair<double, size_t>>, std::greater<>> open_;
};

/// Legs along ways, drawn as they are gone.
class WayGraph::Tracer {
 public:
  Tracer(const WayGraph& graph, const Foot& start)
      : graph_{graph},
        line_{start.line},
        metres_{start.metres},
        legs_{{graph.lines_[start.line].way, {start.at}, {}, {}}} {}

  void go_to(const Node& node) {
    if (node.line == line_) return go_to(node.metres);
    const SitePoint left = legs_.back().line.back(), on_next = graph_.at(graph_.lines_[node.line], node.metres);
    line_ = node.line;
    metres_ = node.metres;
    legs_.push_back({graph_.lines_[line_].way, {left}, Length{node.gap}, {}});
    extend(legs_.back().line, {left.x, left.y, on_next.z});
    extend(legs_.back().line, on_next);
  }

  void go_to(double metres) {
    const Line& on = graph_.lines_[line_];
    const auto between = [&](size_t i) {
      return on.metres[i] > std::min(metres_, metres) && on.metres[i] < std::max(metres_, metres);
    };
    const size_t count = on.points.size();
    for (size_t k = 0; k < count; ++k) {
      const size_t i = metres > metres_ ? k : count - 1 - k;
      if (between(i)) extend(legs_.back().line, on.points[i]);
    }
    extend(legs_.back().line, graph_.at(on, metres));
    legs_.back().length = legs_.back().length + Length{std::abs(metres - metres_)};
    metres_ = metres;
  }

  const std::vector<Leg>& legs() const { return legs_; }

 private:
  const WayGraph& graph_;
  size_t line_;
  double metres_;
  std::vector<Leg> legs_;
};

Route WayGraph::shortest(SitePoint from, SitePoint to) const { return route(from, to, {}); }

Route WayGraph::along(SitePoint from, SitePoint to, const std::vector<std::string>& names) const {
  std::vector<size_t> lines;
  for (const std::string& name : names)
    if (lines.empty() || lines.back() != line_of(name)) lines.push_back(line_of(name));
  return route(from, to, lines);
}

Route WayGraph::route(SitePoint from, SitePoint to, const std::vector<size_t>& lines) const {
  const std::vector<Foot> starts = feet(from), ends = feet(to);
  const Search search(*this, starts, lines);
  const Search::Found best = search.best(ends);
  if (lines.empty() && priced(from, to) <= best.cost) return {open_leg(from, to)};
  CHECK_LT(best.cost, kFar);

  const auto [nodes, entered] = search.way_to(best.state);
  const Foot &start = starts[best.state == kNone ? best.start : entered], &end = ends[best.end];
  Tracer tracer(*this, start);
  for (const size_t number : nodes) tracer.go_to(nodes_[number]);
  tracer.go_to(end.metres);

  Route route{open_leg(from, start.at)};
  route.insert(route.end(), tracer.legs().begin(), tracer.legs().end());
  Leg last = open_leg(to, end.at);
  std::reverse(last.line.begin(), last.line.end());
  route.push_back(std::move(last));
  return route;
}

}  // namespace sightfall::loads
