// SPDX-License-Identifier: GPL-3.0-or-later
// The builder's plan for CAD: what is on which layer, at its place in metres.
#include "papers/site_dxf.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "file/golden_test.h"
#include "file/project.h"

namespace sightfall::papers {
namespace {

TEST(SiteDxf, HasCamerasWithTheirHeadingsAndNumbers) {
  const auto loaded =
      file::load_project((file::source_folder() / "tests" / "case" / "files" / "wired.sightfall.json").string());
  ASSERT_TRUE(loaded);
  Asked asked;
  asked.pictures = asked.mask_costs = false;
  const auto job = gathered(*loaded, nullptr, asked);
  ASSERT_TRUE(job);
  const import::DxfDrawing drawing = site_dxf(*job);
  const auto heading = std::find_if(drawing.lines.begin(), drawing.lines.end(), [](const import::DxfLine& line) {
    return line.layer == "CAMERAS" && line.points.size() == 2;
  });
  ASSERT_NE(heading, drawing.lines.end());
  EXPECT_NEAR(heading->points[1].x - heading->points[0].x, 2, 1e-9);  // east
  const auto number = std::find_if(drawing.words.begin(), drawing.words.end(),
                                   [](const import::DxfWords& one) { return one.layer == "CAMERA-NUMBERS"; });
  ASSERT_NE(number, drawing.words.end());
  EXPECT_EQ(number->text, "1 door, 2.8 m");
}

TEST(SiteDxf, NoTwoTextsBeginOnOneSpot) {
  auto loaded =
      file::load_project((file::source_folder() / "tests" / "case" / "files" / "wired.sightfall.json").string());
  ASSERT_TRUE(loaded);
  for (site::Feed& feed : loaded->site.feeds) feed.at = loaded->site.mounts.front().at;
  Asked asked;
  asked.pictures = asked.mask_costs = false;
  const auto job = gathered(*loaded, nullptr, asked);
  ASSERT_TRUE(job);
  const std::vector<import::DxfWords> words = site_dxf(*job).words;
  ASSERT_GT(words.size(), 3U);
  for (size_t i = 0; i < words.size(); ++i)
    for (size_t j = 0; j < i; ++j)
      EXPECT_TRUE(std::abs(words[i].at.x - words[j].at.x) > 0.5 || std::abs(words[i].at.y - words[j].at.y) > 0.5)
          << words[i].text << ", " << words[j].text;
}

}  // namespace
}  // namespace sightfall::papers
