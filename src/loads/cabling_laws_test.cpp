// SPDX-License-Identifier: GPL-3.0-or-later
// Laws of routes that hold in any net, tried on random ones. Each failure prints its seed and case.
#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>
#include <random>

#include "loads/test_cabling.h"
#include "loads/way_graph.h"

namespace sightfall::loads {
namespace {

using geom::PlanPoint;
using geom::SitePoint;

constexpr unsigned kSeed = 91;
constexpr double kRounding = 1e-9;

/// A street of ways: each begins at a point of one before it, so that all are joined; every kind is among them.
class Chance {
 public:
  double between(double low, double high) { return std::uniform_real_distribution<double>{low, high}(random_); }

  std::vector<site::Way> net(size_t count) {
    std::vector<site::Way> ways;
    PlanPoint start{0, 0};
    while (ways.size() < count) {
      std::vector<PlanPoint> line{start};
      for (int i = 0; i < 3; ++i) line.push_back({between(-40, 40), between(-40, 40)});
      const auto kind = static_cast<site::WayKind>(ways.size() % 5);
      ways.push_back(way("way " + std::to_string(ways.size()), line, between(-1, 5), kind));
      const auto& any = ways[static_cast<size_t>(between(0, static_cast<double>(ways.size()) - 1e-9))];
      start = any.line[static_cast<size_t>(between(0, 3.999))];
    }
    return ways;
  }

  /// Within reach of a point of a way, so that no piece along no way is long.
  SitePoint near(const std::vector<site::Way>& ways) {
    const auto& line = ways[static_cast<size_t>(between(0, static_cast<double>(ways.size()) - 1e-9))].line;
    const PlanPoint p = line[static_cast<size_t>(between(0, 3.999))];
    return {p.x + between(-1.5, 1.5), p.y + between(-1.5, 1.5), between(0, 5)};
  }

 private:
  std::mt19937 random_{kSeed};
};

double length(const Route& route) {
  return std::accumulate(route.begin(), route.end(), 0.0,
                         [](double sum, const Leg& leg) { return sum + leg.length.si(); });
}

/// Length as it is compared, where metres along no way cost more.
double cost(const Route& route) {
  return std::accumulate(route.begin(), route.end(), length(route), [](double sum, const Leg& leg) {
    const double over = leg.over.si();
    return sum + (kCorner - 1) * std::min(over, kReach) + (kPrice - 1) * std::max(0.0, over - kReach);
  });
}

double farthest_over(const Route& route) { return std::max(route.front().over.si(), route.back().over.si()); }

Route shortest(const std::vector<site::Way>& ways, SitePoint from, SitePoint to) {
  site::Site site;
  site.ways = ways;
  Route route = WayGraph(site).shortest(from, to);
  for (Leg& leg : route) leg.way = nullptr;  // the site ends here
  return route;
}

TEST(CablingLaws, AnotherWayNeverMakesTheBestRunDearer) {
  Chance chance;
  int cheaper = 0;
  for (int i = 0; i < 200; ++i) {
    const std::vector<site::Way> all = chance.net(12);
    const std::vector<site::Way> fewer(all.begin(), all.begin() + 6);
    const SitePoint from = chance.near(fewer), to = chance.near(fewer);
    const double before = cost(shortest(fewer, from, to)), after = cost(shortest(all, from, to));
    EXPECT_LE(after, before + kRounding) << "seed " << kSeed << " case " << i;
    cheaper += after < before - 1e-6;
  }
  EXPECT_GT(cheaper, 20);
}

/// A foot on a way moves along it while the piece over to it grows: along and across are the two sides of the move, so
/// that together, across at kCorner, they cost at most its 1.73 times in plan; and up and down it is the move. It holds
/// while the end does not move out of reach of a way that one of the two routes takes.
TEST(CablingLaws, AnEndThatMovesALittleChangesTheRunALittle) {
  Chance chance;
  int tried = 0;
  for (int i = 0; i < 200; ++i) {
    const std::vector<site::Way> ways = chance.net(8);
    const SitePoint from = chance.near(ways), to = chance.near(ways);
    const SitePoint aside{to.x + chance.between(-0.3, 0.3), to.y + chance.between(-0.3, 0.3), to.z};
    const SitePoint above{to.x, to.y, to.z + chance.between(-0.5, 0.5)};
    const double moved = norm(plan(aside) - plan(to));
    const Route before = shortest(ways, from, to), after = shortest(ways, from, aside);
    EXPECT_NEAR(cost(shortest(ways, from, above)), cost(before), std::abs(above.z - to.z) + kRounding)
        << "seed " << kSeed << " case " << i;
    if (std::max(farthest_over(before), farthest_over(after)) > kReach - moved) continue;
    ++tried;
    EXPECT_NEAR(cost(after), cost(before), std::hypot(1, kCorner) * moved + kRounding)
        << "seed " << kSeed << " case " << i;
  }
  EXPECT_GT(tried, 150);
}

TEST(CablingLaws, NoRunIsShorterThanTheStraightLineAndItIsAsLongBackwards) {
  Chance chance;
  for (int i = 0; i < 200; ++i) {
    const std::vector<site::Way> ways = chance.net(8);
    const SitePoint from = chance.near(ways), to = chance.near(ways);
    const double there = length(shortest(ways, from, to));
    EXPECT_GE(there, norm(to - from) - kRounding) << "seed " << kSeed << " case " << i;
    EXPECT_NEAR(there, length(shortest(ways, to, from)), kRounding) << "seed " << kSeed << " case " << i;
  }
}

/// What is named is a choice among what may be taken, so it never costs less; and naming the shortest changes nothing.
TEST(CablingLaws, NamingWaysNeverMakesARunCheaper) {
  Chance chance;
  for (int i = 0; i < 200; ++i) {
    site::Site site;
    site.ways = chance.net(8);
    const SitePoint from = chance.near(site.ways), to = chance.near(site.ways);
    const WayGraph graph(site);
    const Route free = graph.shortest(from, to);
    std::vector<std::string> names;
    for (const Leg& leg : free)
      if (leg.way != nullptr) names.push_back(leg.way->name);
    if (names.empty()) continue;
    EXPECT_EQ(graph.gap(names), std::nullopt) << "seed " << kSeed << " case " << i;
    EXPECT_NEAR(length(graph.along(from, to, names)), length(free), kRounding) << "seed " << kSeed << " case " << i;
    EXPECT_GE(cost(graph.along(from, to, {"way 0"})), cost(free) - kRounding) << "seed " << kSeed << " case " << i;
  }
}

}  // namespace
}  // namespace sightfall::loads
