// SPDX-License-Identifier: GPL-3.0-or-later
// A walk as frames: paces by pencil, pictures through a stream and without one.
#include "walk/film.h"

#include <gtest/gtest.h>

#include <array>
#include <atomic>
#include <cmath>

#include "need/test_project.h"

namespace sightfall::walk {
namespace {

using namespace units;

/// A walker at 1.5 m/s towards a camera of 10 frames a second.
struct Plain {
  need::Project project = need::plain_project();
  site::Condition condition;

  Plain() {
    camera::Sheet& sheet = project.catalogue.front();
    sheet.columns = 200;
    sheet.rows = 150;
    sheet.frame_rates = {10};
    site::Place path;
    path.name = "path";
    path.kind = site::PlaceKind::kRoute;
    path.line = {{0, 12}, {0, 3}};
    path.speed = Speed{1.5};
    project.site.places = {path};
    condition.name = "day";
  }
  /// A stream, and a codec that leaves three tenths of anything at a quantiser of 28 to 40.
  void stream(camera::RateControl control, std::optional<DataRate> rate) {
    project.catalogue.front().stream = {camera::Codec::kH264, control, rate, {}};
    const std::vector<detail::CodecTable::Rates> rates{{0, {24, 36}, {28, 40}, {1, 0.01}},
                                                       {8, {24, 36}, {28, 40}, {2, 0.02}}};
    const std::vector<detail::CodecTable::Surviving> few{
        {0, 0.1, {0.3, 0.3}}, {0, 9, {0.3, 0.3}}, {1, 0.1, {0.3, 0.3}}, {1, 9, {0.3, 0.3}}};
    project.settings.typical.codecs.front() =
        std::make_shared<const detail::CodecTable>(std::vector{0.1, 0.4}, rates, few);
  }
  WalkRequest request(double mark) const {
    return {&project,       &condition, &project.cameras.front(), &project.site.places.front(), Mover::kWalker,
            {Length{mark}}, 3};
  }
};

TEST(Film, FramesAreAPaceApart) {
  const Plain plain;
  const auto walk = Walk::begin(plain.request(6));
  ASSERT_TRUE(walk);
  const std::vector<Mark> frames = walk->frames();
  ASSERT_GT(frames.size(), 40U);
  for (size_t i = 1; i < frames.size(); ++i)
    EXPECT_NEAR((frames[i - 1].distance - frames[i].distance).si(), 0.15, 1e-9);
  const std::vector<Mark> before = walk->frames_before(walk->marks().front(), 4);
  ASSERT_EQ(before.size(), 4U);
  EXPECT_NEAR(before.front().distance.si(), 6.45, 0.03);
  EXPECT_EQ(before.back().gone, walk->marks().front().gone);
}

TEST(Film, WithoutAStreamAPictureIsShownAsItIs) {
  const Plain plain;
  const auto walk = Walk::begin(plain.request(6));
  ASSERT_TRUE(walk);
  const Film film{*walk};
  const Mark& mark = walk->marks().front();
  EXPECT_EQ(*film.shown(mark), film.picture(mark));
  EXPECT_EQ(compression_in_words(walk->request()), "none");
}

TEST(Film, AStreamTakesSomething) {
  Plain plain;
  plain.stream(camera::RateControl::kConstant, 30.0 * kbit / s);  // 0.1 bits a pixel
  const auto walk = Walk::begin(plain.request(6));
  ASSERT_TRUE(walk);
  EXPECT_LT(walk->marks().front().delivered.nominal, walk->marks().front().density * 0.99);
  const Film film{*walk};
  const Mark& mark = walk->marks().front();
  const Picture sent = film.picture(mark);
  const auto shown = film.shown(mark);
  ASSERT_TRUE(shown) << to_line(shown.error());
  ASSERT_EQ(shown->rgb.size(), sent.rgb.size());
  double squares = 0;
  for (size_t i = 0; i < sent.rgb.size(); ++i) squares += std::pow(shown->rgb[i] - sent.rgb[i], 2);
  const double rms = std::sqrt(squares / static_cast<double>(sent.rgb.size()));
  EXPECT_GT(rms, 0.5);
  EXPECT_LT(rms, 20);
  EXPECT_EQ(compression_in_words(walk->request()), "H.264, 0.03 Mbit/s");
}

TEST(Film, TellsHowFarAPictureIsAndStops) {
  Plain plain;
  plain.stream(camera::RateControl::kCapped, std::nullopt);
  const auto walk = Walk::begin(plain.request(6));
  ASSERT_TRUE(walk);
  const Film film{*walk};
  std::atomic<bool> stop{false};
  std::vector<double> told;
  Progress progress;
  progress.stop = &stop;
  progress.tell = [&](double share, std::string_view) {
    told.push_back(share);
    stop = told.size() == 2;
  };
  const auto stopped = film.shown(walk->marks().front(), progress);
  ASSERT_FALSE(stopped);
  EXPECT_EQ(stopped.error().text, "stopped before its end");
  EXPECT_EQ(told, (std::vector{0.2, 0.4}));
}

TEST(Film, AClipIsEncodedAsTheStreamIsSet) {
  Plain plain;
  const auto settings = [&](bool free) {
    const auto walk = Walk::begin(plain.request(6));
    return encoding_of(*walk, free);
  };
  EXPECT_EQ(std::get<video::FreeQuality>(settings(false).rate).factor, 28) << "nothing is stated";
  plain.stream(camera::RateControl::kConstant, 3.0 * Mbit / s);
  EXPECT_EQ(std::get<video::ConstantRate>(settings(false).rate).rate, 3.0 * Mbit / s);
  EXPECT_EQ(std::get<video::FreeQuality>(settings(true).rate).factor, 28);
  plain.stream(camera::RateControl::kCapped, 3.0 * Mbit / s);
  plain.project.catalogue.front().stream->quality = 30;
  EXPECT_EQ(std::get<video::CappedQuality>(settings(false).rate).factor, 30);
  EXPECT_EQ(std::get<video::CappedQuality>(settings(false).rate).ceiling, 3.0 * Mbit / s);
  EXPECT_EQ(settings(false).frame_rate, 10.0 * Hz);
  EXPECT_EQ(settings(false).keyframe_interval, 20);
}

}  // namespace
}  // namespace sightfall::walk
