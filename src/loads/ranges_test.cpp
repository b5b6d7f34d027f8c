// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/ranges.h"

#include <gtest/gtest.h>

#include <cmath>

namespace sightfall::loads {
namespace {

TEST(Ranges, OneInputGivesItsOwnRange) {
  const auto product_of_one = product({{2, 3, 5}});
  EXPECT_NEAR(product_of_one.low, 2, 1e-12);
  EXPECT_NEAR(product_of_one.high, 5, 1e-12);
}

TEST(Ranges, TwoAlikeSpreadByTheRootOfTwo) {
  const auto two = product({{0.5, 1, 2}, {0.5, 1, 2}});
  EXPECT_NEAR(two.high, std::pow(2.0, std::sqrt(2.0)), 1e-12);
  EXPECT_NEAR(two.low, 1 / two.high, 1e-12);
}

TEST(Ranges, AnInputThatDividesIsTurnedAbout) {
  const auto inverse = spread({{2, 4, 16}}, [](const std::vector<double>& at) { return 1 / at[0]; });
  EXPECT_NEAR(inverse.low, 1.0 / 16, 1e-12);
  EXPECT_NEAR(inverse.nominal, 0.25, 1e-12);
  EXPECT_NEAR(inverse.high, 0.5, 1e-12);
}

}  // namespace
}  // namespace sightfall::loads
