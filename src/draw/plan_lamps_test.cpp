// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/plan_lamps.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "draw/files.h"
#include "draw/key.h"
#include "draw/plan_layout.h"
#include "draw/signs.h"
#include "draw/test_plan.h"
#include "geom/pose.h"

namespace sightfall::draw {
namespace {

using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::Not;

site::Lamp lamp(const char* name, geom::PlanPoint at, double heading_deg, double tilt_deg) {
  site::Lamp one;
  one.name = name;
  one.at = at;
  one.heading = heading_deg * units::deg;
  one.tilt = tilt_deg * units::deg;
  return one;
}

/// A lamp in the open that burns, tilted to the east, one that is off and shines straight down, and one far off.
Yard lit_yard() {
  Yard yard = made_yard(101);
  yard.project.site.lamps = {lamp("mast", {10, 20}, 90, 60), lamp("porch", {50, 20}, 0, 90),
                             lamp("far away", {500, 20}, 0, 90)};
  yard.burning = {"mast", "far away"};
  return yard;
}

std::vector<PlanLamp> lamps_on(const Yard& yard) { return lamps_on(yard.plan(), frame_around(yard.map)); }

std::vector<std::string> labels_of(const Yard& yard) {
  std::vector<std::string> texts;
  for (const PlacedLabel& label : laid_out(yard.plan(), DetailField{yard.map, yard.project.site}).labels)
    texts.push_back(label.text);
  return texts;
}

TEST(PlanLamps, StandInTheirPlacesAndPointAlongTheirAxes) {
  const Yard yard = lit_yard();
  const PlanFrame frame = frame_around(yard.map);
  const std::vector<PlanLamp> lamps = lamps_on(yard);
  ASSERT_EQ(lamps.size(), 2U);
  EXPECT_NEAR(geom::norm(lamps[0].at - frame.to_page(geom::PlanPoint{10, 20})), 0, 1e-9);
  EXPECT_NEAR(lamps[0].along.x, 0.5, 1e-12);
  EXPECT_NEAR(lamps[0].along.y, 0, 1e-12);
  EXPECT_NEAR(geom::norm(lamps[1].along), 0, 1e-12);
  EXPECT_TRUE(lamps[0].burning);
  EXPECT_FALSE(lamps[1].burning);
}

TEST(PlanLamps, NoSignLiesOverAMountOrAnotherLamp) {
  Yard yard = lit_yard();
  const geom::PlanPoint mount = yard.project.site.mounts[0].at;
  yard.project.site.lamps = {lamp("on the post", mount, 0, 90), lamp("beside it", {mount.x + 0.1, mount.y}, 0, 90),
                             lamp("the other side", {mount.x - 0.1, mount.y + 0.1}, 0, 90)};
  const PagePoint post = frame_around(yard.map).to_page(mount);
  const std::vector<PlanLamp> lamps = lamps_on(yard);
  ASSERT_EQ(lamps.size(), 3U);
  for (size_t i = 0; i < lamps.size(); ++i) {
    EXPECT_GT(geom::norm(lamps[i].at - post), kMountRadius + kLampRadius);
    EXPECT_LT(geom::norm(lamps[i].at - post), 4 * kMountRadius);
    const geom::PlanPoint hangs = yard.project.site.lamps[i].at;
    EXPECT_NEAR(geom::norm(lamps[i].place - frame_around(yard.map).to_page(hangs)), 0, 1e-9);
    for (size_t j = 0; j < i; ++j) EXPECT_GT(geom::norm(lamps[i].at - lamps[j].at), 2 * kLampRadius);
  }
}

TEST(PlanLamps, ASignBesideItsPlaceHasALineToIt) {
  const auto drawn = [](PagePoint place) {
    return drawn_svg({100, 100}, "", "",
                     [&](Canvas& c) {
                       draw_lamps(c, {{"lamp", place, {50, 50}, {}, true}});
                     })
        .value_or("");
  };
  const std::string at_its_place = drawn({50, 50}), beside = drawn({50, 80});
  EXPECT_THAT(beside, HasSubstr("M 50 80 L 50 50"));
  EXPECT_THAT(at_its_place, Not(HasSubstr(" L 50 50")));
}

TEST(PlanLamps, NoSignLiesOverACamerasHeadingOrTheWorstPlace) {
  Yard yard = lit_yard();
  const PlanFrame frame = frame_around(yard.map);
  const PagePoint post = frame.to_page(yard.project.site.mounts[0].at);
  const geom::PlanPoint heading = geom::heading_vector(yard.project.cameras[0].heading);
  const PagePoint ahead{heading.x, -heading.y}, tip = post + (kMountRadius + kHeadingTick) * ahead;
  const PagePoint worst = frame.to_page(geom::plan(yard.verdict.worst->at_site));
  const PagePoint on_tick = post + (kMountRadius + kHeadingTick / 2) * ahead;
  yard.project.site.lamps = {lamp("on the tick", frame.to_plan(on_tick), 0, 90),
                             lamp("on the worst", frame.to_plan(worst), 0, 90)};
  const std::vector<PlanLamp> lamps = lamps_on(yard);
  EXPECT_GT(distance_to_line({post, tip}, lamps[0].at), kLampRadius + 1);
  EXPECT_GT(geom::norm(lamps[1].at - worst), kLampRadius + kWorstArm);
}

TEST(PlanLamps, AreNamedBesideAndOnlyThoseOnThePicture) {
  const std::vector<std::string> labels = labels_of(lit_yard());
  EXPECT_THAT(labels, Contains("mast"));
  EXPECT_THAT(labels, Contains("porch"));
  EXPECT_THAT(labels, Not(Contains("far away")));
}

TEST(PlanLamps, TooManyAreDrawnWithoutNames) {
  Yard yard = lit_yard();
  yard.project.site.lamps.clear();
  for (int i = 0; i < 50; ++i)
    yard.project.site.lamps.push_back(lamp("row", {1 + 1.5 * (i % 10), 5 + 9.0 * (i / 10)}, 0, 90));
  EXPECT_EQ(lamps_on(yard).size(), 50U);
  EXPECT_THAT(labels_of(yard), Not(Contains("row")));
}

TEST(PlanLamps, TheKeyHasThoseOnThePicture) {
  Yard yard = lit_yard();
  EXPECT_THAT(key_names(yard.plan()), Contains("lamp, burning"));
  EXPECT_THAT(key_names(yard.plan()), Contains("lamp, off"));
  yard.burning = {"mast", "porch"};
  EXPECT_THAT(key_names(yard.plan()), Contains("lamp, burning"));
  EXPECT_THAT(key_names(yard.plan()), Not(Contains("lamp, off")));
  yard.burning.clear();
  yard.project.site.lamps.erase(yard.project.site.lamps.begin(), yard.project.site.lamps.begin() + 2);
  EXPECT_THAT(key_names(yard.plan()), Not(Contains(HasSubstr("lamp"))));
}

TEST(PlanLamps, BurningAndOffAreDrawnDifferently) {
  Yard yard = lit_yard();
  yard.project.site.lamps.resize(1);
  const auto picture = [&] { return draw_plan_map(yard.plan())->png; };
  const std::string burning = picture();
  yard.burning.clear();
  const std::string off = picture();
  yard.project.site.lamps[0].tilt = 90.0 * units::deg;
  const std::string upright = picture();
  EXPECT_TRUE(burning != off);
  EXPECT_TRUE(upright != off);
}

}  // namespace
}  // namespace sightfall::draw
