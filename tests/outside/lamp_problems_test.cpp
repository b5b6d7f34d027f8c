// SPDX-License-Identifier: GPL-3.0-or-later
// Point-by-point problems of lighting: what one small lamp gives on a surface.
//   Source   beside each
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "light/candela.h"

namespace sightfall::light {
namespace {

using namespace units;
using geom::Vec3;
using std::numbers::pi;

Candela even_lamp(Intensity intensity) { return {{0, pi}, {0}, {intensity.si(), intensity.si()}}; }

// Problem of a physics primer: a lamp of 628 lm that shines evenly; a surface 1 m away whose normal makes 37 degrees
// with the light. 50 cd, 40 lx (with 4/5 for the cosine).
TEST(LampProblems, AnEvenLampOf628Lumens) {
  const Candela lamp = even_lamp(50.0 * cd);
  EXPECT_NEAR(lamp.flux().in(lm), 628, 0.5);
  const double turn = 37 * deg.si();
  EXPECT_NEAR(illuminance(lamp, {0, 0, 1}, {std::sin(turn), 0, -std::cos(turn)}).in(lx), 40, 0.1);
}

// Problem of a lighting course: 100 cd, straight below at 4 m. The answer is the inverse square's.
TEST(LampProblems, AHundredCandelaAtFourMetres) {
  EXPECT_NEAR(illuminance(even_lamp(100.0 * cd), {0, 0, 4}, {0, 0, -1}).in(lx), 6.25, 1e-9);
}

// Problem of a school book: a small matt source 2.4 m above a table gives 25 lx below it; 1.8 m aside cos = 0.8 comes
// in four times. The answer is ours.
TEST(LampProblems, AMattSourceAboveATable) {
  const Candela lamp = matt_lamp(pi * 25 * 2.4 * 2.4 * lm);
  EXPECT_NEAR(illuminance(lamp, {0, 0, 2.4}, {0, 0, -1}).in(lx), 25, 1e-6);
  EXPECT_NEAR(illuminance(lamp, {1.8, 0, 2.4}, {0, 0, -1}).in(lx), 10.24, 0.001);
  EXPECT_NEAR(illuminance(lamp, {0, -1.8, 2.4}, {0, 0, -1}).in(lx), 10.24, 0.001);
}

// From memory, by E = I h / (h^2 + d^2)^1.5: 10 000 cd towards a place 6 m from a pole of 8 m.
TEST(LampProblems, APoleOfEightMetres) {
  const Candela lamp = even_lamp(10'000.0 * cd);
  EXPECT_NEAR(illuminance(lamp, {6, 0, 8}, {0, 0, -1}).in(lx), 80, 1e-6) << "on the ground";
  EXPECT_NEAR(illuminance(lamp, {6, 0, 8}, {-1, 0, 0}).in(lx), 60, 1e-6) << "upright, facing the pole";
  EXPECT_EQ(illuminance(lamp, {6, 0, 8}, {1, 0, 0}).in(lx), 0) << "upright, its back to the pole";
}

}  // namespace
}  // namespace sightfall::light
