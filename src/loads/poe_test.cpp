// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/poe.h"

#include <gtest/gtest.h>

#include <array>

#include "loads/copper.h"

namespace sightfall::loads {
namespace {

using namespace units;

// IEEE 802.3, classes 0 to 8: what a device may draw is what is left of the port's power behind the longest channel,
// P - R (P / U)^2, within 0.2 % of the published powers.
TEST(PowerClass, TheArithmeticClosesOnEveryClass) {
  constexpr std::array<double, 9> kDevice{12.95, 3.84, 6.49, 12.95, 25.5, 40, 51, 62, 71.3};
  for (int number = 0; number <= 8; ++number) {
    const PowerClass& one = power_class(number);
    EXPECT_EQ(one.device.in(W), kDevice.at(static_cast<size_t>(number)));
    EXPECT_NEAR(left_of(one.port, one.least, one.channel).in(W), one.device.in(W), 0.002 * one.device.in(W)) << number;
  }
}

// The currents at that point: 0.350, 0.0909, 0.1591, 0.350, 0.600, 0.900, 1.200, 1.442, 1.731 A; volts at the device.
TEST(PowerClass, CurrentsAndVoltagesAtThatPoint) {
  constexpr std::array<double, 9> kAmperes{0.350, 0.0909, 0.1591, 0.350, 0.600, 0.900, 1.200, 1.442, 1.731};
  constexpr std::array<double, 9> kVolts{37.0, 42.2, 40.8, 37.0, 42.5, 44.4, 42.5, 43.0, 41.2};
  for (int number = 0; number <= 8; ++number) {
    const PowerClass& one = power_class(number);
    const Current current = one.port / one.least;
    EXPECT_NEAR(current.in(A), kAmperes.at(static_cast<size_t>(number)), 6e-4);
    EXPECT_NEAR((one.least - current * one.channel).in(V), kVolts.at(static_cast<size_t>(number)), 0.06);
  }
}

TEST(PowerClass, TwelveAndAHalfWattsPassClassThreeByAHairAndThirteenDoNot) {
  EXPECT_EQ(class_for(12.5 * W), 3);
  EXPECT_NEAR((power_class(3).device - 12.5 * W).in(W), 0.45, 1e-9);
  EXPECT_EQ(class_for(13.0 * W), 4);
  EXPECT_FALSE(class_for(71.4 * W));
}

TEST(PowerClass, IsReadFromASheetsWords) {
  EXPECT_EQ(class_in_words("PoE class 3"), 3);
  EXPECT_EQ(class_in_words("poe Class 0"), 0);
  EXPECT_EQ(class_in_words("PoE class 2 or 12 V DC"), 2);
  EXPECT_FALSE(class_in_words("12 V DC"));
  EXPECT_FALSE(class_in_words("class 3"));
  EXPECT_FALSE(class_in_words("PoE class 12"));
  EXPECT_FALSE(class_in_words("PoE"));
}

// IEEE 802.3af (2003) gives 15.4 W, 802.3at (2009) 30 W, 802.3bt (2018) as type 3 60 W, as type 4 90 W: the highest
// class of each. (Clauses and years as the kernel's documentation of PSE lists them; type 4 by the class table.)
TEST(PowerClass, IsThatOfTheAmendmentWhereASheetNamesNone) {
  EXPECT_EQ(class_in_words("IEEE 802.3af"), 3);
  EXPECT_EQ(class_in_words("PoE (802.3 af), 12 V DC"), 3);
  EXPECT_EQ(class_in_words("PoE, 802.3af/at"), 4);
  EXPECT_EQ(class_in_words("PoE+"), 4);
  EXPECT_EQ(class_in_words("802.3af at 48 V"), 3);
  EXPECT_EQ(class_in_words("802.3bt type 3"), 6);
  EXPECT_EQ(class_in_words("PoE++ (802.3bt)"), 8);
  EXPECT_EQ(class_in_words("PoE+ (802.3at) class 3"), 3);
  EXPECT_EQ(power_class(3).port, 15.4 * W);
  EXPECT_EQ(power_class(4).port, 30.0 * W);
  EXPECT_EQ(power_class(6).port, 60.0 * W);
  EXPECT_EQ(power_class(8).port, 90.0 * W);
  EXPECT_TRUE(names_poe("802.3at"));
  EXPECT_FALSE(names_poe("12 V DC"));
}

/// A device at its class's limit behind the longest channel takes what the port gives.
TEST(PowerClass, AtThePortTheCablesLossIsAdded) {
  for (int number = 1; number <= 8; ++number) {
    const PowerClass& one = power_class(number);
    EXPECT_NEAR(at_port(one, one.channel, one.device)->in(W), one.port.in(W), 0.006 * one.port.in(W));
    EXPECT_EQ(at_port(one, Resistance{0}, one.device), one.device);
  }
}

}  // namespace
}  // namespace sightfall::loads
