// SPDX-License-Identifier: GPL-3.0-or-later
// Lamps, conditions, materials and what sheets and cameras say of light, as documents give them. The errors stand in
// schema/examples/bad.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include "file/describe.h"
#include "file/golden_test.h"
#include "file/project.h"
#include "light/sky.h"

namespace sightfall::file {
namespace {

using namespace units;

std::string document(const std::string& site, const std::string& condition) {
  return R"({"sightfall": 1, "name": "t", "site": {)" + site + R"(}, "conditions": [{"name": "c", "leaves": "on")" +
         condition + "}]}";
}

need::Project parsed(const std::string& text) {
  auto project = parse_project(text, "t");
  EXPECT_TRUE(project.has_value()) << to_line(project.error().front()) << "\n" << text;
  return project ? *project : need::Project{};
}

/// The only error, without its place; none or more are told.
std::string error_of(const std::string& text) {
  const auto project = parse_project(text, "t");
  if (project) return "none";
  return project.error().size() == 1 ? to_line(project.error()[0]) : std::to_string(project.error().size()) + " errors";
}

std::string anchor(const std::string& zone) {
  return R"("anchor": {"latitude_deg": 48.9, "longitude_deg": 2.3)" +
         (zone.empty() ? "" : R"(, "time_zone": ")" + zone + "\"") + "}";
}

constexpr const char* kLamps = R"("lamps": [{"name": "a", "at": [0, 0], "height_m": 5, "lumens": 900},
                                            {"name": "b", "at": [1, 0], "height_m": 5, "lumens": 900}])";

TEST(Lamp, DefaultsAreThoseOfTheDescription) {
  const site::Lamp lamp = parsed(document(kLamps, "")).site.lamps[0];
  EXPECT_EQ(lamp.tilt, 90.0 * deg);
  EXPECT_EQ(lamp.heading, 0.0 * deg);
  EXPECT_EQ(lamp.light, site::LampLight::kLed);
  EXPECT_EQ(lamp.burns, site::Burns::kAfterDark);
  EXPECT_EQ(lamp.lumens, 900.0 * lm);
  EXPECT_EQ(lamp.beam, std::nullopt);
}

TEST(Condition, SaysNothingOfLightUnlessAsked) {
  const site::Condition condition = parsed(document("", "")).conditions[0];
  EXPECT_TRUE(condition.ample());
  EXPECT_EQ(condition.air, site::AirKind::kClear);
  EXPECT_FALSE(condition.lamps.has_value());
}

TEST(Condition, TheManualSaysWhichNamedLightsLightLamps) {
  const std::string manual = document_manual();
  const size_t lit = manual.find("light the lamps that burn"), out = manual.find("put them out");
  ASSERT_LT(lit, out);
  ASSERT_NE(out, std::string::npos);
  const Words names = named_light_words();
  for (size_t i = 0; i < names.size(); ++i) {
    const light::SkyLight sky = light::named_sky(static_cast<light::NamedSky>(i));
    const size_t at = manual.find(fmt::format("\"{}\" ({} lx)", names[i], print_number(sky.diffuse.in(lx))));
    ASSERT_LT(at, out) << names[i];
    EXPECT_EQ(at < lit, sky.dark) << names[i];
  }
}

TEST(Condition, ADateBecomesAnInstant) {
  const need::Project p =
      parsed(document(anchor("Europe/Paris"), R"(, "date": "2026-07-01", "time": "12:00", "sky": "overcast")"));
  EXPECT_EQ(p.conditions[0].when, (site::ClockTime{2026, 7, 1, 12, 0}));
  EXPECT_EQ(p.conditions[0].weather, site::Weather::kOvercast);
  EXPECT_NEAR(p.conditions[0].julian_day, 2461222.5 + 10. / 24, 1e-9);  // 10:00 universal time
  EXPECT_EQ(parsed(to_text(p)).conditions[0].julian_day, p.conditions[0].julian_day);
}

TEST(Condition, NoLampsAreNotTheUsualLamps) {
  const need::Project p = parsed(document(kLamps, R"(, "light": "dark night", "lamps": [])"));
  ASSERT_TRUE(p.conditions[0].lamps.has_value());
  EXPECT_TRUE(p.conditions[0].lamps->empty());
  const need::Project again = parsed(to_text(p));
  EXPECT_TRUE(again.conditions[0].lamps.has_value());
  EXPECT_EQ(parsed(document(kLamps, R"(, "lamps": ["b"])")).conditions[0].lamps, std::vector<std::string>{"b"});
}

