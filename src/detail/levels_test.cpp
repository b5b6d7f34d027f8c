// SPDX-License-Identifier: GPL-3.0-or-later
// Bands by their lower edges, and the limits in words.
#include "detail/levels.h"

#include <gtest/gtest.h>

#include <set>

#include "detail/limit.h"

namespace sightfall::detail {
namespace {

using namespace units;

const LevelTable kTable{
    "own", "made up", {{"coarse", 10.0 * (px / m)}, {"middling", 100.0 * (px / m)}, {"fine", 400.0 * (px / m)}}};

TEST(LevelTable, ReachesABandAtItsLowerEdge) {
  const auto reached = [](double density) { return kTable.reached(density * (px / m)); };
  EXPECT_EQ(reached(9.999), nullptr);
  EXPECT_EQ(reached(0), nullptr);
  ASSERT_NE(reached(10), nullptr);
  EXPECT_EQ(reached(10)->name, "coarse");
  EXPECT_EQ(reached(99.999)->name, "coarse");
  EXPECT_EQ(reached(100)->name, "middling");
  EXPECT_EQ(reached(1e9)->name, "fine");
}

TEST(LevelTable, FindsByName) {
  ASSERT_NE(kTable.find("middling"), nullptr);
  EXPECT_EQ(kTable.find("middling")->least, 100.0 * (px / m));
  EXPECT_EQ(kTable.find("Middling"), nullptr);
  EXPECT_EQ(kTable.find(""), nullptr);
}

TEST(LevelTable, EmptyTableReachesNothing) { EXPECT_EQ(LevelTable{}.reached(1e6 * (px / m)), nullptr); }

TEST(Limit, HasWordsOfItsOwnForEach) {
  std::set<std::string_view> words;
  for (int i = 0; i <= static_cast<int>(Limit::kOutOfView); ++i)
    EXPECT_TRUE(words.insert(in_words(static_cast<Limit>(i))).second) << i;
  EXPECT_EQ(in_words(Limit::kNone), "none");
  EXPECT_EQ(in_words(Limit::kPixels), "pixels");
  EXPECT_EQ(in_words(Limit::kLens), "lens");
  EXPECT_EQ(in_words(Limit::kFocus), "focus");
  EXPECT_EQ(in_words(Limit::kMotion), "motion");
  EXPECT_EQ(in_words(Limit::kShake), "shake");
  EXPECT_EQ(in_words(Limit::kGlare), "glare");
  EXPECT_EQ(in_words(Limit::kContrast), "contrast");
  EXPECT_EQ(in_words(Limit::kVeil), "veil");
  EXPECT_EQ(in_words(Limit::kAngle), "angle");
  EXPECT_EQ(in_words(Limit::kOcclusion), "occlusion");
  EXPECT_EQ(in_words(Limit::kOutOfView), "out of view");
  EXPECT_EQ(in_words(Limit::kMask), "mask");
}

}  // namespace
}  // namespace sightfall::detail
