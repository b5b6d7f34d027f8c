// SPDX-License-Identifier: GPL-3.0-or-later
// What whoever walks the test is told of each place.
#include "papers/on_the_spot.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "draw/document.h"
#include "papers/documents.h"
#include "papers/test_job.h"

namespace sightfall::papers {
namespace {

using namespace units;
using ::testing::HasSubstr;
using ::testing::Not;

TEST(WalkTest, APlaceThatMayFailAloneIsToldSo) {
  need::Project project = yard();
  Job job = job_of(project);
  need::Verdict& verdict = job.here.check.verdicts.front();
  ASSERT_TRUE(verdict.worst);
  verdict.answer = need::Answer::kMet;
  EXPECT_THAT(draw::words_of(field_sheet(job)), Not(HasSubstr("this place alone may fail")));
  verdict.worst->delivered.nominal = 0.5 * verdict.required;
  project.needs.front().share = 0.3;
  EXPECT_THAT(
      draw::words_of(field_sheet(job)),
      HasSubstr("this place alone may fail: 30 % of \"yard\" is asked. Then try 10 spots spread evenly over it, "
                "of which 3 must pass"));
  verdict.answer = need::Answer::kMissed;
  EXPECT_THAT(draw::words_of(field_sheet(job)), Not(HasSubstr("this place alone may fail")));
}

TEST(WalkTest, WhatHangsOnALampInOtherLightIsWalkedThereToo) {
  need::Project project = yard();
  Job job = job_of(project);
  EXPECT_THAT(draw::words_of(field_sheet(job)), Not(HasSubstr("it hangs on")));
  need::ConditionShare night;
  night.condition = "night";
  night.worst_at = job.here.check.verdicts.front().worst->at_site;
  night.light = {{need::LightFrom::kLamp, "porch", 0.8}, {need::LightFrom::kLamp, "far one", 0.02}};
  job.here.check.verdicts.front().conditions.push_back(night);
  EXPECT_THAT(draw::words_of(field_sheet(job)), HasSubstr("night; it hangs on porch\n"));
}

TEST(WalkTest, WhichWayItGoesAndFacesIsSaidOnce) {
  need::Project project = yard();
  need::Need& need = project.needs.front();
  need.facing = need::Facing::kHeading;
  need.facing_heading = 90 * deg;
  ASSERT_NE(need::the_named(project.site.places, need.place).kind, site::PlaceKind::kRoute);
  const std::string words = draw::words_of(field_sheet(job_of(project)));
  EXPECT_THAT(words, HasSubstr("over the mark, heading 90.0 deg"));
  EXPECT_THAT(words, Not(HasSubstr("facing 90.0 deg")));
}

}  // namespace
}  // namespace sightfall::papers
