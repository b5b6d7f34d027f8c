// SPDX-License-Identifier: GPL-3.0-or-later
// Dates as they are given.
#include "papers/date.h"

#include <gtest/gtest.h>

namespace sightfall::papers {
namespace {

using namespace std::chrono_literals;

TEST(Date, IsADayOfTheCalendar) {
  EXPECT_EQ(date_of("2026-11-27"), 2026y / 11 / 27);
  EXPECT_EQ(date_of("2028-02-29"), 2028y / 2 / 29);
}

TEST(Date, NothingElseIsTaken) {
  for (const char* text : {"", "2026-02-29", "2026-13-01", "2026-00-10", "26-11-27", "2026-11-7", "2026/11/27",
                           "2026-11-27 ", "+026-11-27", "2026-11-+7", "-001-01-01"})
    EXPECT_FALSE(date_of(text)) << text;
}

}  // namespace
}  // namespace sightfall::papers
