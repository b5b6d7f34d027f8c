// SPDX-License-Identifier: GPL-3.0-or-later
// Noise of pixels against the closed forms of Poisson's and the normal distribution.
//   Source   moments of sums of independent numbers: mean l, variance l + r^2, third central moment l for Poisson's l
//            and a reading of deviation r; chi-square's deviation sqrt(2 n) about n
#include "walk/noise.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <tuple>
#include <vector>

namespace sightfall::walk {
namespace {

constexpr size_t kCount = 1U << 20U;
constexpr double kDeviations = 5;

std::vector<float> drawn(float mean, double read, double dark, float averaged = 1, uint64_t seed = 1,
                         uint64_t frame = 1, Noise::Use use = Noise::kLong) {
  const std::vector<float> means(kCount, mean), frames(kCount, averaged);
  std::vector<float> noisy(kCount);
  Noise{seed, frame, read, dark}.add(use, 0, means, frames, noisy);
  return noisy;
}

struct Moments {
  double mean = 0, variance = 0, third = 0;  // the last central
};

Moments moments_of(const std::vector<float>& values) {
  Moments m;
  const auto n = static_cast<double>(values.size());
  for (const float v : values) m.mean += static_cast<double>(v) / n;
  for (const float v : values) {
    const double off = static_cast<double>(v) - m.mean;
    m.variance += off * off / n, m.third += off * off * off / n;
  }
  return m;
}

double correlation(const std::vector<float>& a, const std::vector<float>& b, size_t shift) {
  const Moments of_a = moments_of(a), of_b = moments_of(b);
  double sum = 0;
  for (size_t i = 0; i + shift < a.size(); ++i)
    sum += (static_cast<double>(a[i]) - of_a.mean) * (static_cast<double>(b[i + shift]) - of_b.mean);
  return sum / static_cast<double>(a.size() - shift) / std::sqrt(of_a.variance * of_b.variance);
}

double beyond(double x) { return std::erfc(x / std::numbers::sqrt2) / 2; }

TEST(Noise, NormalNumbersAreTheInverseOfTheirDistribution) {
  constexpr double kUnit = 1.0 / 4294967296.0;
  double largest = 0;
  for (uint64_t half = 0; half < (1ULL << 31U); half = half < 4096 ? half + 1 : half + half / 4096) {
    const auto bits = static_cast<uint32_t>(half);
    const auto x = static_cast<double>(normal_of(bits));
    EXPECT_EQ(normal_of(bits | 0x80000000U), -normal_of(bits));
    const double density = std::exp(-x * x / 2) / std::sqrt(2 * std::numbers::pi);
    largest = std::max(largest, std::abs(beyond(x) - kUnit * (static_cast<double>(half) + 0.5)) / density);
  }
  EXPECT_LE(largest, kNormalError);
}

class MomentsOfNoise : public testing::TestWithParam<std::tuple<float, double, double, float>> {};

TEST_P(MomentsOfNoise, AreTheClosedForms) {
  const auto [mean, read, dark, averaged] = GetParam();
  const Moments m = moments_of(drawn(mean, read, dark, averaged));
  const double light = static_cast<double>(mean) + dark, narrow = std::sqrt(static_cast<double>(averaged));
  const double variance = light + read * read, deviation = std::sqrt(variance);
  const double skew = light / (variance * deviation), fourth = light / (variance * variance);  // the latter above 3
  const auto n = static_cast<double>(kCount);
  EXPECT_NEAR(m.mean, static_cast<double>(mean), kDeviations * deviation / narrow / std::sqrt(n));
  EXPECT_NEAR(m.variance * narrow * narrow / variance, 1, kDeviations * std::sqrt((2 + fourth) / n));
  const double sixth = 15 * (1 + fourth) + 10 * skew * skew + fourth / variance;  // of the normalised number
  constexpr double kSeries = 0.002;                                               // of the expansion's first term
  EXPECT_NEAR(m.third * narrow * narrow * narrow / (variance * deviation), skew,
              kDeviations * std::sqrt(sixth / n) + (light > static_cast<double>(kFew) ? kSeries : 0));
}

INSTANTIATE_TEST_SUITE_P(FewAndMany, MomentsOfNoise,
                         testing::Values(std::tuple{0.02F, 0.0, 0.0, 1.0F}, std::tuple{0.4F, 2.5, 0.3, 1.0F},
                                         std::tuple{4.0F, 1.0, 0.0, 4.0F}, std::tuple{29.9F, 0.0, 0.0, 1.0F},
                                         std::tuple{30.1F, 0.0, 0.0, 1.0F}, std::tuple{31.0F, 3.0, 5.0, 2.0F},
                                         std::tuple{900.0F, 3.0, 10.0, 1.0F}));

TEST(Noise, FewElectronsHavePoissonsChances) {
  for (const float mean : {0.5F, 3.0F, 12.0F, 29.0F}) {
    constexpr size_t kBins = 100;
    std::vector<double> seen(kBins, 0);
    for (const float v : drawn(mean, 0, 0)) {
      ASSERT_EQ(v, std::round(v));
      ++seen.at(static_cast<size_t>(v));
    }
    double chi2 = 0, degrees = -1, rest_seen = 0, rest = 0, chance = std::exp(-static_cast<double>(mean));
    for (size_t k = 0; k < kBins; ++k) {
      const double expected = chance * static_cast<double>(kCount);
      constexpr double kEnough = 20;
      if (expected >= kEnough)
        chi2 += (seen[k] - expected) * (seen[k] - expected) / expected, ++degrees;
      else
        rest_seen += seen[k], rest += expected;
      chance *= static_cast<double>(mean) / static_cast<double>(k + 1);
    }
    EXPECT_NEAR(chi2, degrees, kDeviations * std::sqrt(2 * degrees)) << mean;
    EXPECT_NEAR(rest_seen, rest, kDeviations * std::sqrt(rest + 1)) << mean;  // the tails
  }
}

TEST(Noise, TailsOfManyAreThoseOfPoisson) {
  constexpr double kMean = 60;
  const std::vector<float> values = drawn(static_cast<float>(kMean), 0, 0);
  for (const double at : {38.5, 45.5, 75.5, 84.5, 92.5}) {
    double chance = std::exp(-kMean), below = 0;
    for (int k = 0; k <= static_cast<int>(at); ++k) below += chance, chance *= kMean / (k + 1);
    const bool upper = at > kMean;
    const double expected = static_cast<double>(kCount) * (upper ? 1 - below : below);
    const auto seen = static_cast<double>(
        std::count_if(values.begin(), values.end(), [&](float v) { return upper == (static_cast<double>(v) > at); }));
    constexpr double kShape = 0.25;  // of the share: the expansion has no terms beyond skew
    EXPECT_NEAR(seen, expected, kShape * expected + kDeviations * std::sqrt(expected)) << at;
  }
}

TEST(Noise, NumbersOfNeighboursFramesSeedsAndExposuresAreUnrelated) {
  const double most = kDeviations / std::sqrt(static_cast<double>(kCount));
  for (const auto& [mean, read] : {std::pair{2.0F, 0.0}, std::pair{2.0F, 4.0}, std::pair{200.0F, 0.0}}) {
    const std::vector<float> one = drawn(mean, read, 0);
    for (const size_t shift : {1U, 2U, 3U, 8U, 1024U, 3839U, 3840U, 3841U})
      EXPECT_LT(std::abs(correlation(one, one, shift)), most) << mean << " " << shift;
    for (const uint64_t other : {2U, 3U, 65537U}) {
      EXPECT_LT(std::abs(correlation(one, drawn(mean, read, 0, 1, 1, other), 0)), most) << "frame " << other;
      EXPECT_LT(std::abs(correlation(one, drawn(mean, read, 0, 1, other, 1), 0)), most) << "seed " << other;
    }
    EXPECT_LT(std::abs(correlation(one, drawn(mean, read, 0, 1, 1, 1, Noise::kShort), 0)), most);
  }
}

/// What is random of the light must not be told from what is random of the reading.
TEST(Noise, LightsNoiseAndTheReadingsAreUnrelated) {
  std::vector<float> light = drawn(4, 0, 0), both = drawn(4, 3, 0);
  for (size_t i = 0; i < kCount; ++i) both[i] -= light[i];
  EXPECT_LT(std::abs(correlation(light, both, 0)), kDeviations / std::sqrt(static_cast<double>(kCount)));
}

TEST(Noise, APixelHasItsNumberWhateverIsDrawnWithIt) {
  constexpr size_t kRow = 1000;
  std::vector<float> mean(kRow), averaged(kRow, 3), whole(kRow);
  for (size_t i = 0; i < kRow; ++i) mean[i] = static_cast<float>(i % 71);
  const Noise noise{7, 9, 2, 0.5};
  noise.add(Noise::kLong, 5000, mean, averaged, whole);
  for (const size_t from : {1U, 17U, 500U, 999U}) {
    std::vector<float> part(kRow - from);
    noise.add(Noise::kLong, 5000 + from, std::span{mean}.subspan(from), std::span{averaged}.subspan(from), part);
    for (size_t i = 0; i < part.size(); ++i) ASSERT_EQ(part[i], whole[from + i]) << from << " " << i;
  }
}

}  // namespace
}  // namespace sightfall::walk
