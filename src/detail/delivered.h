// SPDX-License-Identifier: GPL-3.0-or-later
// Delivered detail: the pixels a metre that survive focus, motion, lens and veil, by day with ample light.
//   Model    delivered = density * min(1, nu_res / nu_res(reference)); nu_res is the lowest frequency, at most half the
//            density, at which the contrast left falls below the threshold. The reference is an ideal camera of equal
//            density: pixel aperture, Gaussian of kReferenceBlur, contrast kReferenceContrast. docs/models.md section 6
//   Domain   total: any finite input with density, blurs >= 0 gives a finite value in [0, density]
//   Limits   ample light: noise, clipping, air and compression are not in it ("before compression")
//   Checked  delivered_test.cpp; tests/physics (monotone laws); tests/outside/trade_facts_test.cpp
#pragma once
#include <array>
#include <span>

#include "base/ranged.h"
#include "detail/limit.h"
#include "unit/quantity.h"

namespace sightfall::detail {

inline constexpr double kReferenceBlur = 0.5;  ///< px, Gaussian sigma
inline constexpr double kReferenceContrast = 0.8;
inline constexpr Length kDaylightWavelength{550e-9};

/// Blurs of one sample in pixels of its picture.
struct Blur {
  double lens = 0;         ///< Gaussian sigma
  double diffraction = 0;  ///< lambda N / pitch
  double defocus = 0;      ///< disc diameter
  double motion = 0;       ///< path during the exposure
  double shake = 0;        ///< path during the exposure
};

/// The lowest frequency, cycles per pixel and at most 0.5, at which contrast * transfer falls below the threshold; 0
/// when the contrast itself is below it.
double resolved_frequency(const Blur& blur, double contrast, double threshold);

/// The same for the reference camera.
double reference_frequency(double threshold);

/// Inputs that are known only within a range. One camera, one kind of subject.
enum class Input {
  kThreshold,      ///< least contrast made out
  kContrast,       ///< of the subject
  kGlare,          ///< share of the frame's mean
  kVeilLuminance,  ///< of a veil, over the subject's mean
  kLensBlur,       ///< px
  kFNumber,
  kDensityFactor,  ///< on the nominal density: the true angle of view
  kFocus,          ///< distance set, m
  kShutter,        ///< s
  kSpeed,          ///< of the subject, m/s
};
inline constexpr size_t kInputCount = 10;

/// One value for each input; the reference's frequency goes with the threshold.
class Values {
 public:
  explicit Values(const std::array<double, kInputCount>& values);
  double operator[](Input input) const { return values_[static_cast<size_t>(input)]; }
  double reference() const { return reference_; }
  Values with(Input input, double value) const;

 private:
  std::array<double, kInputCount> values_;
  double reference_;
};

using RangedInputs = std::array<Ranged<double>, kInputCount>;
Values nominal(const RangedInputs& inputs);

/// What of a camera is certain, in SI units.
struct CameraConstants {
  double focal = 0;      ///< m
  double pitch = 0;      ///< m
  double sway_rate = 0;  ///< rad/s: 2 pi f A of the mount
};

/// What of a sample is certain: from the projection and the site.
struct Seen {
  double density = 0;         ///< px/m, nominal
  double depth = 0;           ///< m along the axis
  double motion_density = 0;  ///< px per metre travelled
  double passed = 1;          ///< fraction of the light that veils pass
};

/// Delivered detail of one sample, px/m.
double delivered(const CameraConstants& camera, const Seen& seen, const Values& values);

/// Delivered detail of many samples of one camera, px/m.
void delivered(const CameraConstants& camera, std::span<const Seen> seen, const Values& values, std::span<double> out);

/// Low, nominal and high delivered detail: root-sum-square of the logarithms over the inputs. `widest` is the input
/// that moves it most.
struct DeliveredRange {
  Ranged<double> value;
  Input widest = Input::kThreshold;
};
DeliveredRange delivered_range(const CameraConstants& camera, const Seen& seen, const RangedInputs& inputs);

/// The factor whose removal alone raises the delivered detail most.
Limit limit_of(const CameraConstants& camera, const Seen& seen, const Values& values);

/// Delivered detail with one factor taken away (kNone: as it is).
double delivered_without(Limit factor, const CameraConstants& camera, const Seen& seen, const Values& values);

}  // namespace sightfall::detail
