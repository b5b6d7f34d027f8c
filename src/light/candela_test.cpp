// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/candela.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "light/infrared.h"

namespace sightfall::light {
namespace {

using namespace units;
using std::numbers::pi;

/// 0 to 90 degrees in four planes, closed; each value tells its angles.
Candela told_apart(Goniometer angles) {
  return {{0, pi / 4, pi / 2},
          {0, pi / 2, pi, 1.5 * pi, 2 * pi},
          {0, 1, 2, 10, 11, 12, 20, 21, 22, 30, 31, 32, 0, 1, 2},
          angles};
}

TEST(Candela, GivesItsValuesAtItsAnglesAndWhatLiesBetween) {
  const Candela lamp = told_apart(Goniometer::kCGamma);
  EXPECT_NEAR(lamp.at(45.0 * deg, 90.0 * deg).in(cd), 11, 1e-12);
  EXPECT_NEAR(lamp.at(22.5 * deg, 225.0 * deg).in(cd), 25.5, 1e-12);
  EXPECT_NEAR(lamp.at(90.0 * deg, 315.0 * deg).in(cd), 17, 1e-12) << "towards the plane that closes the turn";
  EXPECT_NEAR(lamp.at(45.0 * deg, -90.0 * deg).in(cd), 31, 1e-12) << "any turn";
  EXPECT_NEAR(lamp.at(45.0 * deg, 450.0 * deg).in(cd), 11, 1e-12);
  EXPECT_EQ(lamp.largest().in(cd), 32);
}

TEST(Candela, NothingOutsideItsAngles) {
  const Candela part{{0.2, 0.4}, {1, 2}, {5, 5, 5, 5}};
  EXPECT_EQ(part.at(Angle{0.3}, Angle{1.5}).in(cd), 5);
  EXPECT_EQ(part.at(Angle{0.4 + 1e-12}, Angle{2 + 1e-12}).in(cd), 5) << "the edge, as rounded vectors meet it";
  EXPECT_EQ(part.at(Angle{0.1}, Angle{1.5}).in(cd), 0);
  EXPECT_EQ(part.at(Angle{0.5}, Angle{1.5}).in(cd), 0);
  EXPECT_EQ(part.at(Angle{0.3}, Angle{0.5}).in(cd), 0);
  EXPECT_EQ(part.at(Angle{0.3}, Angle{2.5}).in(cd), 0);
}

TEST(Candela, OnePlaneIsTheSameAllRound) {
  const Candela lamp{{0, pi}, {0}, {4, 2}};
  for (const double turn : {0.0, 100.0, 359.0}) EXPECT_NEAR(lamp.at(90.0 * deg, turn * deg).in(cd), 3, 1e-12);
}

TEST(Candela, TypeCBeginsWhereC90Is) {
  const Candela lamp = told_apart(Goniometer::kTypeC);
  EXPECT_NEAR(lamp.at(90.0 * deg, 90.0 * deg).in(cd), 2, 1e-9);
  EXPECT_NEAR(lamp.at(90.0 * deg, 180.0 * deg).in(cd), 12, 1e-9);
  EXPECT_NEAR(lamp.at(90.0 * deg, 0.0 * deg).in(cd), 32, 1e-9);
}

/// Bright within 10 to 20 degrees right of the axis, 40 to 50 degrees above it.
Candela patch(Goniometer angles) {
  const double right = 15 * deg.si(), up = 45 * deg.si(), half = 5 * deg.si();
  const bool b = angles == Goniometer::kTypeB;
  const double polar = pi / 2 + (b ? right : up), turn = pi + (b ? up : right);
  return {{polar - half, polar + half}, {turn - half, turn + half}, {7, 7, 7, 7}, angles};
}

TEST(Candela, TypesAAndBLookAlongTheAxisWithTheirOwnPoles) {
  const auto towards = [](double right_tan, double up_tan) { return geom::Vec3{right_tan, -up_tan, 1}; };
  // Type A: the horizontal angle is that of the plan; type B: the vertical angle is that of the side view.
  const double r = std::tan(15 * deg.si()), u = std::tan(45 * deg.si());
  EXPECT_EQ(intensity_towards(patch(Goniometer::kTypeA), towards(r, u * std::hypot(1, r))).in(cd), 7);
  EXPECT_EQ(intensity_towards(patch(Goniometer::kTypeB), towards(r * std::hypot(1, u), u)).in(cd), 7);
  for (const Goniometer angles : {Goniometer::kTypeA, Goniometer::kTypeB}) {
    EXPECT_EQ(intensity_towards(patch(angles), towards(-r, u)).in(cd), 0) << "left";
    EXPECT_EQ(intensity_towards(patch(angles), towards(r, -u)).in(cd), 0) << "below";
    EXPECT_EQ(intensity_towards(patch(angles), towards(u, r)).in(cd), 0) << "right more than up";
  }
  EXPECT_NEAR(patch(Goniometer::kTypeA).flux().in(lm),
              7 * (10 * deg.si()) * (std::sin(50 * deg.si()) - std::sin(40 * deg.si())), 1e-12);
}

TEST(Candela, FluxOfATableIsExactForWhatItSays) {
  const Candela even{{0, 0.1, 2, pi}, {0}, {3, 3, 3, 3}};
  EXPECT_NEAR(even.flux().in(lm), 12 * pi, 1e-12);
  // I = g between 0 and pi: the integral of g sin g is pi.
  const Candela sloping{{0, 1, pi}, {0}, {0, 1, pi}};
  EXPECT_NEAR(sloping.flux().in(lm), 2 * pi * pi, 1e-12);
  // Half of the turn, from nothing to 4: half of the half.
  const Candela part{{0, pi}, {0, pi}, {0, 0, 4, 4}};
  EXPECT_NEAR(part.flux().in(lm), 4 * pi, 1e-12);
}

TEST(Candela, PlainLampsHaveTheFluxAndTheBeamTheyAreGiven) {
  for (const double width : {0.5, 10.0, 60.0, 120.0, 150.0, 179.0}) {
    const Candela lamp = plain_lamp(1500.0 * lm, width * deg);
    EXPECT_NEAR(lamp.flux().in(lm), 1500, 1500 * kFluxError) << width;
    EXPECT_NEAR(lamp.at(width / 2 * deg, Angle{0}) / lamp.largest(), 0.5, 1e-3) << width;
    EXPECT_EQ(lamp.at(90.1 * deg, Angle{0}).in(cd), 0) << width;
  }
}

TEST(Candela, AMattLampIsTheBeamOf120Degrees) {
  const Candela matt = matt_lamp(300.0 * lm);
  EXPECT_NEAR(matt.flux().in(lm), 300, 300 * kFluxError);
  EXPECT_NEAR(matt.largest().in(cd), 300 / pi, 1e-9);
  for (const double gamma : {0.0, 17.0, 60.0, 89.0})
    EXPECT_NEAR(matt.at(gamma * deg, Angle{1}).in(cd),
                plain_lamp(300.0 * lm, 120.0 * deg).at(gamma * deg, Angle{2}).in(cd), 1e-6);
}

TEST(Candela, IlluminanceFallsWithTheSquareAndTheCosine) {
  const Candela lamp = plain_lamp(1000.0 * lm, 60.0 * deg);
  const double near = illuminance(lamp, {0, 0, 2}, {0, 0, -1}).in(lx);
  EXPECT_NEAR(near, lamp.largest().in(cd) / 4, 1e-9);
  EXPECT_NEAR(illuminance(lamp, {0, 0, 4}, {0, 0, -1}).in(lx), near / 4, 1e-9);
  EXPECT_NEAR(illuminance(lamp, {0, 0, 2}, {0.6, 0, -0.8}).in(lx), 0.8 * near, 1e-9);
  EXPECT_EQ(illuminance(lamp, {0, 0, 2}, {0, 0, 1}).in(lx), 0) << "lit on the other side";
}

TEST(CandelaDeathTest, PromisesOfTheTableAreHeld) {
  EXPECT_DEATH((Candela{{0, 1}, {0}, {1}}), "broken promise");
  EXPECT_DEATH((Candela{{1, 0}, {0}, {1, 1}}), "broken promise");
  EXPECT_DEATH((Candela{{0, 4}, {0}, {1, 1}}), "broken promise");
  EXPECT_DEATH((Candela{{0, 1}, {0}, {1, -1}}), "broken promise");
  EXPECT_DEATH((Candela{{0, 1}, {0}, {1, NAN}}), "broken promise");
  EXPECT_DEATH((Candela{{0, 1}, {0}, {1, INFINITY}}), "broken promise");
}

}  // namespace
}  // namespace sightfall::light
