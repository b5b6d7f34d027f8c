// SPDX-License-Identifier: GPL-3.0-or-later
// What the kernel is handed: what of a camera and of a sample is certain, and what is known only within a range.
//   Rates    electrons a second and pixel
#pragma once
#include <array>
#include <limits>
#include <memory>
#include <span>
#include <vector>

#include "base/ranged.h"
#include "detail/codec.h"
#include "detail/exposure.h"
#include "unit/quantity.h"

namespace sightfall::detail {

inline constexpr Length kDaylightWavelength{550e-9};

/// Inputs that are known only within a range. One camera, one kind of subject.
enum class Input {
  kThreshold,      ///< least contrast made out
  kContrast,       ///< of the subject
  kGlare,          ///< share of the frame's mean
  kVeilLuminance,  ///< of a veil, over the subject's mean
  kLensBlur,       ///< px
  kFNumber,
  kDensityFactor,   ///< on the nominal density: the true angle of view
  kFocus,           ///< distance set, m
  kShutter,         ///< fixed, or the longest that automatic exposure goes to, s
  kSpeed,           ///< of the subject, m/s
  kNoiseThreshold,  ///< least ratio of signal to noise over a bar
  kSensitivity,     ///< factor on the electrons of any light: lens, sensor
  kReflectance,     ///< factor on the light of the subject
  kInfrared,        ///< factor on the camera's own infrared
  kScatter,         ///< factor on what air scatters back of it
  kFlare,           ///< factor on the stray light of lamps and sun
  kReadNoise,       ///< electrons
  kFullWell,        ///< electrons
  kGain,            ///< largest, ratio
  kTarget,          ///< of automatic exposure, share of full scale
  kGlass,           ///< factor on what the cover glass throws back of its own infrared
  kFlicker,         ///< when in the swing of mains lamps: -1 darkest, 1 brightest
  kQuantiser,       ///< factor on the step of the codec's quantiser
  kSway,            ///< factor on the nominal sway of the mount
};
inline constexpr size_t kInputCount = 24;

/// One value for each input; the reference's frequency goes with the threshold.
class Values {
 public:
  explicit Values(const std::array<double, kInputCount>& values);
  double operator[](Input input) const { return values_[static_cast<size_t>(input)]; }
  double reference() const { return reference_; }
  Values with(Input input, double value) const;
  bool operator==(const Values&) const = default;

 private:
  std::array<double, kInputCount> values_;
  double reference_;
};

using RangedInputs = std::array<Ranged<double>, kInputCount>;
Values nominal(const RangedInputs& inputs);

/// All values that a range is made of: the nominal ones, and for each input those with it alone at an end.
class RangedValues {
 public:
  explicit RangedValues(const RangedInputs& inputs);
  const Values& nominal() const { return nominal_; }
  const RangedInputs& inputs() const { return inputs_; }
  const Ranged<double>& of(Input input) const { return inputs_[static_cast<size_t>(input)]; }
  /// Nothing where the input is certain.
  std::span<const Values> with_at_ends(Input input) const;
  bool operator==(const RangedValues&) const = default;

 private:
  RangedInputs inputs_;
  Values nominal_;
  std::vector<Values> ends_;  ///< low and high of each input that is not certain
  std::array<size_t, kInputCount> begin_{};
};

/// What of a camera in one condition is certain, in SI units.
struct CameraConstants {
  double focal = 0;                              ///< m
  double pitch = 0;                              ///< m
  double sway_rate = 0;                          ///< rad/s: 2 pi f A of the mount, nominal
  double wavelength = kDaylightWavelength.si();  ///< m: of the light it sees by
  double focus_shift = 0;                        ///< m: of the plane of focus at that wavelength, towards the lens
  double f_number = 0;                           ///< nominal: the rates of samples are told for it; 0: the value's
  double dark = 0;                               ///< electrons a second
  double frame_rate = 0;                         ///< Hz
  double averaged = 1;                           ///< frames that noise reduction averages where nothing moves
  double flicker_rate = 100;                     ///< Hz: at which lamps on the mains swing, twice its frequency
  double smear = 0;                              ///< ratio of pattern to noise at which it takes half of a pattern
  double dynamic_ratio = 1;                      ///< between the two exposures of wide dynamic range; 1: none
  std::shared_ptr<const CodecTable> codec;       ///< null: before compression
  double bits_per_pixel = std::numeric_limits<double>::infinity();  ///< most of a frame; infinite: as many as it takes
  double quality = 0;         ///< constant rate factor that is held as long as the bits allow; 0: the bits alone decide
  bool shutter_fixed = true;  ///< at the value of Input::kShutter
  ExposureLimits limits;      ///< longest, largest_gain and target are those of the values
  Metering metering;

  bool operator==(const CameraConstants&) const = default;
};

/// What of a sample is certain: from the projection, the site and its light. Rates are electrons a second and pixel,
/// nominal, through the air but without veils.
struct Seen {
  double density = 0;         ///< px/m, nominal
  double depth = 0;           ///< m along the axis
  double motion_density = 0;  ///< px per metre travelled
  double passed = 1;          ///< fraction of the light that veils pass
  double area = 1;            ///< square pixels a square metre over density^2, at least 1
  double cover = 0;           ///< share of the frame that the subject fills
  double others = 0;          ///< from the subject by all light but the camera's own
  double own = 0;             ///< from the subject by the camera's own infrared at full power
  double path = 0;            ///< light of the sky that the air scatters in
  double own_path = 0;        ///< own infrared that the air scatters back
  double own_glass = 0;       ///< own infrared that the cover glass throws back
  double flicker = 0;         ///< share of `others` by which it swings with the mains, where lamps do so most
  double glare = 0;           ///< stray light of lamps and sun in or near the picture
  double veil_own = 1;        ///< own infrared on the veil over that on the subject
  double air = 1;             ///< transmission of the air between subject and camera
  bool shaded = false;        ///< of many tones about the mean, as skin is, not of two as bars are

  bool operator==(const Seen&) const = default;
};

}  // namespace sightfall::detail
