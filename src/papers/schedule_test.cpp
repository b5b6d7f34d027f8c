// SPDX-License-Identifier: GPL-3.0-or-later
// Schedules as comma-separated values (RFC 4180) and as a spreadsheet.
#include "papers/schedule.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "papers/spreadsheet.h"

namespace sightfall::papers {
namespace {

Schedule one() {
  return {"cables",
          {"label", "length, m"},
          {{"C1", 12.5}, {"a \"quoted\", name", 1.0}, {"=1+1", Cell{}}, {"line\nend", 0.1}, {"-5 V rail", 2.0}}};
}

TEST(Schedule, CommaSeparatedValuesAreQuotedWhereTheyMustBe) {
  EXPECT_EQ(csv_of(one()),
            "label,\"length, m\"\r\nC1,12.5\r\n\"a \"\"quoted\"\", name\",1\r\n'=1+1,\r\n\"line\nend\",0.1\r\n"
            "'-5 V rail,2\r\n");
}

TEST(Spreadsheet, IsTheSameEachTimeAndAnotherForAnotherDate) {
  const auto first = spreadsheet_of({one()}, "Yard", "2026-11-27"),
             second = spreadsheet_of({one()}, "Yard", "2026-11-27");
  ASSERT_TRUE(first && second);
  EXPECT_EQ(*first, *second);
  EXPECT_TRUE(first->starts_with("PK"));
  EXPECT_NE(*first, *spreadsheet_of({one()}, "Yard", "2026-11-28"));
  EXPECT_NE(*first, *spreadsheet_of({one()}, "Yard", "2026-11-27", draw::PaperSize::kLetter));
}

}  // namespace
}  // namespace sightfall::papers
