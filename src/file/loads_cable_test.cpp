// SPDX-License-Identifier: GPL-3.0-or-later
// The cables' part of the loads' answer: names of units, nulls for what is not there. Its shape is held by the schema.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "file/loads_answer.h"

namespace sightfall::file {
namespace {

using namespace units;
using ::testing::AllOf;
using ::testing::HasSubstr;

struct Laid {
  site::Run run;
  site::Cable cable;
  loads::Cabling cabling;

  Laid() {
    run.name = "C1", run.from = "shop switch", run.to = "till", run.cable = "pairs";
    cable.name = "pairs";
    loads::LaidRun laid;
    laid.run = &run, laid.cable = &cable;
    laid.line = {{0, 0, 2}, {0, 0, 3.0625}};
    laid.along = {"tray"};
    laid.length = {30.04 * m, 33.06 * m, 40.0 * m};
    laid.reach = loads::bear<Length>(laid.length, 100.0 * m, "a rule");
    laid.flags = {"lies in the sun"};
    cabling.runs = {laid};
    cabling.conduits = {{"pipe", 2, loads::bear<double>({0.2, 0.245, 0.3}, 0.31, "a table")}};
    cabling.to_buy = {{"pairs", laid.length, 1, {}}};
  }
  std::string text() const { return print_json(loads_value(cabling)); }
};

TEST(LoadsCable, TellsARunWithItsUnits) {
  const std::string text = Laid{}.text();
  EXPECT_THAT(text, AllOf(HasSubstr("\"run\": \"C1\""), HasSubstr("\"port\": null"), HasSubstr("\"stated\": false")));
  EXPECT_THAT(text, AllOf(HasSubstr("\"low\": 30,"), HasSubstr("\"nominal\": 33.1,"), HasSubstr("\"high\": 40 ")));
  EXPECT_THAT(text, AllOf(HasSubstr("\"capacity_m\": 100"), HasSubstr("\"remedy\": null")));
  EXPECT_THAT(text, AllOf(HasSubstr("3.063"), HasSubstr("lies in the sun")));
}

TEST(LoadsCable, TellsAPortAStatedLengthAndAKindWithoutALongestLength) {
  Laid laid;
  laid.run.port = 3;
  laid.run.length = 30.0 * m;
  laid.cabling.runs.front().reach.capacity = {};
  EXPECT_THAT(laid.text(),
              AllOf(HasSubstr("\"port\": 3"), HasSubstr("\"stated\": true"), HasSubstr("\"capacity_m\": null")));
}

TEST(LoadsCable, TellsFillAndWhatToBuy) {
  EXPECT_THAT(Laid{}.text(), AllOf(HasSubstr("\"capacity_share\": 0.31"), HasSubstr("\"nominal\": 0.245,"),
                                   HasSubstr("\"cables\": 2"), HasSubstr("\"runs\": 1")));
}

}  // namespace
}  // namespace sightfall::file
