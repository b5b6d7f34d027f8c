// SPDX-License-Identifier: GPL-3.0-or-later
// Rates of clips from text: which clip counts, and the mistakes of one file and between files.
#include "file/measured_file.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "file/project.h"

namespace sightfall::file {
namespace {

using namespace units;
using ::testing::HasSubstr;

/// Two cameras of one sheet; `capped` has a stream under 6 Mbit/s, `plain` states none.
need::Project site() {
  auto project = parse_project(
      R"({"sightfall": 1, "name": "test",
          "site": {"mounts": [{"name": "post", "at": [0, 0], "height_m": 3}]},
          "conditions": [{"name": "noon", "leaves": "on"}, {"name": "midnight", "leaves": "off", "light": "dark night"}],
          "cameras": [{"name": "capped", "sheet": "s", "mount": "post", "heading_deg": 0,
                       "stream": {"codec": "H.264", "control": "capped", "bit_rate_kbps": 6000}},
                      {"name": "plain", "sheet": "s", "mount": "post", "heading_deg": 0}],
          "catalogue": [{"name": "s", "pixels": [640, 360], "focal_mm": 4, "f_number": 1.6, "view_deg": 80,
                         "frame_rates": [20]}],
          "settings": {"level_table": "2025"}})",
      "site.json");
  EXPECT_TRUE(project.has_value()) << (project ? "" : to_line(project.error().front()));
  return project ? std::move(*project) : need::Project{};
}

std::string marks(const std::string& camera, const std::string& condition, const std::string& clips) {
  return R"({"sightfall_walk": 1, "camera": ")" + camera + R"(", "condition": ")" + condition + R"(", "clips": )" +
         clips + "}";
}

const char* const kBoth = R"([{"capped": false, "mean_kbps": 9000}, {"capped": true, "mean_kbps": 4000}])";
const char* const kFree = R"([{"capped": false, "mean_kbps": 9000}])";

std::string errors_of(const std::string& text) {
  const auto measured = parse_measured(text, "marks.json", site());
  if (measured) return "";
  std::string lines;
  for (const Error& error : measured.error()) lines += to_line(error) + '\n';
  return lines;
}

TEST(MeasuredFile, TheClipUnderTheStreamsRateCounts) {
  const auto measured = parse_measured(marks("capped", "midnight", kBoth), "marks.json", site());
  ASSERT_TRUE(measured.has_value());
  EXPECT_EQ(measured->camera, "capped");
  EXPECT_EQ(measured->condition, "midnight");
  EXPECT_TRUE(measured->night);
  EXPECT_NEAR(measured->rate.in(kbit / s), 4000, 1e-9);
}

TEST(MeasuredFile, AStreamWithoutARateHasItsOnlyClip) {
  const auto measured = parse_measured(marks("plain", "noon", kFree), "marks.json", site());
  ASSERT_TRUE(measured.has_value());
  EXPECT_FALSE(measured->night);
  EXPECT_NEAR(measured->rate.in(kbit / s), 9000, 1e-9);
}

TEST(MeasuredFile, AClipFreeOfTheRateIsNotTakenForOneUnderIt) {
  EXPECT_EQ(errors_of(marks("capped", "noon", kFree)),
            "marks.json: clips: found none under a rate; allowed is a clip under the 6 Mbit/s of the stream of "
            "\"capped\": walk again\n");
}

TEST(MeasuredFile, TellsMistakesByField) {
  EXPECT_EQ(errors_of("{}"),
            "marks.json: sightfall_walk: missing; allowed is the marks.json that `sightfall walk --clip` writes\n");
  EXPECT_THAT(errors_of(R"({"sightfall_walk": 2})"), HasSubstr("sightfall_walk: found 2; allowed is 1"));
  EXPECT_EQ(errors_of(marks("gate", "dusk", kBoth)),
            "marks.json: camera: no camera of the site is called \"gate\"; allowed: \"capped\", \"plain\"\n"
            "marks.json: condition: no condition of the site is called \"dusk\"; allowed: \"noon\", \"midnight\"\n");
  EXPECT_THAT(errors_of(R"({"sightfall_walk": 1, "camera": 3})"),
              HasSubstr("camera: found 3; allowed is the name of a camera of the site"));
  EXPECT_THAT(errors_of(marks("plain", "noon", "[]")), HasSubstr("clips: found []; allowed"));
  EXPECT_EQ(errors_of(marks("plain", "noon", R"([{"capped": 1, "mean_kbps": -3}])")),
            "marks.json: clips[0].capped: found 1; allowed is true or false\n"
            "marks.json: clips[0].mean_kbps: found -3; allowed is a number from 0.001 to 1000000000 kbit/s\n");
  EXPECT_THAT(errors_of("[1]"), HasSubstr("sightfall_walk: missing"));
  EXPECT_NE(errors_of("{"), "");
}

TEST(MeasuredFile, AFileThatIsNotThereIsAnError) {
  const auto measured = load_measured({"/nowhere/marks.json"}, site());
  ASSERT_FALSE(measured.has_value());
  EXPECT_EQ(measured.error().front().where.file, "/nowhere/marks.json");
}

}  // namespace
}  // namespace sightfall::file
