// SPDX-License-Identifier: GPL-3.0-or-later
// The builder's plan for CAD: what is on which layer, at its place in metres.
#include "papers/site_dxf.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "papers/test_job.h"

namespace sightfall::papers {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::IsSupersetOf;

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

TEST(SiteDxf, ANameThatHadToBeMovedHasALeaderToWhatItNames) {
  need::Project project = nursery();
  const auto leaders = [&] {
    const import::DxfDrawing drawing = site_dxf(hung(project));
    std::vector<std::pair<geom::PlanPoint, std::string>> found;  // where each begins, and the words at its end
    for (const import::DxfLine& line : drawing.lines) {
      if (line.layer != "LEADERS") continue;
      EXPECT_EQ(line.points.size(), 2U);
      for (const import::DxfWords& one : drawing.words)
        if (geom::norm(one.at - line.points.back()) < one.height) found.emplace_back(line.points.front(), one.text);
    }
    return found;
  };
  const auto of = [&](const std::string& name) {
    const auto all = leaders();
    return std::count_if(all.begin(), all.end(), [&](const auto& one) { return one.second == name; });
  };
  site::Feed alone = project.site.feeds.front(), moved = alone;
  alone.name = "far off", alone.at = {500, 500};
  moved.name = "beside it", moved.at = {500, 500.1};
  project.site.feeds.push_back(alone);
  EXPECT_EQ(of("far off"), 0);
  project.site.feeds.push_back(moved);
  EXPECT_EQ(of("far off"), 0);
  const auto all = leaders();
  const auto leader = std::find_if(all.begin(), all.end(), [](const auto& one) { return one.second == "beside it"; });
  ASSERT_NE(leader, all.end());
  EXPECT_NEAR(geom::norm(leader->first - moved.at), 0, 1e-9);
}

/// What is written on a layer.
std::vector<std::string> words_on(const import::DxfDrawing& drawing, const std::string& layer) {
  std::vector<std::string> words;
  for (const import::DxfWords& one : drawing.words)
    if (one.layer == layer) words.push_back(one.text);
  return words;
}

TEST(SiteDxf, NamesWhatStandsThere) {
  const need::Project project = nursery();
  const import::DxfDrawing drawing = site_dxf(hung(project));
  EXPECT_THAT(words_on(drawing, "NAMES"),
              IsSupersetOf({"gate pier west", "loading bay canopy", "lane wall", "neighbour's cottage", "lane railing",
                            "ash by the lane", "cottage, kitchen window"}));
  EXPECT_THAT(words_on(drawing, "LAMPS"), IsSupersetOf({"gate floodlight", "gate infrared"}));
  EXPECT_THAT(words_on(drawing, "MOUNTS"), Contains("mount canopy post, south, no camera"));
  EXPECT_THAT(words_on(drawing, "WAYS"), Contains("yard conduit, 0.6 m deep"));
  EXPECT_THAT(words_on(drawing, "CABLE-LABELS"), Contains("C1 C2 C4 F1"));
}

TEST(SiteDxf, HasLampsAtTheirPlaces) {
  const need::Project project = nursery();
  const import::DxfDrawing drawing = site_dxf(hung(project));
  geom::Box2 box;
  for (const import::DxfLine& line : drawing.lines)
    if (line.layer == "LAMPS" && line.closed && geom::norm(line.points[0] - project.site.lamps[3].at) < 0.5 &&
        geom::norm(line.points[0] - project.site.lamps[0].at) > 0.2)
      for (const geom::PlanPoint p : line.points) box.include(p);
  EXPECT_NEAR(box.centre().x, 38.5, 0.02);
  EXPECT_NEAR(box.centre().y, 19.8, 0.02);
}

TEST(SiteDxf, HasRoutesPointsToAimByAndWalkTests) {
  const need::Project project = nursery();
  Job job = hung(project);
  job.cameras[0].aim.points = {{"pier", {1, 2, 0}, {}, {}, 0.5, 0.5}};
  need::Verdict verdict;
  verdict.worst = need::WorstPlace{{10, 11, 0}};
  job.here.check.verdicts = {verdict};
  const import::DxfDrawing drawing = site_dxf(job);
  EXPECT_THAT(words_on(drawing, "AIM-POINTS"), ElementsAre("1a"));
  EXPECT_THAT(words_on(drawing, "WALK-TEST"), ElementsAre("1"));
  EXPECT_THAT(words_on(drawing, "ROUTES"), IsSupersetOf({"walk in at the gate", "along the drive"}));
  for (const auto& [layer, at] : {std::pair{"AIM-POINTS", geom::PlanPoint{1, 2}}, {"WALK-TEST", {10, 11}}}) {
    int strokes = 0;
    for (const import::DxfLine& line : drawing.lines)
      if (line.layer == layer) {
        ++strokes;
        EXPECT_NEAR(geom::norm(0.5 * (line.points.front() + line.points.back()) - at), 0, 1e-9);
      }
    EXPECT_EQ(strokes, 2) << layer;
  }
}

}  // namespace
}  // namespace sightfall::papers
