// SPDX-License-Identifier: GPL-3.0-or-later
// What holds a camera, in words.
#include "papers/fixing_words.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace sightfall::papers {
namespace {

using namespace units;
using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;

site::Mount on_brick() {
  site::Mount mount;
  mount.name = "wall";
  mount.surface = "brick";
  site::Fixing fixing;
  fixing.count = 3;
  fixing.allowable = 300 * N;
  mount.fixing = fixing;
  return mount;
}

TEST(FixingWords, TellKindSizeAndWhatOneMustCarry) {
  EXPECT_EQ(fixing_words(*on_brick().fixing), "anchor, for at least 300 N each there");
  site::Fixing screw;
  screw.kind = site::FixingKind::kWoodScrew;
  screw.diameter = 4.5 * mm;
  screw.depth = 40 * mm;
  EXPECT_EQ(fixing_words(screw), "wood screw, 4.5 mm, 40 mm deep");
}

TEST(FixingWords, OfAMountAsTheDocumentHasIt) {
  site::Mount mount = on_brick();
  EXPECT_EQ(held_by_words({}, mount), "3 x anchor, for at least 300 N each there, into brick");
  mount.fixing->spread = 90 * mm;
  EXPECT_THAT(held_by_words({}, mount), HasSubstr("upper and lower ones 90 mm apart"));
  mount.held_by = site::HeldBy::kCeiling;
  EXPECT_THAT(held_by_words({}, mount), AllOf(HasSubstr("into brick, overhead"), HasSubstr("across 90 mm apart")));
  mount.held_by.reset();
  mount.fixing = site::Fixing{};
  mount.fixing->kind = site::FixingKind::kClamp;
  mount.surface = "steel pole";
  EXPECT_THAT(held_by_words({}, mount), HasSubstr("x clamp, on steel pole"));
}

TEST(FixingWords, SayWhatToFindOutWhereNothingIsStated) {
  site::Mount mount = on_brick();
  mount.fixing.reset();
  mount.surface.clear();
  Job job;
  loads::HeldMount held;
  held.mount = "wall";
  held.pull.remedy = "find out what holds it: each upper fixing must carry 123 N";
  job.here.loads.mount.mounts = {held};
  EXPECT_THAT(held_by_words(job, mount),
              AllOf(HasSubstr("no fixing is stated"), HasSubstr("look, and ask"), HasSubstr("must carry 123 N")));
}

TEST(BracketWords, HaveTheSizesThatAreKnownAndInventNone) {
  const site::Mount mount = on_brick();
  camera::Sheet sheet;
  sheet.name = "Larch";
  CameraPart part;
  part.mount = &mount;
  part.sheet = &sheet;
  EXPECT_THAT(bracket_words(part), AllOf(HasSubstr("for Larch on brick"), Not(HasSubstr(" mm"))));
  sheet.body = camera::Ends<Length>{90 * mm, 120 * mm};
  EXPECT_THAT(bracket_words(part), HasSubstr("90 x 120 mm"));
}

}  // namespace
}  // namespace sightfall::papers
