// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/noise.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <vector>

#include "walk/texture.h"

namespace sightfall::walk {
namespace {

// As in texture.cpp.
#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__) && !defined(__SANITIZE_ADDRESS__)
#define SIGHTFALL_WIDE_VECTORS __attribute__((target_clones("avx512f", "avx2", "default")))
#else
#define SIGHTFALL_WIDE_VECTORS
#endif

/// Two halves of a key; hashed twice, for one key's numbers must not be another's in an order that shows.
struct Key {
  uint32_t first, second;
  explicit Key(uint64_t key) : first{static_cast<uint32_t>(key)}, second{static_cast<uint32_t>(key >> 32U)} {}
  uint32_t bits(uint32_t pixel) const { return mixed32(mixed32(pixel ^ first) + second); }
};

/// The logarithm of a number above 0: mantissa about 1, then atanh's series.
inline float logarithm(float x) {
  constexpr uint32_t kRootOfHalf = 0x3F3504F3U, kOne = 0x3F800000U, kMantissa = 0x007FFFFFU;
  const uint32_t shifted = std::bit_cast<uint32_t>(x) + (kOne - kRootOfHalf);
  const auto power = static_cast<float>(static_cast<int32_t>(shifted >> 23U) - 127);
  const auto m = std::bit_cast<float>((shifted & kMantissa) + kRootOfHalf);
  const float s = (m - 1) / (m + 1), s2 = s * s;
  return 2 * s * (1 + s2 * (1.0F / 3 + s2 * (1.0F / 5 + s2 * (1.0F / 7 + s2 / 9)))) + power * 0.693147181F;
}

/// AS 241 without its last piece, which lies beyond 2^-33.
inline float normal(uint32_t bits) {
  constexpr float kUnit = 1.0F / 4294967296.0F, kMiddle = 0.425F;
  const float beyond = kUnit * (static_cast<float>(static_cast<int32_t>(bits & 0x7FFFFFFFU)) + 0.5F);
  const float q = 0.5F - beyond, r = kMiddle * kMiddle - q * q;
  const float inner = q * (((59.109374720F * r + 159.29113202F) * r + 50.434271938F) * r + 3.3871327179F) /
                      (((67.187563600F * r + 78.757757664F) * r + 17.895169469F) * r + 1);
  const float t = std::sqrt(-logarithm(beyond)) - 1.6F;
  const float outer = (((0.17023821103F * t + 1.3067284816F) * t + 2.7568153900F) * t + 1.4234372777F) /
                      ((0.12021132975F * t + 0.73700164250F) * t + 1);
  const float size = q <= kMiddle ? inner : outer;
  return std::bit_cast<float>(std::bit_cast<uint32_t>(size) ^ (bits & 0x80000000U));
}

SIGHTFALL_WIDE_VECTORS void fill_normals(Key key, uint32_t first, size_t count, float* to) {
  for (size_t i = 0; i < count; ++i) to[i] = normal(key.bits(first + static_cast<uint32_t>(i)));
}

/// Many electrons: all noise at once. `noisy` comes with normal numbers.
SIGHTFALL_WIDE_VECTORS void add_many(const float* mean, const float* averaged, float read2, float dark, size_t count,
                                     float* noisy) {
  for (size_t i = 0; i < count; ++i) {
    const float light = std::max(mean[i] + dark, 0.0F), variance = std::max(light + read2, 1e-20F);
    const float deviation = std::sqrt(variance);
    const float bend = light / (6 * variance * deviation);  // a sixth of the skew
    const float z = noisy[i];
    const float shape = (z + bend * (z * z - 1)) / std::sqrt(1 + 2 * bend * bend);
    noisy[i] = mean[i] + deviation * shape / std::sqrt(averaged[i]);
  }
}

constexpr size_t kLanes = 16;

/// Poisson's numbers of as many means as there are lanes: how many sums of its chances a uniform number exceeds.
SIGHTFALL_WIDE_VECTORS void count_electrons(const double* mean, const double* uniform, double* chance, double* count) {
  constexpr int kMost = 200;
  std::array<double, kLanes> sum{};
  for (size_t lane = 0; lane < kLanes; ++lane) sum[lane] = chance[lane], count[lane] = 0;
  for (int k = 1; k <= kMost; ++k) {
    const double inverse = 1.0 / k;
    double open = 0;
    for (size_t lane = 0; lane < kLanes; ++lane) {
      const double above = uniform[lane] > sum[lane] ? 1.0 : 0.0;
      count[lane] += above;
      open += above;
      chance[lane] *= mean[lane] * inverse;
      sum[lane] += chance[lane];
    }
    if (open == 0) return;
  }
}

/// Pixels of few electrons, as many as there are lanes or fewer.
class Few {
 public:
  template <class Take>
  void count(Take take) {
    for (size_t lane = filled_; lane < kLanes; ++lane) mean_[lane] = 0, uniform_[lane] = 0;
    for (size_t lane = 0; lane < kLanes; ++lane) chance_[lane] = std::exp(-mean_[lane]);
    count_electrons(mean_.data(), uniform_.data(), chance_.data(), count_.data());
    for (size_t lane = 0; lane < filled_; ++lane) take(pixel_[lane], count_[lane]);
    filled_ = 0;
  }
  bool add(size_t pixel, double mean, uint32_t bits) {
    constexpr double kUnit = 1.0 / 4294967296.0;
    pixel_[filled_] = pixel, mean_[filled_] = mean, uniform_[filled_] = kUnit * (bits + 0.5);
    return ++filled_ == kLanes;
  }

 private:
  std::array<size_t, kLanes> pixel_{};
  std::array<double, kLanes> mean_{}, uniform_{}, chance_{}, count_{};
  size_t filled_ = 0;
};

uint64_t key_for(uint64_t key, uint64_t use, uint64_t what) { return mixed(key + mixed(2 * use + what)); }

}  // namespace

float normal_of(uint32_t bits) { return normal(bits); }

Noise::Noise(uint64_t seed, uint64_t frame, double read, double dark)
    : key_{mixed(seed + mixed(frame))}, read_{static_cast<float>(read)}, dark_{static_cast<float>(dark)} {}

void Noise::add(Use use, size_t first, std::span<const float> mean, std::span<const float> averaged,
                std::span<float> noisy) const {
  enum What : uint64_t { kNormal, kCount };
  const Key normals{key_for(key_, use, kNormal)}, counts{key_for(key_, use, kCount)};
  fill_normals(normals, static_cast<uint32_t>(first), noisy.size(), noisy.data());
  thread_local std::vector<float> drawn;
  drawn.assign(noisy.begin(), noisy.end());
  add_many(mean.data(), averaged.data(), read_ * read_, dark_, noisy.size(), noisy.data());
  Few few;
  const auto take = [&](size_t i, double count) {
    const float off = static_cast<float>(count) - dark_ + read_ * drawn[i] - mean[i];
    noisy[i] = mean[i] + off / std::sqrt(averaged[i]);
  };
  for (size_t i = 0; i < mean.size(); ++i) {
    const float light = std::max(mean[i] + dark_, 0.0F);
    if (light <= kFew && few.add(i, static_cast<double>(light), counts.bits(static_cast<uint32_t>(first + i))))
      few.count(take);
  }
  few.count(take);
}

}  // namespace sightfall::walk