TEST(Condition, EachMistakeOfADateIsToldOnce) {
  const std::string paris = anchor("Europe/Paris"), noon = R"(, "time": "12:00")", may = R"(, "date": "2026-05-01")";
  const auto has = [](const std::string& text, const char* what) {
    EXPECT_NE(error_of(text).find(what), std::string::npos) << error_of(text);
  };
  has(document("", may + noon), "date: needs a site with an anchor");
  has(document(anchor(""), may + noon), "a site with no time zone");
  has(document(anchor("Nowhere/Town"), may + noon), "site.anchor: time_zone: found \"Nowhere/Town\"");
  has(document(paris, may), "time: missing");
  has(document(paris, noon), "date: missing");
  has(document(paris, R"(, "date": "2026-02-30")" + noon),
      "date: found day 30 of month 2, which has fewer days in 2026");
  has(document(paris, R"(, "date": "2026-13-01")" + noon), "date: found the text");
  has(document(paris, R"(, "date": "1949-12-31")" + noon), "date: found the text");
  has(document(paris, R"(, "date": "2101-01-01")" + noon), "date: found the text");
  has(document(paris, R"(, "date": "2026-5-1")" + noon), "date: found the text");
  has(document(paris, R"(, "date": 2026)" + noon), "date: found 2026");
  has(document(paris, may + R"(, "time": "24:00")"), "time: found the text");
  has(document(paris, R"(, "date": "2026-03-29", "time": "02:30")"), "time: found \"02:30\", which the clocks of");
  has(document(paris, R"(, "date": "2026-10-25", "time": "02:30")"), "twice that day, at 00:30 and at 01:30");
  has(document(paris, may + noon + R"(, "light": "dusk")"), "light: allowed only without date and time");
  has(document(paris, R"(, "sky": "storm")"), "date: missing; a sky");
  has(document(paris, R"(, "sky": "clear", "light": "dusk")"), "sky: allowed only with a date");
  has(document(paris, R"(, "sky": "storm", "date": 5)" + noon), "date: found 5");
}

TEST(Condition, AZoneThatNothingAsksForIsNotLookedUp) {
  EXPECT_EQ(error_of(document(anchor("Nowhere/Town"), "")), "none");
}

TEST(Anchor, ALatitudePastAPoleIsAnError) {
  const std::string text = document(R"("anchor": {"latitude_deg": 90.5, "longitude_deg": 0, "time_zone": "Etc/UTC"})",
                                    R"(, "date": "2026-05-01", "time": "12:00")");
  EXPECT_EQ(error_of(text), "t: site.anchor: latitude_deg: found 90.5; allowed is a number from -90 to 90 deg");
}

TEST(Sheet, SaysWhatIsKnownOfItsLight) {
  const auto sheet = load_sheet((source_folder() / "schema" / "examples" / "full.sheet.json").string());
  ASSERT_TRUE(sheet.has_value());
  EXPECT_EQ(sheet->infrared->intensity, RadiantIntensity{1.5});
  EXPECT_EQ(sheet->infrared->adaptive, true);
  EXPECT_EQ(sheet->infrared->focus_shift, 12.0 * um);
  EXPECT_EQ(sheet->sensor->read_noise, 1.8);
  EXPECT_EQ(sheet->metering, camera::Metering::kCentre);
  EXPECT_EQ(sheet->exposure_order, camera::ExposureOrder::kGainFirst);
  EXPECT_EQ(sheet->infrared_filter, false);
  ASSERT_EQ(sheet->estimates.size(), 2U);
  EXPECT_EQ(sheet->estimates[0].value, (Ranged<double>{0.3, 0.35, 0.4}));
}

TEST(Sheet, IsSavedAsItIsOrNotAtAll) {
  const auto sheet = load_sheet((source_folder() / "schema" / "examples" / "full.sheet.json").string());
  ASSERT_TRUE(sheet.has_value());
  const std::string path = testing::TempDir() + "sightfall_saved.sheet.json";
  ASSERT_TRUE(save_sheet(path, *sheet).has_value());
  EXPECT_EQ(text_of(path), to_text(*sheet));
  camera::Sheet wrong = *sheet;
  wrong.estimates[0].name = "no such entry";
  EXPECT_FALSE(save_sheet(path, wrong).has_value());
  EXPECT_EQ(text_of(path), to_text(*sheet));
  std::filesystem::remove(path);
}

}  // namespace
}  // namespace sightfall::file
