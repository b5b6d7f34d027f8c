// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/field.h"

#include <gtest/gtest.h>

#include <random>

namespace sightfall::file {
namespace {

TEST(NumberIn, DecimalsComeBackAsTheyWereWritten) {
  for (const double unit : {units::deg.si(), units::mm.si(), units::nm.si(), units::ms.si(), 1.0})
    for (int i = -3600; i <= 3600; ++i) {
      const double written = i / 10.0;
      EXPECT_EQ(print_number(number_in(written * unit, unit)), print_number(written)) << unit;
    }
}

TEST(NumberIn, GivesTheSameNumberBack) {
  constexpr unsigned kSeed = 7;
  std::mt19937_64 random(kSeed);
  std::uniform_real_distribution<double> any(-400, 400);
  for (const double unit : {units::deg.si(), units::mm.si(), units::nm.si(), units::ms.si()})
    for (int i = 0; i < 20000; ++i) {
      const double si = any(random) * unit;
      EXPECT_EQ(number_in(si, unit) * unit, si) << "seed " << kSeed;
    }
}

TEST(Slot, AnUnsetValueIsNull) {
  std::optional<Length> value;
  const Slot length = slot(value, kMillimetres);
  EXPECT_TRUE(length.get().null());
  length.set(12);
  EXPECT_EQ(value, 12.0 * units::mm);
  EXPECT_EQ(length.get(), Value(12));
}

}  // namespace
}  // namespace sightfall::file
