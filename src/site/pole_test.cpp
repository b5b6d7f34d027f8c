// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/pole.h"

#include <gtest/gtest.h>

#include <cmath>

namespace sightfall::site {
namespace {

using namespace units;

/// A tube of 114.3 x 3.6 mm, 4 m, steel.
Pole tube() { return {PoleMaterial::kSteel, 114.3 * mm, 3.6 * mm, Length{4}}; }

// Closed forms of the strength of materials, worked by hand for that tube: I 1.9198e-6 m4; 200 N at the tip 10.583 mm,
// 0.2274 deg, 23.81 MPa.
TEST(Pole, BendsUnderAForceAsTheFormulaSays) {
  EXPECT_NEAR(second_moment(114.3 * mm, 3.6 * mm).si(), 1.9198e-6, 1e-10);
  const Bend bend = bent_by_force(tube(), 200.0 * N, Length{4}, Length{4});
  EXPECT_NEAR(bend.shift.in(mm), 10.583, 0.005);
  EXPECT_NEAR(bend.slope.in(deg), 0.2274, 1e-4);
  EXPECT_NEAR(stress_at_foot(tube(), 200.0 * N * Length{4}).in(MPa), 23.81, 0.01);
}

// The same under an even 57.95 N/m (422.5 N/m2 on the tube's width, force coefficient 1.2): 4.600 mm, 0.08785 deg.
TEST(Pole, BendsUnderAnEvenLoadAsTheFormulaSays) {
  const Bend bend = bent_by_wind(tube(), LineLoad{57.95}, Length{4});
  EXPECT_NEAR(bend.shift.in(mm), 4.600, 0.002);
  EXPECT_NEAR(bend.slope.in(deg), 0.08785, 2e-5);
}

/// The slope is the change of the shift, and bends the way that the load does: M = w (L - h)^2 / 2.
TEST(Pole, BelowTheTopAnEvenLoadBendsAsTheMomentThereSays) {
  const auto at = [](double h) { return bent_by_wind(tube(), LineLoad{57.95}, Length{h}); };
  constexpr double kStep = 1e-4;
  for (double h = 0.5; h < 4; h += 0.5) {
    EXPECT_NEAR((at(h + kStep).shift.si() - at(h - kStep).shift.si()) / (2 * kStep), at(h).slope.si(), 1e-8);
    const double curvature = (at(h + kStep).slope.si() - at(h - kStep).slope.si()) / (2 * kStep);
    EXPECT_NEAR(curvature * 210e9 * second_moment(114.3 * mm, 3.6 * mm).si(), 57.95 * (4 - h) * (4 - h) / 2, 1e-3);
  }
}

/// Below a force the moment is F (a - h), above it none; and what bends one height by a force at another bends that one
/// by the same force at the first (Maxwell and Betti).
TEST(Pole, AwayFromAForceItBendsAsTheMomentThereSays) {
  const auto at = [](double force_at, double h) {
    return bent_by_force(tube(), 100.0 * N, Length{force_at}, Length{h});
  };
  constexpr double kStep = 1e-4;
  const double ei = 210e9 * second_moment(114.3 * mm, 3.6 * mm).si();
  for (double h = 0.25; h < 4; h += 0.5) {
    EXPECT_NEAR((at(2, h + kStep).shift.si() - at(2, h - kStep).shift.si()) / (2 * kStep), at(2, h).slope.si(), 1e-8);
    const double curvature = (at(2, h + kStep).slope.si() - at(2, h - kStep).slope.si()) / (2 * kStep);
    EXPECT_NEAR(curvature * ei, h < 2 ? 100 * (2 - h) : 0, 1e-3);
    EXPECT_NEAR(at(2, h).shift.si(), at(h, 2).shift.si(), 1e-15);
  }
}

// A slope of 0.1 deg shifts the sight by 52.4 mm at 30 m: 13.1 px where a metre has 250 px.
TEST(Pole, ASlopeMovesThePicture) {
  EXPECT_NEAR(moved_in_picture(250 * 30, 0.1 * deg).in(px), 13.09, 0.005);
  EXPECT_NEAR(moved_in_picture(30, 0.1 * deg).in(px), 0.0524, 5e-5);
}

TEST(Pole, AThickerTubeBendsLessAndSwaysFaster) {
  for (double wall = 2; wall < 20; wall += 1) {
    Pole thin = tube(), thick = tube();
    thin.wall = wall * mm;
    thick.wall = (wall + 1) * mm;
    EXPECT_GT(bent_by_force(thin, 100.0 * N, Length{4}, Length{4}).shift,
              bent_by_force(thick, 100.0 * N, Length{4}, Length{4}).shift);
    EXPECT_GT(stress_at_foot(thin, Moment{400}), stress_at_foot(thick, Moment{400}));
  }
  EXPECT_GT(own_frequency(tube(), {{1.0 * kg, Length{3}}}), own_frequency(tube(), {{1.0 * kg, Length{4}}}));
  EXPECT_GT(own_frequency(tube(), {{1.0 * kg, Length{4}}}), own_frequency(tube(), {{5.0 * kg, Length{4}}}));
  EXPECT_NEAR(own_frequency(tube(), {{2.0 * kg, Length{4}}, {3.0 * kg, Length{4}}}).si(),
              own_frequency(tube(), {{5.0 * kg, Length{4}}}).si(), 1e-12);
}

/// With a mass at the top: (1 / 2 pi) sqrt(3EI / (L^3 (m + 0.24 m_pole))); from memory, any text on vibration.
TEST(Pole, SwaysWithAMassAtTheTopAsTheFormulaSays) {
  const double own = 7850 * 3.14159265 / 4 * (0.1143 * 0.1143 - 0.1071 * 0.1071) * 4;
  const double stiff = 3 * 210e9 * 1.9198e-6 / 64;
  EXPECT_NEAR(own_frequency(tube(), {{10.0 * kg, Length{4}}}).si(),
              std::sqrt(stiff / (10 + 0.24 * own)) / (2 * 3.14159265), 1e-3);
}

/// Without a mass the first own frequency of a cantilever is 1.8751^2 / (2 pi) sqrt(EI / (m L^4)); Rayleigh's share of
/// 0.24 comes to within 2 % of it.
TEST(Pole, SwaysAloneNearlyAsTheExactCantilever) {
  const Pole pole = tube();
  const double area = 3.14159265 / 4 * (0.1143 * 0.1143 - 0.1071 * 0.1071);
  const double exact = 1.8751 * 1.8751 / (2 * 3.14159265) *
                       std::sqrt(210e9 * second_moment(pole.outer, pole.wall).si() / (7850 * area * 256));
  EXPECT_NEAR(own_frequency(pole, {}).si() / exact, 1, 0.02);
}

}  // namespace
}  // namespace sightfall::site
