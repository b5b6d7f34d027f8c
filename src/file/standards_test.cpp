// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <numbers>
#include <set>
#include <string>

#include "detail/typical_entries.h"
#include "file/project.h"

namespace sightfall::file {
namespace {

using namespace units;

TEST(Typical, EveryEntryIsWithinItsBoundsAndSaysWhereItComesFrom) {
  std::set<std::string_view> names;
  for (const detail::TypicalEntry& entry : detail::typical_entries()) {
    EXPECT_TRUE(names.insert(entry.name).second) << entry.name;
    const detail::TypicalValue& value = default_typical().*entry.member;
    EXPECT_LE(entry.lowest, value.value.low) << entry.name;
    EXPECT_LE(value.value.low, value.value.nominal) << entry.name;
    EXPECT_LE(value.value.nominal, value.value.high) << entry.name;
    EXPECT_LE(value.value.high, entry.highest) << entry.name;
    for (const std::string* text : {&value.unit, &value.meaning, &value.source, &value.settle})
      EXPECT_FALSE(text->empty()) << entry.name;
  }
}

TEST(Typical, HoldsTheValuesOfTheTable) {
  EXPECT_EQ(default_typical().shutter_slowest.value, (Ranged<double>{0.0167, 0.04, 0.0833}));
  EXPECT_EQ(default_typical().height_object.unit, "m");
}

TEST(Materials, GiveBackBetweenNothingAndAll) {
  const light::Materials& materials = default_materials();
  for (const light::Material& material : materials.all) {
    for (const light::Band band : light::kBands) {
      EXPECT_GE(material.reflectance[band], 0) << material.name;
      EXPECT_LE(material.reflectance[band], 1) << material.name;
    }
    EXPECT_FALSE(material.source.empty()) << material.name;
  }
}

TEST(Materials, TheUsualOnesAreInTheTable) {
  const light::Materials& m = default_materials();
  for (const std::string* name : {&m.ground, &m.building, &m.wall, &m.box, &m.roof, &m.vehicle, &m.foliage, &m.mesh})
    EXPECT_NE(m.find(*name), nullptr) << *name;
}

// IEC 60228, the most at 20 degrees Celsius, ohm/km: classes 1 and 2 (solid), class 5 (flexible); 0.75 mm2 from memory.
TEST(Cables, ConductorsHaveTheResistancesOfTheirClass) {
  const std::map<std::string, double> solid{{"1.5", 12.1}, {"2.5", 7.41}, {"4", 4.61}, {"6", 3.08}, {"10", 1.83}};
  const std::map<std::string, double> flexible{{"0.75", 26.0}, {"1", 19.5}, {"1.5", 13.3}, {"2.5", 7.98},
                                               {"4", 4.95},    {"6", 3.30}, {"10", 1.91}};
  int held = 0;
  for (const site::Cable& cable : default_cables()) {
    if (cable.medium != site::CableMedium::kConductors || cable.name.find("mm2") == std::string::npos) continue;
    const std::string area = cable.name.substr(4, cable.name.find(" mm2") - 4);  // of `2 x 1.5 mm2, flexible`
    const auto& table = cable.name.find("flexible") != std::string::npos ? flexible : solid;
    ASSERT_TRUE(table.contains(area)) << cable.name;
    EXPECT_NEAR(cable.resistance->in(ohm / km), table.at(area), 1e-9) << cable.name;
    ++held;
  }
  EXPECT_GE(held, 6);
}

// Published AWG tables at 20 degrees Celsius, ohm/km, solid: 18 AWG 20.948, 16 AWG 13.174 (4.016 ohm a thousand feet),
// 14 AWG 8.285, within 0.1 %; diameters 0.127 mm x 92^((36 - n) / 39) of copper of 0.017241 ohm mm2/m.
TEST(Cables, ConductorsByGaugeHaveTheResistancesOfTheirs) {
  const std::map<int, double> table{{18, 20.948}, {16, 13.174}, {14, 8.285}};
  size_t held = 0;
  for (const site::Cable& cable : default_cables()) {
    if (cable.medium != site::CableMedium::kConductors || cable.name.find("AWG") == std::string::npos) continue;
    const int gauge = std::stoi(cable.name.substr(4));  // of `2 x 18 AWG, solid`
    ASSERT_TRUE(table.contains(gauge)) << cable.name;
    const double in_ohm_per_km = cable.resistance->in(ohm / km);
    EXPECT_NEAR(in_ohm_per_km, table.at(gauge), 1e-9) << cable.name;
    const double diameter = 0.127 * std::pow(92, (36.0 - gauge) / 39);
    EXPECT_NEAR(in_ohm_per_km, 17.241 / (std::numbers::pi / 4 * diameter * diameter), 1e-3 * in_ohm_per_km);
    ++held;
  }
  EXPECT_EQ(held, table.size());
  EXPECT_NEAR(table.at(16) * 0.3048, 4.016, 2e-3);  // ohm a thousand feet
}

// Published AWG tables at 20 degrees Celsius, ohm/km: 24 AWG 84.21, 23 AWG 66.79, 28 AWG 212.9; a stranded cord has 20
// % more (ISO/IEC 11801, TIA-568). Horizontal cable has 93.8 ohm/km a conductor at the most, and a channel of 90 m of
// it and 10 m of cords 25 ohm out and back (TIA-568, ISO/IEC 11801, from memory).
TEST(Cables, PairsHaveTheResistancesOfTheirGauge) {
  const std::map<std::string, double> table{{"Cat5e U/UTP, indoor", 84.21},
                                            {"Cat5e U/UTP, outdoor", 84.21},
                                            {"Cat6 U/UTP, indoor", 66.79},
                                            {"Cat6 U/UTP, outdoor", 66.79},
                                            {"Cat6A F/UTP, outdoor", 66.79},
                                            {"Cat6 patch cord, stranded", 1.2 * 84.21},
                                            {"Cat6 thin patch cord, 28 AWG", 1.2 * 212.9}};
  size_t held = 0;
  for (const site::Cable& cable : default_cables()) {
    if (cable.medium != site::CableMedium::kPairs) continue;
    ASSERT_TRUE(table.contains(cable.name)) << cable.name;
    const double ohm_per_km = cable.resistance->in(ohm / km);
    EXPECT_NEAR(ohm_per_km, table.at(cable.name), 1e-3 * table.at(cable.name)) << cable.name;
    if (*cable.longest >= Length{100}) {
      EXPECT_LE(ohm_per_km, 93.8) << cable.name;
      EXPECT_LE(2 * (0.09 * ohm_per_km + 0.01 * 1.2 * 84.21), 25) << cable.name;
    }
    ++held;
  }
  EXPECT_EQ(held, table.size());
}

// By its area alone copper of IEC 60028 (1/58 ohm mm2/m) would have less: what a class allows is 4.3 to 16 % more, for
// strands and drawing, so that rho / S is no worst case.
TEST(Cables, ConductorsHaveMoreThanTheirAreaAlone) {
  for (const site::Cable& cable : default_cables()) {
    if (cable.medium != site::CableMedium::kConductors || cable.name.find("mm2") == std::string::npos) continue;
    const double mm2 = std::stod(cable.name.substr(4)), ideal = 1000.0 / 58 / mm2;
    EXPECT_GT(cable.resistance->in(ohm / km), 1.043 * ideal) << cable.name;
    EXPECT_LT(cable.resistance->in(ohm / km), 1.16 * ideal) << cable.name;
  }
}

TEST(Levels, TheNewestTableIsTheDefault) {
  need::Settings settings;
  ASSERT_NE(find_level_table(settings), nullptr);
  EXPECT_EQ(find_level_table(settings)->name, "2025");
  settings.level_table = "2014";
  EXPECT_EQ(find_level_table(settings)->find("identify")->least, 250.0 * (px / m));
  settings.level_table = "ours";
  EXPECT_EQ(find_level_table(settings), nullptr);
  settings.level_tables = {{"ours", "", {{"some", 10.0 * (px / m)}}}};
  EXPECT_EQ(find_level_table(settings), &settings.level_tables[0]);
}

TEST(Levels, OfTheStandardRise) {
  for (const detail::LevelTable& table : standard_level_tables())
    for (size_t i = 1; i < table.levels.size(); ++i)
      EXPECT_LT(table.levels[i - 1].least, table.levels[i].least) << table.name;
}

}  // namespace
}  // namespace sightfall::file
