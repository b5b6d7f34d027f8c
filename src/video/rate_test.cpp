// SPDX-License-Identifier: GPL-3.0-or-later
// The three kinds of rate control on noisy clips, as the figures in docs and plans rest on them.
#include <gtest/gtest.h>

#include <algorithm>
#include <map>

#include "video/encode.h"
#include "video/test_scene.h"

namespace sightfall::video {
namespace {

using namespace units;

constexpr std::array kBoth{Codec::kH264, Codec::kH265};
constexpr int kFrames = 60;  // four seconds
constexpr Frequency kFrameRate{15};

EncodeSettings settings_of(Codec codec, Rate rate) { return {codec, kFrameRate, rate, 30, 1}; }

/// Made once: clips take longer to make than to encode.
const std::vector<Picture>& noisy(double sigma) {
  static std::map<double, std::vector<Picture>> clips;
  std::vector<Picture>& clip = clips[sigma];
  if (clip.empty()) clip = clip_of({320, 180, sigma}, kFrames);
  return clip;
}

StreamFacts facts_at(Codec codec, Rate rate, double sigma) {
  const auto encoded = encode(noisy(sigma), settings_of(codec, rate));
  EXPECT_TRUE(encoded);
  return encoded->facts;
}

/// The most bits in any run of frames beyond what `rate` carries away meanwhile.
DataSize fullest(const StreamFacts& facts, DataRate rate) {
  DataSize held, most;
  for (const DataSize& size : facts.sizes) {
    held = held + size;
    most = std::max(most, held);
    held = std::max(DataSize{}, held - rate / facts.frame_rate);
  }
  return most;
}

TEST(Rate, ThatIsConstantIsKeptWithin15Percent) {
  for (const Codec codec : kBoth)
    for (const auto& [sigma, rate] :
         {std::pair{1.0, 400.0 * kbit / s}, {4.0, 400.0 * kbit / s}, {4.0, 1.0 * Mbit / s}}) {
      const StreamFacts facts = facts_at(codec, ConstantRate{rate}, sigma);
      EXPECT_NEAR(facts.mean / rate, 1, 0.15) << name_of(codec) << " sigma " << sigma;
      EXPECT_LE(fullest(facts, rate), rate * kBuffer) << name_of(codec) << " sigma " << sigma;
    }
}

TEST(Rate, UnderACeilingStaysThereWhereFreeItWouldRiseAbove) {
  for (const Codec codec : kBoth) {
    const DataRate free = facts_at(codec, FreeQuality{20}, 6).mean;
    const DataRate ceiling = free / 2;
    const StreamFacts capped = facts_at(codec, CappedQuality{20, ceiling}, 6);
    EXPECT_LE(fullest(capped, ceiling), ceiling * kBuffer) << name_of(codec);
    EXPECT_NEAR(capped.mean / ceiling, 1, 0.25) << name_of(codec) << ": a full buffer of 1 s is a quarter of the clip";
  }
}

TEST(Rate, FarBelowItsCeilingIsAsFreeAsWithoutOne) {
  for (const Codec codec : kBoth) {
    const DataRate free = facts_at(codec, FreeQuality{25}, 1).mean;
    EXPECT_NEAR(facts_at(codec, CappedQuality{25, 20.0 * Mbit / s}, 1).mean / free, 1, 0.02) << name_of(codec);
  }
}

// Bits follow noise once it passes what the quantiser swallows (at the measured preset and factor 5.9 times at 1080p).
TEST(Rate, OfFreeQualityGrowsMoreThanFivefoldFromOneToFourLevelsOfNoise) {
  const EncodeSettings settings{Codec::kH264, kFrameRate, FreeQuality{23}, kFrames, 1};
  const auto at = [&](double sigma) { return encode(noisy(sigma), settings)->facts.mean; };
  EXPECT_GT(at(4) / at(1), 5);
}

TEST(Rate, AtAConstantRateNoiseCostsDetail) {
  for (const Codec codec : kBoth) {
    double before = 0;
    for (const double sigma : {1.0, 3.0, 9.0}) {
      const auto encoded = encode(noisy(sigma), settings_of(codec, ConstantRate{500.0 * kbit / s}));
      std::vector<double> sorted = encoded->quantisers;
      std::sort(sorted.begin(), sorted.end());
      EXPECT_GE(sorted[sorted.size() / 2], before + 2) << name_of(codec) << " sigma " << sigma;
      before = sorted[sorted.size() / 2];
    }
  }
}

}  // namespace
}  // namespace sightfall::video
