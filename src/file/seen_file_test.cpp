// SPDX-License-Identifier: GPL-3.0-or-later
// Observations from text: what is read, and the mistakes that one observation makes by itself.
#include "file/seen_file.h"

#include <gtest/gtest.h>

namespace sightfall::file {
namespace {

std::string errors_of(const std::string& observation) {
  const auto seen = parse_observations(R"({"observations": [)" + observation + "]}", "seen.json");
  if (seen) return "";
  std::string lines;
  for (const Error& error : seen.error()) lines += to_line(error) + '\n';
  return lines;
}

TEST(SeenFile, IsRead) {
  const auto seen = parse_observations(
      R"({"observations": [{"distance_m": 20, "lux": 5, "level": 0.4, "noise": 0.02, "shutter_s": 0.04, "gain_db": 6},
                           {"distance_m": 8, "subject": "face", "read": true}]})",
      "seen.json");
  ASSERT_TRUE(seen.has_value());
  ASSERT_EQ(seen->size(), 2U);
  EXPECT_EQ((*seen)[0].distance, Length{20});
  EXPECT_EQ((*seen)[0].subject, card::SeenSubject::kGreyCard);
  EXPECT_EQ((*seen)[0].lux, 5.0);
  EXPECT_EQ((*seen)[0].shutter, Time{0.04});
  EXPECT_EQ((*seen)[0].gain, 6.0);
  EXPECT_EQ((*seen)[1].subject, card::SeenSubject::kFace);
  EXPECT_EQ((*seen)[1].read, true);
  EXPECT_EQ((*seen)[1].needed, PixelDensity{125});
}

TEST(SeenFile, TellsMistakesByField) {
  EXPECT_EQ(errors_of(R"({"distance_m": 20})"),
            "seen.json: observations[0]: level: missing; needed is at least one of level, noise and read\n");
  EXPECT_EQ(errors_of(R"({"distance_m": 20, "read": true})"),
            "seen.json: observations[0]: read: allowed only with subject \"face\" or \"plate\"\n");
  EXPECT_EQ(errors_of(R"({"distance_m": 20, "level": 0.5, "gain_db": 6})"),
            "seen.json: observations[0]: shutter_s: missing; shutter_s and gain_db are told together or not at all\n");
  EXPECT_NE(errors_of(R"({"distance_m": 20, "level": 1.5})").find("observations[0]: level: found 1.5"),
            std::string::npos);
}

}  // namespace
}  // namespace sightfall::file
