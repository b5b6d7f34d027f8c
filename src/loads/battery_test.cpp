// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/battery.h"

#include <gtest/gtest.h>

namespace sightfall::loads {
namespace {

using namespace units;

// Worked examples of Peukert's plain form: 250 Ah, 1.3, 20 A: 5.0886 h; 100 Ah, 1.2, 5 A: 14.4956 h.
TEST(Battery, ThePlainFormGivesThePublishedHours) {
  EXPECT_NEAR(lasts_plain(250.0 * Ah, 1.3, 20.0 * A).in(hour), 5.088631644, 1e-6);
  EXPECT_NEAR(lasts_plain(100.0 * Ah, 1.2, 5.0 * A).in(hour), 14.4956, 1e-3);
}

// The rated form of the same label: 100 Ah over 20 h at 5 A are 20 h, not 14.5.
TEST(Battery, TheRatedFormGivesTheRatedTimeAtTheRatedCurrent) {
  EXPECT_NEAR(lasts(100.0 * Ah, 20.0 * hour, 1.2, 5.0 * A).in(hour), 20, 1e-9);
}

TEST(Battery, TheChargeForATimeLastsThatTime) {
  for (const double exponent : {1.0, 1.1, 1.3})
    for (const double hours : {0.5, 4.0, 40.0}) {
      const Charge charge = charge_for(hours * hour, 20.0 * hour, exponent, 3.0 * A);
      EXPECT_NEAR(lasts(charge, 20.0 * hour, exponent, 3.0 * A).in(hour), hours, 1e-9) << exponent;
    }
  EXPECT_NEAR(charge_for(20.0 * hour, 20.0 * hour, 1.2, 5.0 * A).in(Ah), 100, 1e-9);
}

TEST(Battery, MoreCurrentShortensItByMoreThanItsShare) {
  const Charge rated = 18.0 * Ah;
  for (double amperes = 1; amperes < 20; ++amperes) {
    const Time one = lasts(rated, 20.0 * hour, 1.2, amperes * A), two = lasts(rated, 20.0 * hour, 1.2, 2 * amperes * A);
    EXPECT_LT(two, one / 2);
  }
  EXPECT_NEAR(lasts(rated, 20.0 * hour, 1, 3.0 * A).in(hour), 6, 1e-9);  // an ideal one
}

}  // namespace
}  // namespace sightfall::loads
