// SPDX-License-Identifier: GPL-3.0-or-later
// Ways joined to a net, and the shortest route through it.
//   Model    docs/models.md section 9: a way runs straight between its points, each at its height above the ground
//            there. Two ways are joined where they cross, and where a point of one comes within kJoin of the other in
//            plan, with a piece over and a piece up or down. An end goes up or down and over to any way. A metre over
//            counts as kCorner metres up to kReach, so that a way that passes an end is followed up to it; beyond, as
//            kPrice metres, and so does each wall that a piece over goes through, so that a route leaves the ways only
//            where none leads
//   Limits   the ground between two points of a way is not followed; an overhead way is joined and left only at its
//            points; a way is not joined to itself where it crosses itself; ways that cross at any two heights meet;
//            an end that moves may take a route whose length jumps: a little, or much out of reach of a way
//   Checked  way_graph_test.cpp, cabling_laws_test.cpp
#pragma once
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "geom/vec.h"
#include "site/site.h"

namespace sightfall::loads {

inline constexpr double kJoin = 0.5;  ///< m in plan
inline constexpr double kReach = 3;   ///< m over, along no way
/// Of a metre over: the two sides of a right angle that a cable takes along no way. Common practice, no published
/// source.
inline constexpr double kCorner = 1.41;
inline constexpr double kPrice = 1000;  ///< m

/// Metres of a piece over and a piece up or down.
inline double over_and_up(geom::SitePoint a, geom::SitePoint b) {
  return norm(plan(b) - plan(a)) + std::abs(b.z - a.z);
}

/// A piece of a route along one way, from where the one before ends; or, without a way, up or down and over.
struct Leg {
  const site::Way* way = nullptr;
  std::vector<geom::SitePoint> line;
  Length length;
  Length over;  ///< along no way: in plan
};

/// First and last a leg along no way, which may have no length; the only leg when no way is taken.
using Route = std::vector<Leg>;

/// Points on the ways of a site, which must outlive it.
class WayGraph {
 public:
  explicit WayGraph(const site::Site& site);

  Route shortest(geom::SitePoint from, geom::SitePoint to) const;
  /// Along these ways in this order, of which each meets the next.
  Route along(geom::SitePoint from, geom::SitePoint to, const std::vector<std::string>& names) const;
  /// The first two neighbours in the list that do not meet.
  std::optional<std::pair<std::string, std::string>> gap(const std::vector<std::string>& names) const;

 private:
  static constexpr size_t kNone = static_cast<size_t>(-1);

  struct Line {
    const site::Way* way = nullptr;
    std::vector<geom::SitePoint> points;
    std::vector<double> metres;  ///< along it, at each point
    std::vector<size_t> nodes;   ///< by metres
  };
  /// One side of a joint; the other is the node whose number differs in the last bit.
  struct Node {
    size_t line = 0;
    double metres = 0;
    double gap = 0;
    size_t before = kNone, after = kNone;  ///< neighbours on the line
  };
  /// Where an end goes over to a way.
  struct Foot {
    size_t line = 0;
    double metres = 0;
    geom::SitePoint at;
    double cost = 0;
  };
  class Search;
  class Tracer;

  void join(size_t a, size_t b);
  void add_joint(size_t a, double metres_a, size_t b, double metres_b);
  void sort_nodes();
  geom::SitePoint at(const Line& line, double metres) const;
  double priced(geom::SitePoint end, geom::SitePoint foot) const;
  std::vector<Foot> feet(geom::SitePoint end) const;
  size_t line_of(const std::string& name) const;
  bool meet(size_t a, size_t b) const;
  Route route(geom::SitePoint from, geom::SitePoint to, const std::vector<size_t>& lines) const;

  const site::Site& site_;
  std::vector<Line> lines_;
  std::vector<Node> nodes_;
};

}  // namespace sightfall::loads
