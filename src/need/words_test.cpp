// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/words.h"

#include <gtest/gtest.h>

#include <limits>

#include "need/check.h"

namespace sightfall::need {
namespace {

using namespace units;
using need::Units;

TEST(Words, LengthsInEitherUnit) {
  EXPECT_EQ(length_words(12.34 * m, Units::kMetres), "12.3 m");
  EXPECT_EQ(length_words(12.192 * m, Units::kFeet), "40 ft");
  EXPECT_EQ(length_words(Length{std::numeric_limits<double>::infinity()}, Units::kFeet), "infinity");
  EXPECT_EQ(measured_words(3.45 * m, Units::kMetres), "3.45 m");
  EXPECT_EQ(measured_words(3.4 * m, Units::kMetres), "3.4 m");
  EXPECT_EQ(measured_words(2 * m, Units::kMetres), "2.0 m");
  // An inch is 0.0254 m.
  EXPECT_EQ(measured_words(3.45 * m, Units::kFeet), "11 ft 4 in");  // 135.8 in
  EXPECT_EQ(measured_words(3.65 * m, Units::kFeet), "12 ft 0 in");  // 143.7 in
  EXPECT_EQ(measured_words(0.2 * m, Units::kFeet), "8 in");
  EXPECT_EQ(measured_words(-0.6 * m, Units::kFeet), "-2 ft 0 in");
}

TEST(Words, DensitiesInEitherUnit) {
  EXPECT_EQ(density_words(61.0 * px / m, Units::kMetres), "61 px/m");
  // 100 px/m are 30.48 px/ft.
  EXPECT_EQ(density_words(100.0 * px / m, Units::kFeet), "30.5 px/ft");
  const Ranged<PixelDensity> range{48.0 * px / m, 61.0 * px / m, 75.0 * px / m};
  EXPECT_EQ(density_words(range, Units::kMetres), "61 px/m (48 to 75)");
  EXPECT_EQ(density_words(range, Units::kFeet), "18.6 px/ft (14.6 to 22.9)");
}

TEST(Words, AShareShortOfAllNeverReadsAsAll) {
  EXPECT_EQ(share_words(0.95), "95 %");
  EXPECT_EQ(share_words(1), "100 %");
  EXPECT_EQ(share_words(0.9999), "99.9 %");
  EXPECT_EQ(share_words(0.997), "99.7 %");
  EXPECT_EQ(share_words(0), "0 %");
}

TEST(Words, FramesShortOfThoseAskedNeverReadAsThem) {
  EXPECT_EQ(frames_words({Ranged<double>::exact(1.56), 3}), "1.5 of 3 frames");
  EXPECT_EQ(frames_words({{0.3, 2.99, 66.7}, 3}), "2.9 (0.3 to 66) of 3 frames");
  EXPECT_EQ(frames_words({Ranged<double>::exact(0), 1}), "0 of 1 frame");
}

TEST(Words, OfAPassageTheWorstPlaceIsItsBestMoment) {
  WorstPlace worst;
  worst.camera = "gate";
  worst.delivered = {48.0 * px / m, 61.0 * px / m, 75.0 * px / m};
  EXPECT_EQ(worst_name(worst), "worst place");
  EXPECT_EQ(worst_words(worst, Units::kMetres), "61 px/m (48 to 75)");
  worst.frames = PassageFrames{{0, 1.5, 4}, 3};
  EXPECT_EQ(worst_name(worst), "best moment of the worst passage");
  EXPECT_EQ(worst_words(worst, Units::kMetres), "61 px/m (48 to 75); 1.5 (0 to 4) of 3 frames");
  EXPECT_EQ(worst_words(worst, Units::kFeet), "18.6 px/ft (14.6 to 22.9); 1.5 (0 to 4) of 3 frames");
  worst.camera.clear();
  EXPECT_EQ(worst_name(worst), "worst passage");
  EXPECT_EQ(worst_words(worst, Units::kMetres), "no camera sees it");
}

}  // namespace
}  // namespace sightfall::need
