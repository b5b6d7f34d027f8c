// SPDX-License-Identifier: GPL-3.0-or-later
// Automatic exposure: what shutter and gain a camera comes to when it meters the frame with the subject in it, and what
// adaptive infrared makes of it.
//   Model    the metered mean of min(level, 1) comes to the target; what is spent first, shutter or gain, is the
//            sheet's. Adaptive infrared lowers its power until at most a share of the frame clips at the longest
//            shutter and largest gain; shutter and gain follow: one fixed point. docs/models.md section 5
//            An automatic iris closes before the shutter shortens (from memory: what drives most such lenses).
//   Limits   when the power changes, the frame is scaled as a whole by the part of its light that is the camera's own
//   Domain   total: rates >= 0, cover in [0, 1]
//   Checked  exposure_test.cpp; tests/physics/night_laws_test.cpp
#pragma once
#include <array>
#include <span>

#include "camera/sheet.h"

namespace sightfall::detail {

/// One place of the frame, in electrons a second and pixel, nominal: by its own infrared at full power, and by all
/// else.
struct MeterPixel {
  double others = 0, own = 0, weight = 1;
};

/// The frame without the subject, as its meter sees it: groups of equal weight, brightest first.
class Metering {
 public:
  static constexpr size_t kGroups = 64;

  /// No frame: whatever is looked at fills it, a uniform scene.
  Metering() = default;
  explicit Metering(std::span<const MeterPixel> frame);

  bool uniform() const { return count_ == 0; }
  double mean() const { return mean_; }            ///< electrons a second, at full power
  double own_share() const { return own_share_; }  ///< of the mean that is the camera's own infrared
  /// Share of the frame brighter than a rate.
  double share_above(double rate) const;
  /// Rate that a share of the frame is brighter than.
  double bright(double share) const;
  /// Least drive (level per rate) at which the mean of min(level, 1), of the frame scaled and of a subject that covers
  /// a part of it, is the target; infinite when none is.
  double drive_for(double target, double scale, double subject_rate, double cover) const;

  bool operator==(const Metering&) const = default;

 private:
  size_t count_ = 0;
  double mean_ = 0, own_share_ = 0;
  std::array<double, kGroups> rate_{};   // falling
  std::array<double, kGroups> drive_{};  // at which the group clips: 1 / rate, rising
  std::array<double, kGroups> level_{};  // mean level of the frame there
};

/// What bounds an exposure. Times in seconds.
struct ExposureLimits {
  double shortest = 1e-5, longest = 0.04;
  double largest_gain = 1;  ///< ratio
  double iris_range = 1;    ///< light through the open iris over that through the smallest; 1: it does not move
  double target = 0.18;
  camera::ExposureOrder order = camera::ExposureOrder::kShutterFirst;
  bool adaptive = false;  ///< the infrared's power
  double clip_share = 0.02;

  bool operator==(const ExposureLimits&) const = default;
};

/// The subject in the frame, in electrons a second and pixel: means, and by how much its bright parts exceed them.
struct MeterSubject {
  double others = 0, own = 0;
  double contrast = 0;
  double cover = 0;
};

struct Exposed {
  double time = 0;   ///< s
  double gain = 1;   ///< full scale is the full well over it
  double power = 1;  ///< of the camera's infrared, of its full power
  double iris = 1;   ///< share of the open iris's light that passes
};

/// Comes to an exposure. `scale` is the frame's true brightness over its nominal one without, `own_scale` with the
/// change of the infrared alone.
Exposed expose(const Metering& metering, const ExposureLimits& limits, const MeterSubject& subject, double full_well,
               double scale, double own_scale);

}  // namespace sightfall::detail
