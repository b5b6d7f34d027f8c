// SPDX-License-Identifier: GPL-3.0-or-later
// Calibration: what an observation tells, what it cannot tell, and that saying nothing changes nothing.
#include "card/seen.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "card/laplace.h"
#include "need/test_project.h"

namespace sightfall::card {
namespace {

using namespace units;

CardRequest request() {
  CardRequest request;
  request.sheet = need::plain_sheet();
  request.sheet.infrared = camera::Infrared{};
  request.setting.focus = Length{20};
  request.typical = need::plain_typical();
  request.tables = {{"test", "test", {{"coarse", PixelDensity{25}}}}};
  return request;
}

/// A grey card by own infrared, exposed by hand.
Observation card_at(double distance, double gain = 0) {
  Observation one;
  one.distance = Length{distance};
  one.shutter = 0.02 * s;
  one.gain = gain;
  return one;
}

const Narrowed& the(const Calibration& calibration, const std::string& name) {
  return *std::find_if(calibration.parameters.begin(), calibration.parameters.end(),
                       [&](const Narrowed& one) { return one.name == name; });
}

TEST(Laplace, OneValueIsByPencil) {
  // A standard normal seen as 3 with an error of 0.5: precision 1 + 4, mode 12/5.
  const Posterior posterior = laplace(1, {{Datum::Kind::kValue, 3, 0.5}}, [](const auto& z) { return z; });
  EXPECT_NEAR(posterior.mode[0], 2.4, 1e-3);
  EXPECT_NEAR(posterior.deviation[0], 1 / std::sqrt(5.0), 1e-6);
}

TEST(Laplace, AReadingMovesTheModeToItsSide) {
  const Posterior posterior = laplace(1, {{Datum::Kind::kReading, 1, 1}}, [](const auto& z) { return z; });
  // The mode of -z^2/2 - ln(1 + e^-z) is where z = 1/(1 + e^z).
  EXPECT_NEAR(posterior.mode[0], 1 / (1 + std::exp(posterior.mode[0])), 1e-3);
  EXPECT_LT(posterior.deviation[0], 1);
}

TEST(Shown, AnInfraredLevelFallsAsTheDistanceAndRisesWithTheGain) {
  // A level is the root of the light, which falls with the square of the distance.
  const double near = shown(request(), card_at(10)).level, far = shown(request(), card_at(20)).level;
  EXPECT_NEAR(far / near, 0.5, 0.07);  // the air before the lens gives some back at any distance
  EXPECT_NEAR(shown(request(), card_at(20, 6.0206)).level / far, std::sqrt(2.0), 0.001);
}

TEST(Calibration, ABrightPictureTellsAStrongLampAndNothingOfTheRest) {
  CardRequest asked = request();
  asked.typical.infrared_draw.value = {2.5, 5, 10};
  asked.typical.read_noise.value = {1.25, 2.5, 5};
  Observation one = card_at(5, 40);
  one.level = shown(asked, one).level * std::sqrt(1.5);
  const Calibration calibration = narrowed(asked, {one}, "seen.json");
  const Narrowed& lamp = the(calibration, "infrared_efficiency");
  EXPECT_TRUE(lamp.told);
  EXPECT_GT(lamp.after.nominal, lamp.before.nominal);
  EXPECT_LT(lamp.after.high / lamp.after.low, 0.8 * lamp.before.high / lamp.before.low);
  EXPECT_FALSE(the(calibration, "read_noise").told);
  EXPECT_EQ(calibration.observations, 1U);
  EXPECT_EQ(lamp.unit, asked.typical.infrared_efficiency.unit);
  ASSERT_EQ(calibration.estimates.size(), 3U);  // the lamp's draw and the response are held
  EXPECT_EQ(calibration.estimates[0].source, "from 1 observation in seen.json");
  // The sheet with the estimates shows what was seen.
  asked.sheet = with(asked.sheet, calibration.estimates);
  EXPECT_NEAR(shown(asked, one).level, *one.level, 0.03);
}

TEST(Calibration, WithoutObservationsNothingIsTold) {
  EXPECT_TRUE(narrowed(request(), {}, "seen.json").estimates.empty());
}

TEST(Calibration, AnEstimateStandsInForTheOneOfItsName) {
  camera::Sheet sheet;
  sheet.estimates = {{"full_well", {1, 2, 3}, "old"}, {"glare", {0, 0, 0}, "old"}};
  const camera::Sheet changed = with(sheet, {{"full_well", {4, 5, 6}, "new"}, {"read_noise", {1, 1, 1}, "new"}});
  ASSERT_EQ(changed.estimates.size(), 3U);
  EXPECT_EQ(changed.estimates[0].source, "new");
  EXPECT_EQ(changed.estimates[1].source, "old");
}

}  // namespace
}  // namespace sightfall::card
