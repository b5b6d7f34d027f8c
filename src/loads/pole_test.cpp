// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/pole.h"

#include <gtest/gtest.h>

namespace sightfall::loads {
namespace {

using namespace units;

/// A tube of 114.3 x 3.6 mm, 4 m, steel.
site::Pole tube() { return {site::PoleMaterial::kSteel, 114.3 * mm, 3.6 * mm, Length{4}}; }

// Closed forms of the strength of materials, worked by hand for that tube: I 1.9198e-6 m4; 200 N at the tip 10.583 mm,
// 0.2274 deg, 23.81 MPa.
TEST(Pole, BendsUnderAForceAsTheFormulaSays) {
  EXPECT_NEAR(second_moment(114.3 * mm, 3.6 * mm).si(), 1.9198e-6, 1e-10);
  const Bend bend = bent_by_force(tube(), 200.0 * N, Length{4});
  EXPECT_NEAR(bend.shift.in(mm), 10.583, 0.005);
  EXPECT_NEAR(bend.slope.in(deg), 0.2274, 1e-4);
  EXPECT_NEAR(stress_at_foot(tube(), 200.0 * N * Length{4}).in(MPa), 23.81, 0.01);
}

// The same under an even 57.95 N/m (422.5 N/m2 on the tube's width, force coefficient 1.2): 4.600 mm, 0.08785 deg.
TEST(Pole, BendsUnderAnEvenLoadAsTheFormulaSays) {
  const Bend bend = bent_by_wind(tube(), LineLoad{57.95});
  EXPECT_NEAR(bend.shift.in(mm), 4.600, 0.002);
  EXPECT_NEAR(bend.slope.in(deg), 0.08785, 2e-5);
}

// A slope of 0.1 deg shifts the sight by 52.4 mm at 30 m: 13.1 px where a metre has 250 px.
TEST(Pole, ASlopeMovesThePicture) {
  EXPECT_NEAR(moved_in_picture(250 * 30, 0.1 * deg).in(px), 13.09, 0.005);
  EXPECT_NEAR(moved_in_picture(30, 0.1 * deg).in(px), 0.0524, 5e-5);
}

TEST(Pole, AThickerTubeBendsLessAndSwaysFaster) {
  for (double wall = 2; wall < 20; wall += 1) {
    site::Pole thin = tube(), thick = tube();
    thin.wall = wall * mm;
    thick.wall = (wall + 1) * mm;
    EXPECT_GT(bent_by_force(thin, 100.0 * N, Length{4}).shift, bent_by_force(thick, 100.0 * N, Length{4}).shift);
    EXPECT_GT(stress_at_foot(thin, Moment{400}), stress_at_foot(thick, Moment{400}));
  }
  EXPECT_GT(own_frequency(tube(), 1.0 * kg, Length{3}), own_frequency(tube(), 1.0 * kg, Length{4}));
  EXPECT_GT(own_frequency(tube(), 1.0 * kg, Length{4}), own_frequency(tube(), 5.0 * kg, Length{4}));
}

/// Without a mass the first own frequency of a cantilever is 1.8751^2 / (2 pi) sqrt(EI / (m L^4)); Rayleigh's share of
/// 0.24 comes to within 2 % of it.
TEST(Pole, SwaysAloneNearlyAsTheExactCantilever) {
  const site::Pole pole = tube();
  const double area = 3.14159265 / 4 * (0.1143 * 0.1143 - 0.1071 * 0.1071);
  const double exact = 1.8751 * 1.8751 / (2 * 3.14159265) *
                       std::sqrt(210e9 * second_moment(pole.outer, pole.wall).si() / (7850 * area * 256));
  EXPECT_NEAR(own_frequency(pole, Mass{0}, Length{4}).si() / exact, 1, 0.02);
}

}  // namespace
}  // namespace sightfall::loads
