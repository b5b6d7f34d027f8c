// SPDX-License-Identifier: GPL-3.0-or-later
// Samples: nested as they double, inside the outline, even by area, in lanes across a route, on the ground.
#include "need/samples.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <random>
#include <set>

#include "need/test_project.h"
#include "site/ground.h"

namespace sightfall::need {
namespace {

using geom::PlanPoint;
using site::PlaceKind;

std::vector<Sample> samples_in(const site::Place& place, int count) {
  const Need need = need_of(Subject::kFace, place.name, "fine");
  return samples_of(project_with(place, need), need, count);
}

std::multiset<std::pair<double, double>> as_set(const std::vector<Sample>& samples) {
  std::multiset<std::pair<double, double>> set;
  for (const Sample& s : samples) set.emplace(s.at_site.x, s.at_site.y);
  return set;
}

double to_segment(PlanPoint p, PlanPoint a, PlanPoint b) {
  const PlanPoint way = b - a;
  const double t = std::clamp(dot(p - a, way) / dot(way, way), 0.0, 1.0);
  return norm(p - (a + t * way));
}

/// Inside, or off by no more than rounding.
bool lies_in(const geom::Outline& outline, PlanPoint p) {
  if (geom::contains(outline, p)) return true;
  std::vector<geom::Ring> rings = outline.holes;
  rings.push_back(outline.outer);
  double nearest = 1e300;
  for (const geom::Ring& ring : rings)
    for (size_t i = 0; i < ring.size(); ++i)
      nearest = std::min(nearest, to_segment(p, ring[i], ring[(i + 1) % ring.size()]));
  return nearest < 1e-9;
}

site::Place with_hole() {
  site::Place place = zone_of("yard", {{0, 0}, {30, 0}, {30, 12}, {14, 12}, {14, 25}, {0, 25}});
  place.outline.holes = {rectangle(3, 3, 9, 20), rectangle(16, 2, 28, 9)};
  return place;
}

/// A square with a tail ten times as long as wide at its thickest.
site::Place with_sliver() {
  return zone_of("sliver", {{0, 0}, {10, 0}, {10, 4.9}, {110, 5}, {10, 5.1}, {10, 10}, {0, 10}});
}

TEST(ZoneSamples, ThoseOfACountAreAmongThoseOfTwiceTheCount) {
  for (const site::Place& place : {with_hole(), with_sliver()})
    for (const int count : {1, 64, 256, 1000}) {
      const auto few = as_set(samples_in(place, count)), many = as_set(samples_in(place, 2 * count));
      ASSERT_EQ(few.size(), static_cast<size_t>(count));
      ASSERT_EQ(many.size(), static_cast<size_t>(2 * count));
      EXPECT_TRUE(std::includes(many.begin(), many.end(), few.begin(), few.end())) << place.name << " " << count;
    }
}

TEST(ZoneSamples, LieInsideOutlinesWithHolesAndSlivers) {
  for (const site::Place& place : {with_hole(), with_sliver()})
    for (const Sample& s : samples_in(place, 3000))
      EXPECT_TRUE(lies_in(place.outline, plan(s.at_site))) << place.name << " " << s.at_site.x << " " << s.at_site.y;
}

TEST(ZoneSamples, LieInsideRandomStars) {
  constexpr unsigned kSeed = 4;
  std::mt19937 random{kSeed};
  std::uniform_real_distribution<double> share{0, 1};
  for (int k = 0; k < 40; ++k) {
    geom::Ring ring;
    const int corners = 5 + static_cast<int>(share(random) * 12);
    for (int i = 0; i < corners; ++i) {
      const double angle = 2 * std::numbers::pi * i / corners, radius = 1 + 20 * share(random);
      ring.push_back({radius * std::cos(angle), radius * std::sin(angle)});
    }
    const site::Place place = zone_of("star", ring);
    for (const Sample& s : samples_in(place, 256))
      ASSERT_TRUE(lies_in(place.outline, plan(s.at_site))) << "seed " << kSeed << " star " << k;
  }
}

TEST(ZoneSamples, AreEvenByArea) {
  const auto samples = samples_in(zone_of("square", rectangle(0, 0, 16, 16)), 4096);
  std::vector<int> cells(16, 0);
  for (const Sample& s : samples)
    ++cells[static_cast<size_t>(s.at_site.x / 4) + 4 * static_cast<size_t>(s.at_site.y / 4)];
  for (const int held : cells) EXPECT_NEAR(held, 256, 16);  // random points would miss this in half of the cells
}

TEST(ZoneSamples, ASliverGetsItsShare) {
  const site::Place place = with_sliver();
  const auto samples = samples_in(place, 2000);
  const auto in_tail = std::count_if(samples.begin(), samples.end(), [](const Sample& s) { return s.at_site.x > 10; });
  EXPECT_NEAR(static_cast<double>(in_tail), 2000 * 10.0 / 110,
              10);  // a triangle of 0.2 x 100 / 2 m2 on a square of 100
}

TEST(ZoneSamples, NeighboursInTheListAreNeighboursOnTheSite) {
  const auto samples = samples_in(zone_of("square", rectangle(0, 0, 32, 32)), 1024);  // one a square metre
  double way = 0;
  for (size_t i = 1; i < samples.size(); ++i) way += norm(samples[i].at_site - samples[i - 1].at_site);
  EXPECT_LT(way / 1023, 2.0);  // in the sequence's own order it is some 15 m
}

TEST(ZoneSamples, HaveNoTravel) {
  for (const Sample& s : samples_in(with_hole(), 64)) {
    EXPECT_EQ(s.travel, PlanPoint{});
    EXPECT_EQ(s.passage, 0);
  }
}

TEST(LineSamples, AreEvenAndTheirStepsSumToTheLength) {
  const auto samples = samples_in(way_of("fence", PlaceKind::kLine, {{0, 0}, {3, 0}, {3, 4}}), 70);
  ASSERT_EQ(samples.size(), 70U);
  double sum = 0;
  for (size_t i = 0; i < samples.size(); ++i) {
    const double along = 0.1 * static_cast<double>(i) + 0.05;
    EXPECT_NEAR(samples[i].at_site.x, std::min(along, 3.0), 1e-12);
    EXPECT_NEAR(samples[i].at_site.y, std::max(along - 3, 0.0), 1e-12);
    EXPECT_EQ(samples[i].travel, PlanPoint{}) << "nothing passes along a line";
    sum += samples[i].step;
  }
  EXPECT_NEAR(sum, 7, 1e-12);
}

TEST(RouteSamples, RunInLanesAcrossTheWidth) {
  const auto samples = samples_in(way_of("drive", PlaceKind::kRoute, {{0, 0}, {0, 10}}, 4), 100);
  std::vector<double> length(5, 0.0);
  for (const Sample& s : samples) {
    ASSERT_GE(s.passage, 0);
    ASSERT_LT(s.passage, 5);
    EXPECT_NEAR(s.at_site.x, 2 - s.passage, 1e-12);  // travelling north, the first lane is the eastern one
    EXPECT_EQ(s.travel, (PlanPoint{0, 1}));
    length[static_cast<size_t>(s.passage)] += s.step;
  }
  for (const double lane : length) EXPECT_NEAR(lane, 10, 1e-12);
}

TEST(RouteSamples, WithoutWidthAreOneLaneThatTurnsWithTheWay) {
  const auto samples = samples_in(way_of("path", PlaceKind::kRoute, {{0, 0}, {0, 5}, {5, 5}}), 40);
  for (const Sample& s : samples) {
    EXPECT_EQ(s.passage, 0);
    EXPECT_EQ(s.travel, s.at_site.x > 0 ? (PlanPoint{1, 0}) : (PlanPoint{0, 1}));
  }
}

TEST(Samples, FollowTheGround) {
  const Need need = need_of(Subject::kFace, "bank", "fine");
  Project project = project_with(zone_of("bank", rectangle(1, 1, 9, 9)), need);
  project.site.terrain = {{0, 0}, Length{5}, 3, 3, {0, 1, 2, 0, 1, 2, 0, 1, 2}};  // rises 1 in 5 to the east
  for (const Sample& s : samples_of(project, need, 200)) EXPECT_NEAR(s.at_site.z, s.at_site.x / 5 + 1.6, 1e-9);
}

TEST(SubjectHeight, IsTheSubjectsOwnUnlessTheNeedStatesIt) {
  const detail::Typical typical = plain_typical();
  const auto height = [&](Subject subject) { return subject_height(need_of(subject, "yard", "fine"), typical).si(); };
  EXPECT_DOUBLE_EQ(height(Subject::kFace), 1.6);
  EXPECT_DOUBLE_EQ(height(Subject::kPlate), 0.5);
  EXPECT_DOUBLE_EQ(height(Subject::kPerson), 0.85);
  EXPECT_DOUBLE_EQ(height(Subject::kVehicle), 0.75);
  EXPECT_DOUBLE_EQ(height(Subject::kObject), 0.25);
  Need high = need_of(Subject::kFace, "yard", "fine");
  high.height = Length{2.2};
  EXPECT_DOUBLE_EQ(subject_height(high, typical).si(), 2.2);
}

TEST(FirstCount, FollowsTheSpacingWithinBounds) {
  const auto count = [](const site::Place& place, double spacing, bool passage = false) {
    Need need = need_of(Subject::kFace, place.name, "fine");
    if (passage) need.once_a_passage = 3;
    Project project = project_with(place, need);
    project.settings.sample_spacing = Length{spacing};
    return first_count(project, need);
  };
  EXPECT_EQ(count(zone_of("small", rectangle(0, 0, 5, 5)), 1), 256);
  EXPECT_EQ(count(zone_of("middling", rectangle(0, 0, 20, 30)), 1), 600);
  EXPECT_EQ(count(zone_of("middling", rectangle(0, 0, 20, 30)), 0.5), 2400);
  EXPECT_EQ(count(zone_of("large", rectangle(0, 0, 200, 300)), 1), 4096);
  const site::Place drive = way_of("drive", PlaceKind::kRoute, {{0, 0}, {0, 80}}, 4);
  EXPECT_EQ(count(drive, 1), 400);         // five lanes of 80
  EXPECT_EQ(count(drive, 1, true), 4000);  // cut at 0.1 m for counting frames
}

}  // namespace
}  // namespace sightfall::need
