// SPDX-License-Identifier: GPL-3.0-or-later
// A walk's answer: one row a mark in both forms, nulls for what is not there.
#include "file/walk_answer.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "file/json.h"

namespace sightfall::file {
namespace {

using testing::HasSubstr;
using testing::Not;

struct Walked {
  site::Place route;
  site::Condition condition;
  camera::Camera camera;
  walk::WalkRequest request;
  std::vector<walk::Mark> marks{2};

  Walked() {
    route.name = "path", condition.name = "night", camera.name = "eye";
    camera.stream = {camera::Codec::kH265, camera::RateControl::kCapped, 8.0 * units::Mbit / units::s, {}};
    request.route = &route, request.condition = &condition, request.camera = &camera;
    marks[0].distance = Length{12.5};
    marks[0].density = PixelDensity{100};
    marks[0].delivered = {PixelDensity{50}, PixelDensity{80}, PixelDensity{90}};
    marks[0].level = "discern";
    marks[0].limit = detail::Limit::kNoise;
    marks[0].noise_ratio = 3.25;
    marks[0].shutter = Time{0.04};
    marks[1].distance = Length{20};
    marks[1].limit = detail::Limit::kOutOfView;
  }
};

TEST(WalkAnswer, TellsWhatIsThereAndNullForWhatIsNot) {
  const Walked walked;
  const std::string text = answer_text(WalkAnswer{&walked.request, &walked.marks, {"01.png"}});
  EXPECT_THAT(text, HasSubstr("\"distance_m\": 12.5"));
  EXPECT_THAT(text, HasSubstr("\"picture\": \"01.png\""));
  EXPECT_THAT(text, HasSubstr("\"picture\": null")) << "the second one was not made";
  EXPECT_THAT(text, HasSubstr("\"limit\": \"out of view\""));
  EXPECT_THAT(text, HasSubstr("\"shutter_s\": null"));
  EXPECT_THAT(text, Not(HasSubstr("\"level\": \"\"")));
  EXPECT_THAT(text, HasSubstr("\"compression\": \"H.265, at most 8 Mbit/s\""));
  EXPECT_THAT(text, HasSubstr("\"clips\": []"));
}

TEST(WalkAnswer, TellsWhatAClipsStreamCameTo) {
  using namespace units;
  const Walked walked;
  video::StreamFacts facts;
  facts.codec = video::Codec::kH265;
  facts.frames = 30;
  facts.mean = 6.5 * Mbit / s;
  const std::string text = answer_text(WalkAnswer{&walked.request, &walked.marks, {}, {{"walk.mp4", true, facts}}});
  EXPECT_THAT(text, HasSubstr("\"file\": \"walk.mp4\""));
  EXPECT_THAT(text, HasSubstr("\"capped\": true"));
  EXPECT_THAT(text, HasSubstr("\"codec\": \"H.265\""));
  EXPECT_THAT(text, HasSubstr("\"mean_kbps\": 6500"));
}

TEST(WalkAnswer, TableHasARowAMark) {
  const Walked walked;
  EXPECT_THAT(
      answer_table(WalkAnswer{&walked.request, &walked.marks, {"01.png"}}),
      HasSubstr("\n12.500,41.01,100.0,80.0,50.0,90.0,discern,noise,3.25,0.040000,0.0,01.png\n20.000,65.62,0.0,"));
}

}  // namespace
}  // namespace sightfall::file
