// SPDX-License-Identifier: GPL-3.0-or-later
// A bar pattern on its way through blur, exposure, noise and codec, and the frequency up to which it is made out.
//   Model    the lowest frequency at which the contrast left falls below the threshold or a bar drowns in noise (Rose).
//            docs/models.md section 6
//   Domain   widths and rates >= 0
//   Checked  delivered_test.cpp, codec_test.cpp; tests/physics/optics_laws_test.cpp
#pragma once
#include "detail/codec.h"
#include "detail/inputs.h"
#include "detail/limit.h"
#include "detail/signal.h"

namespace sightfall::detail {

inline constexpr double kNyquist = 0.5;        ///< cycles per pixel
inline constexpr double kReferenceBlur = 0.5;  ///< px, Gaussian sigma
inline constexpr double kReferenceContrast = 0.8;

/// Blurs of one sample in pixels of its picture.
struct Blur {
  double lens = 0;         ///< Gaussian sigma
  double diffraction = 0;  ///< lambda N / pitch
  double defocus = 0;      ///< disc diameter
  double motion = 0;       ///< path during the exposure
  double shake = 0;        ///< path during the exposure
};

/// Of a sample at an exposure.
Blur blur_of(const CameraConstants& camera, const Seen& seen, const Values& values, const Exposed& exposed);

/// The lowest frequency, cycles per pixel and at most 0.5, at which contrast * transfer falls below the threshold; 0
/// when the contrast itself is below it.
double resolved_frequency(const Blur& blur, double contrast, double threshold);

/// The same for the reference camera.
double reference_frequency(double threshold);

/// Step of the codec's quantiser at a signal, grey levels; 0 without a codec.
double quantiser_step(const CameraConstants& camera, const Signal& signal, const Values& values);

/// The codec on one sample; without a table nothing is lost.
struct Compression {
  const CodecTable* table = nullptr;
  double step = 1;        ///< of its quantiser, grey levels
  double noise = 0;       ///< of the sample, grey levels
  double full_scale = 1;  ///< electrons

  Compression() = default;
  Compression(const CameraConstants& camera, const Signal& signal, const Values& values);
};

/// A frequency at which what falls comes to what is asked, and how steeply it falls there; or a guess of it.
struct Crossing {
  double at = 0;     ///< cycles per pixel; as a guess 0: none
  double slope = 0;  ///< of the logarithm, by the frequency's square; 0: not known
};

/// Everything that decides up to which frequency one sample's pattern is made out. Frequencies in cycles per pixel.
struct Pattern {
  Blur blur;
  Signal signal;
  Compression codec;
  double contrast = 0, threshold = 0, noise_threshold = 0;
  double area = 1;      ///< see Seen
  double smear = 0;     ///< see CameraConstants
  double pixel = 1;     ///< width of the pixel's own blur; 0: finer than any
  bool shaded = false;  ///< see Seen

  /// Contrast that is left of a frequency.
  double contrast_left(double frequency) const;
  /// Of a bar of a frequency in the picture, electrons.
  double amplitude(double frequency) const;
  /// How many times the threshold a bar stands out of the noise.
  double margin_to_noise(double frequency) const;
  /// The lowest frequency up to `most` at which either test fails, looked for near a guess first.
  Crossing resolved(double most, const Crossing& guess = {}) const;
  /// The lowest frequency up to `most` at which a bar drowns in noise.
  double resolved_by_noise(double most) const;
};

/// Of a sample as it is, or in the light without one factor.
Pattern pattern_of(Limit without, const CameraConstants& camera, const Seen& seen, const Values& values);

/// The frequency at which a blur leaves nothing for the first time; infinite where none does.
double first_zero(const Blur& blur);

}  // namespace sightfall::detail
