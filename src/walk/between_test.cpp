// SPDX-License-Identifier: GPL-3.0-or-later
// What is taken between a few points: exact where it is even, within the tolerance where it curves, sharp at edges, and
// worked out seldom.
#include "walk/between.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

namespace sightfall::walk {
namespace {

std::vector<Place> all_places() {
  std::vector<Place> places(static_cast<size_t>(kTile) * kTile);
  std::iota(places.begin(), places.end(), Place{0});
  return places;
}

struct Spread {
  std::vector<float> values;
  int asked = 0;
};

Spread spread(const std::vector<Place>& places, const std::function<double(double, double)>& value, bool coarse = false,
              float floor = 0) {
  Spread result;
  Between between;
  const auto at = [&](double column, double row, std::span<float> out) {
    ++result.asked;
    out[0] = static_cast<float>(value(column, row));
    return !std::isnan(out[0]);
  };
  between.spread({at, 1, floor, coarse}, places, result.values);
  return result;
}

TEST(Places, SquaresAreStretchesOfThem) {
  for (int place = 0; place < kTile * kTile; ++place) {
    const int column = column_of(static_cast<Place>(place)), row = row_of(static_cast<Place>(place));
    ASSERT_GE(column, 0);
    ASSERT_LT(column, kTile);
    ASSERT_LT(row, kTile);
    for (const int size : {4, 8, 16}) {
      const auto first = static_cast<Place>(place / (size * size) * size * size);
      EXPECT_EQ(column_of(first), column / size * size);
      EXPECT_EQ(row_of(first), row / size * size);
    }
  }
}

TEST(Between, WhatIsEvenIsExactAndAskedForSeldom) {
  const auto places = all_places();
  const Spread of = spread(places, [](double x, double y) { return 5 + 0.25 * x - 0.03 * y; });
  for (size_t i = 0; i < places.size(); ++i)
    EXPECT_NEAR(of.values[i], 5 + 0.25 * column_of(places[i]) - 0.03 * row_of(places[i]), 1e-4);
  EXPECT_LE(of.asked, 9 * 9) << "a node every eighth point";
}

TEST(Between, WhatCurvesIsWithinTheTolerance) {
  const auto places = all_places();
  for (const double near : {5.0, 15.0, 60.0, 300.0}) {  // a lamp over a floor, so high in points of the tile
    const auto value = [&](double x, double y) {
      const double dx = x - 20, dy = y - 31;
      return 1e6 / std::pow(dx * dx + dy * dy + near * near, 1.5);
    };
    const Spread of = spread(places, value);
    for (size_t i = 0; i < places.size(); ++i) {
      const double is = value(column_of(places[i]), row_of(places[i]));
      // Sides are tried at their middles; within a cell both ways' errors may add.
      EXPECT_NEAR(of.values[i] / is, 1, 2.5 * static_cast<double>(kTolerance)) << near << " at " << places[i];
    }
    if (near > 100) {
      EXPECT_LT(of.asked, 100) << "a lamp is seldom nearer";
    }
  }
}

TEST(Between, AnEdgeStaysWhereItIs) {
  const auto places = all_places();
  const auto value = [](double x, double y) { return x + 0.3 * y < 37.5 ? 0.0 : 100 + y; };
  const Spread of = spread(places, value);
  for (size_t i = 0; i < places.size(); ++i)
    EXPECT_NEAR(of.values[i], value(column_of(places[i]), row_of(places[i])), 1e-3) << places[i];
}

TEST(Between, WhereThereIsNothingEachPointIsAskedForByItself) {
  std::vector<Place> places;
  for (const Place place : all_places())
    if (row_of(place) >= 21) places.push_back(place);
  const auto value = [](double, double y) { return y >= 20.5 ? 1 / (y - 20) : std::nan(""); };
  const Spread of = spread(places, value);
  for (size_t i = 0; i < places.size(); ++i)
    EXPECT_NEAR(of.values[i] * (row_of(places[i]) - 20), 1, 2.5 * static_cast<double>(kTolerance)) << places[i];
}

TEST(Between, CoarselyFourByFourPointsMayShareAValue) {
  const auto places = all_places();
  const auto rough = [](double x, double y) { return 2 + std::sin(12.9898 * x + 78.233 * y + 0.1 * x * y); };
  const Spread of = spread(places, rough, true);
  for (size_t i = 0; i < places.size(); ++i) EXPECT_EQ(of.values[i], of.values[i / 16 * 16]) << places[i];
  EXPECT_LT(of.asked, 2000);
}

}  // namespace
}  // namespace sightfall::walk
