// SPDX-License-Identifier: GPL-3.0-or-later
// Claims about light: a lamp that is strong enough holds, one that is not does not, and what is unknown depends.
#include "card/night_claims.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "need/test_project.h"

namespace sightfall::card {
namespace {

CardRequest request(double intensity, double lux) {
  CardRequest asked;
  asked.sheet = need::plain_sheet("eye");
  camera::Infrared lamp;
  lamp.intensity = RadiantIntensity{intensity};
  lamp.half_power = 60 * units::deg;
  lamp.reach = Length{20};
  asked.sheet.infrared = lamp;
  asked.sheet.sensor = camera::SensorFacts{.full_well = 10000, .largest_gain = 0};  // nothing burns out
  asked.sheet.lowest_light_lux = lux;
  asked.typical = need::plain_typical();
  asked.tables = {
      {"plain", "test", {{"first", PixelDensity{5}}, {"second", PixelDensity{20}}, {"third", PixelDensity{40}}}}};
  return asked;
}

std::vector<Claim> claims_of(const CardRequest& asked) {
  std::vector<Claim> claims;
  add_night_claims(asked, OpenGround{asked, card_night()}, claims);
  return claims;
}

TEST(InfraredReach, HoldsByItsLight) {
  EXPECT_EQ(claims_of(request(200, 1)).at(0).holds, Holds::kYes);
  EXPECT_EQ(claims_of(request(0.001, 1)).at(0).holds, Holds::kNo);
  CardRequest unknown = request(200, 1);
  unknown.sheet.infrared->intensity.reset();
  unknown.typical.infrared_draw.value = {0.001, 300, 1000};
  EXPECT_EQ(claims_of(unknown).at(0).holds, Holds::kDepends);
}

TEST(LowestLight, IsHeldToTheFirstAcceptableSignalToNoise) {
  EXPECT_EQ(claims_of(request(1, 100)).at(1).holds, Holds::kYes);
  EXPECT_EQ(claims_of(request(1, 1e-5)).at(1).holds, Holds::kNo);
}

TEST(LowestLight, DependsOnTheModeWhenOnlyMonochromeReachesIt) {
  // Without the filter a lamp of 2856 K gives near infrared beside its light: some lux hold in monochrome alone.
  bool depends = false;
  for (double lux = 1e-3; lux < 10; lux *= 1.2) depends |= claims_of(request(1, lux)).at(1).holds == Holds::kDepends;
  EXPECT_TRUE(depends);
}

TEST(PowerClass, IsWhatTheStandardLeavesADevice) {
  const auto holds = [](double watts) {
    camera::Sheet sheet = need::plain_sheet("eye");
    sheet.power.supply = "PoE class 3";
    sheet.power.largest = watts * units::W;
    const auto claims = audit(sheet);
    return std::find_if(claims.begin(), claims.end(), [](const Claim& c) { return c.claim == "power class"; })->holds;
  };
  EXPECT_EQ(holds(12.5), Holds::kYes) << "by a hair: 96.5 % of 12.95 W";
  EXPECT_EQ(holds(13), Holds::kNo);
}

}  // namespace
}  // namespace sightfall::card
