// SPDX-License-Identifier: GPL-3.0-or-later
#include "unit/electricity.h"

#include <gtest/gtest.h>

namespace sightfall {
namespace {

using namespace sightfall::units;

TEST(Electricity, OhmsLawAndPower) {
  constexpr Current current = 2.0 * A;
  constexpr Resistance loop = 6.0 * ohm;
  EXPECT_DOUBLE_EQ((current * loop).in(V), 12);
  EXPECT_DOUBLE_EQ((current * loop * current).in(W), 24);
}

TEST(Electricity, ABatteryHoldsItsVoltageTimesItsCharge) { EXPECT_NEAR((100.0 * Ah * (12.0 * V)).in(kWh), 1.2, 1e-12); }

// BIPM (2019): one ampere is 1/1.602176634e-19 elementary charges a second.
TEST(Electricity, AnAmpereIsANumberOfElectronsASecond) { EXPECT_NEAR(A.si(), 6.241509074e18, 1e9); }

}  // namespace
}  // namespace sightfall
