// SPDX-License-Identifier: GPL-3.0-or-later
// The noise of a frame's pixels: light's, the dark signal's and the reading's, a row at a time.
//   Model    EMVA 1288's linear camera. Up to kFew electrons their number is drawn from Poisson's distribution by
//            inversion and the reading's noise is added; more are drawn at once, normal with the skew that is left of
//            Poisson's by the first term of Cornish and Fisher's expansion. Of a mean of n frames the noise is one over
//            the root of n
//   Random   a number is a hash of its pixel and a key of seed, frame and use: the same in any order, for any number of
//            threads. A normal one is the inverse of the normal distribution at its hash
//   Error    kNormalError of a normal number, of deviations
//   Limits   2^32 numbers a key: a normal one stays within 6.4 deviations. The mean of n frames keeps Poisson's skew
//            and its steps as of one frame, only narrower
//   Source   M. J. Wichura, Algorithm AS 241: the percentage points of the normal distribution, Applied Statistics 37
//            (1988), PPND7; L. Devroye, Non-uniform random variate generation (1986), X.3.3 (inversion by sequential
//            search); E. A. Cornish, R. A. Fisher, Moments and cumulants in the specification of distributions (1938);
//            hash: A. Appleby's MurmurHash3 finaliser; all from memory
//   Checked  noise_test.cpp
#pragma once
#include <cstddef>
#include <cstdint>
#include <span>

namespace sightfall::walk {

inline constexpr double kNormalError = 2e-6;
inline constexpr float kFew = 30;

/// The normal number that 32 random bits stand for: one tells the side, the others the share beyond it.
float normal_of(uint32_t bits);

class Noise {
 public:
  enum Use : uint64_t { kLong, kShort };  ///< the exposure

  /// `read` and `dark` in electrons.
  Noise(uint64_t seed, uint64_t frame, double read, double dark);

  /// Electrons, not clipped, of the pixels from number `first` on: `mean` of them with the noise of a mean of
  /// `averaged` frames.
  void add(Use use, size_t first, std::span<const float> mean, std::span<const float> averaged,
           std::span<float> noisy) const;

 private:
  uint64_t key_;
  float read_, dark_;
};

}  // namespace sightfall::walk
