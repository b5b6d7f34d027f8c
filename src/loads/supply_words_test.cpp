// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/supply_words.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

namespace sightfall::loads {
namespace {

using namespace units;
using ::testing::ElementsAre;
using ::testing::IsEmpty;

/// Such as `12-24 DC, 24 AC, 9 ?`.
std::vector<std::string> read(std::string_view words) {
  std::vector<std::string> all;
  for (const NamedVoltage& one : voltages_in_words(words)) {
    const auto number = [](Potential v) { return fmt::format("{:g}", v.in(V)); };
    const std::string low = number(one.low), high = number(one.high);
    all.push_back((low == high ? low : low + "-" + high) + (!one.alternating   ? " ?"
                                                            : *one.alternating ? " AC"
                                                                               : " DC"));
  }
  return all;
}

TEST(SupplyWords, NamesVoltagesAsSheetsDo) {
  EXPECT_THAT(read("12 V DC"), ElementsAre("12 DC"));
  EXPECT_THAT(read("12VDC"), ElementsAre("12 DC"));
  EXPECT_THAT(read("DC 12 V"), ElementsAre("12 DC"));
  EXPECT_THAT(read("24 Vac"), ElementsAre("24 AC"));
  EXPECT_THAT(read("48 volts"), ElementsAre("48 ?"));
  EXPECT_THAT(read("12.5 V"), ElementsAre("12.5 ?"));
}

TEST(SupplyWords, NamesRangesAndSeveral) {
  EXPECT_THAT(read("12-24 V DC"), ElementsAre("12-24 DC"));
  EXPECT_THAT(read("9\u201336 V DC"), ElementsAre("9-36 DC"));
  EXPECT_THAT(read("9 to 36 V"), ElementsAre("9-36 ?"));
  EXPECT_THAT(read("12/24 V DC"), ElementsAre("12 DC", "24 DC"));
  EXPECT_THAT(read("12 or 24 V"), ElementsAre("12 ?", "24 ?"));
  EXPECT_THAT(read("12 V DC / 24 V AC"), ElementsAre("12 DC", "24 AC"));
  EXPECT_THAT(read("24 V AC/DC"), ElementsAre("24 ?"));
}

TEST(SupplyWords, IsNotMisledByOtherNumbers) {
  EXPECT_THAT(read("PoE class 3"), IsEmpty());
  EXPECT_THAT(read("PoE class 3 or 12 V DC"), ElementsAre("12 DC"));
  EXPECT_THAT(read("12 V DC \u00b1 10 %, 1 A"), ElementsAre("12 DC"));
  EXPECT_THAT(read("20 VA, 24 V AC"), ElementsAre("24 AC"));
  EXPECT_THAT(read("12 W"), IsEmpty());
  EXPECT_THAT(read(""), IsEmpty());
  EXPECT_THAT(read("V 12 -"), IsEmpty());
}

TEST(SupplyWords, ReadsATolerance) {
  const auto tolerance = [](std::string_view words) { return voltages_in_words(words).front().tolerance; };
  EXPECT_EQ(tolerance("12 V DC \u00b1 25 %"), 0.25);
  EXPECT_EQ(tolerance("12 V DC +/-10%, 1 A"), 0.1);
  EXPECT_EQ(tolerance("24 V AC +-20 %"), 0.2);
  EXPECT_FALSE(tolerance("12 V DC, 10 % off"));
  EXPECT_FALSE(tolerance("12 V DC"));
}

TEST(SupplyWords, TheLeastThatIsBorneFollowsFromWhatIsNamed) {
  site::Feed supply;
  const auto least = [&](std::string_view words, double volts) {
    supply.voltage = volts * V;
    return least_borne(voltages_in_words(words).front(), supply).in(V);
  };
  EXPECT_NEAR(least("12 V DC", 13.8), 10.8, 1e-9);
  EXPECT_NEAR(least("12 V DC \u00b1 25 %", 12), 9, 1e-9);
  EXPECT_NEAR(least("9-36 V DC", 12), 9, 1e-9);
  EXPECT_NEAR(least("12-24 V DC", 12), 10.8, 1e-9);
  EXPECT_NEAR(least("12-24 V DC", 24), 12, 1e-9);
}

TEST(SupplyWords, ASupplyIsBornWithinATenthBelowAndFifteenHundredthsAbove) {
  site::Feed supply;
  const auto bears_at = [&](std::string_view words, double volts, bool alternating = false) {
    supply.voltage = volts * V, supply.alternating = alternating;
    return bears(voltages_in_words(words).front(), supply);
  };
  EXPECT_TRUE(bears_at("12 V DC", 12));
  EXPECT_TRUE(bears_at("12 V DC", 13.8));
  EXPECT_TRUE(bears_at("12 V DC", 10.9));
  EXPECT_FALSE(bears_at("12 V DC", 10.7));
  EXPECT_FALSE(bears_at("12 V DC", 14.0));
  EXPECT_FALSE(bears_at("12 V DC", 24));
  EXPECT_TRUE(bears_at("12-24 V DC", 24));
  EXPECT_FALSE(bears_at("24 V DC", 24, true));
  EXPECT_FALSE(bears_at("24 V AC", 24));
  EXPECT_TRUE(bears_at("24 V AC/DC", 24, true));
  EXPECT_TRUE(bears_at("24 V", 24, true));
  EXPECT_TRUE(bears_at("12 V DC \u00b1 25 %", 15));
  EXPECT_FALSE(bears_at("12 V DC +-5 %", 11));
}

}  // namespace
}  // namespace sightfall::loads
