// SPDX-License-Identifier: GPL-3.0-or-later
// Rays cast tile by tile against the same rays one by one through need/look.h: light, shadow edges, veils, plates.
#include "walk/tile.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "walk/cast.h"
#include "walk/test_yard.h"

namespace sightfall::walk {
namespace {

/// A picture's rates ray by ray, nothing taken between others.
Plane exact(const Stage& stage, const need::Station& station) {
  const camera::Projector& p = station.lens.projector;
  Plane plane{p.columns, p.rows};
  for (int row = 0; row < p.rows; ++row)
    for (int column = 0; column < p.columns; ++column) {
      const auto ray = camera::ray_camera(p, {static_cast<double>(column), static_cast<double>(row)});
      plane.at[plane.index(column, row)] =
          static_cast<float>(rate_of(stage.light(*ray, stage.behind(*ray)), station, 0.5));
    }
  return plane;
}

/// Least relative difference of a value from those of a square around a place.
double off(const Plane& plane, int column, int row, double value, int around) {
  double least = 1e9;
  for (int r = std::max(0, row - around); r <= std::min(plane.rows - 1, row + around); ++r)
    for (int c = std::max(0, column - around); c <= std::min(plane.columns - 1, column + around); ++c) {
      const auto is = static_cast<double>(plane.at[plane.index(c, r)]);
      least = std::min(least, std::abs(value - is) / std::max(is, 1e-9));
    }
  return least;
}

struct Differences {
  std::vector<double> here;  // sorted
  int beyond_a_pixel = 0;    // points that differ by more than 2 % from every neighbour as well
};

Differences compared(const Plane& quick, const Plane& slow) {
  Differences result;
  for (int row = 0; row < slow.rows; ++row)
    for (int column = 0; column < slow.columns; ++column) {
      const auto value = static_cast<double>(quick.at[quick.index(column, row)]);
      result.here.push_back(off(slow, column, row, value, 0));
      if (off(slow, column, row, value, 1) > 0.02) ++result.beyond_a_pixel;
    }
  std::sort(result.here.begin(), result.here.end());
  return result;
}

TEST(Caster, TellsTheLightOfLampsOnTheMainsApart) {
  Yard yard{160, 120};
  yard.project.site.veils.clear();  // the meter counts what swings behind one as though it were not there
  ASSERT_GT(yard.station.flicker, 0) << "an LED lamp burns";
  const Stage stage{yard.project, yard.condition, yard.station, Visitor{}};
  const Background all = StillCast{stage, yard.station}.background(0);
  const camera::Projector& p = yard.station.lens.projector;
  double swinging = 0, expected = 0, total = 0;
  for (int row = 0; row < p.rows; ++row)
    for (int column = 0; column < p.columns; ++column) {
      const auto ray = camera::ray_camera(p, {static_cast<double>(column), static_cast<double>(row)});
      const need::Patch patch = stage.light(*ray, stage.behind(*ray));
      expected += patch.falls * dot(yard.station.response, patch.swinging);
      swinging += static_cast<double>(all.swinging.at[all.swinging.index(column, row)]);
      total += static_cast<double>(all.rate.at[all.rate.index(column, row)]);
    }
  EXPECT_NEAR(swinging / expected, 1, 0.02);
  EXPECT_LT(swinging, 0.2 * total) << "of an LED a fifth swings, and there is other light";
  yard.station.flicker = 0;
  const StillCast steady{stage, yard.station};
  EXPECT_TRUE(steady.background(0).swinging.at.empty());
}

TEST(Caster, BringsWhatEachRayBringsByItself) {
  const Yard yard;
  ASSERT_TRUE(yard.station.infrared_on);
  const Stage stage{yard.project, yard.condition, yard.station, Yard::walker_at(0.5, 6)};
  const Plane slow = exact(stage, yard.station);
  const Plane quick = cast_background(stage, yard.station, 0.5, {}).rate;
  const Differences differ = compared(quick, slow);
  EXPECT_LT(differ.here[differ.here.size() / 2], 0.001);
  EXPECT_LT(differ.here[differ.here.size() * 99 / 100], 0.01);
  EXPECT_LT(differ.beyond_a_pixel, 8) << "of " << differ.here.size() << ": a ray that grazes an edge";
}

TEST(Caster, AShadowsEdgeStaysWhereItIs) {
  Yard yard;
  yard.project.settings.materials.ground = "skin";  // plain: what steps is the light
  const Stage stage{yard.project, yard.condition, yard.station, Visitor{}};
  const Plane slow = exact(stage, yard.station);
  const Plane quick = cast_background(stage, yard.station, 0.5, {}).rate;
  int edges = 0;
  for (int row = 1; row < slow.rows; ++row)
    for (int column = 1; column < slow.columns; ++column) {
      const auto step = [&](const Plane& plane) {
        return static_cast<double>(plane.at[plane.index(column, row)] / plane.at[plane.index(column - 1, row)]);
      };
      if (std::abs(std::log(step(slow))) < 0.2) continue;
      ++edges;
      EXPECT_NEAR(std::log(step(quick) / step(slow)), 0, 0.02) << column << " " << row;
    }
  EXPECT_GT(edges, 200);
}

TEST(Caster, EveryLightOfEveryConditionIsInIt) {
  for (const auto& light : {site::NamedLight::kOvercast, site::NamedLight::kDarkNight}) {
    Yard yard{160, 120};
    yard.condition.light = light;
    const need::Lit lit{yard.project, yard.condition};
    yard.station = need::in_condition(need::station_of(yard.project, yard.project.cameras.front()), lit.lighting());
    const Stage stage{yard.project, yard.condition, yard.station, Visitor{}};
    const Differences differ = compared(cast_background(stage, yard.station, 0.5, {}).rate, exact(stage, yard.station));
    EXPECT_LT(differ.here[differ.here.size() * 98 / 100], 0.01) << static_cast<int>(light);
  }
  Yard yard{160, 120};  // a condition that says nothing of light
  yard.condition = {};
  yard.station = need::in_condition(need::station_of(yard.project, yard.project.cameras.front()),
                                    need::Lit{yard.project, yard.condition}.lighting());
  const Stage stage{yard.project, yard.condition, yard.station, Visitor{}};
  const Differences differ = compared(cast_background(stage, yard.station, 0.5, {}).rate, exact(stage, yard.station));
  EXPECT_LT(differ.here[differ.here.size() * 98 / 100], 0.01);
}

TEST(Caster, TheVisitorIsWhatEachRayMeetsFirst) {
  const Yard yard;
  for (const Visitor& visitor : {Yard::walker_at(0.5, 6), Yard::car_at(-1.5, 6)}) {
    const Stage stage{yard.project, yard.condition, yard.station, visitor};
    const Cutout cut = cast_subject(stage, yard.station, 0.5, 2);
    ASSERT_GE(cut.finer, 3);
    std::vector<double> differ;
    int covered = 0, otherwise = 0;
    for (int row = 0; row < cut.rate.rows; row += 2)
      for (int column = 0; column < cut.rate.columns; column += 2) {
        const geom::ImagePoint at =
            Raster{cut.left, cut.top, cut.rate.columns, cut.rate.rows, cut.finer}.at(column, row);
        const auto ray = camera::ray_camera(yard.station.lens.projector, at);
        const auto met = stage.first(*ray);
        const size_t i = cut.rate.index(column, row);
        const bool covers = met && met->visitor;
        if (covers != (cut.cover.at[i] > 0)) ++otherwise;
        if (!covers || cut.cover.at[i] == 0) continue;
        ++covered;
        const double is = rate_of(stage.light(*ray, met), yard.station, 0.5);
        differ.push_back(std::abs(static_cast<double>(cut.rate.at[i]) - is) / is);
        EXPECT_EQ(cut.hue[i], met->hue);
      }
    ASSERT_GT(covered, 1000);
    EXPECT_LT(otherwise, covered / 500) << "rays that graze its outline";
    std::sort(differ.begin(), differ.end());
    EXPECT_LT(differ[differ.size() / 2], 0.001);
    EXPECT_LT(differ[differ.size() * 95 / 100], 0.01) << "a shadow's edge on it may be four points off";
  }
}

}  // namespace
}  // namespace sightfall::walk
