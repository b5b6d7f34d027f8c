// SPDX-License-Identifier: GPL-3.0-or-later
#include "detail/delivered.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "camera/focus.h"
#include "detail/transfer.h"

namespace sightfall::detail {
namespace {

constexpr double kNyquist = 0.5;           // cycles per pixel
constexpr double kDiscFirstZero = 1.2197;  // of 2 J1(pi x)/(pi x)

/// Transfer of everything but the pixels.
double optical_transfer(const Blur& blur, double x) {
  double product = gaussian_transfer(blur.lens, x) * diffraction_transfer(blur.diffraction, x);
  if (blur.defocus > 0) product *= disc_transfer(blur.defocus, x);
  if (blur.motion > 0) product *= sinc_transfer(blur.motion, x);
  if (blur.shake > 0) product *= sinc_transfer(blur.shake, x);
  return product;
}

/// Up to the first zero of any factor each factor falls, so the product crosses a threshold there once.
double first_zero(const Blur& blur) {
  const auto zero = [](double at, double width) {
    return width > 0 ? at / width : std::numeric_limits<double>::infinity();
  };
  return std::min(
      {zero(kDiscFirstZero, blur.defocus), zero(1, blur.motion), zero(1, blur.shake), zero(1, blur.diffraction)});
}

/// Where a falling function crosses zero in [0, high], or `high` when it does not (Illinois form of the false
/// position).
template <class Falling>
double crossing(Falling f, double high) {
  double a = 0, fa = f(0), b = high, fb = f(high);
  if (fb >= 0) return high;
  constexpr int kSteps = 60;
  constexpr double kClose = 1e-7;
  for (int i = 0; i < kSteps; ++i) {
    const double x = (a * fb - b * fa) / (fb - fa), fx = f(x);
    if (std::abs(fx) < kClose) return x;
    if (fx * fb < 0) {
      a = b;
      fa = fb;
    } else {
      fa *= 0.5;
    }
    b = x;
    fb = fx;
  }
  return b;
}

/// The frequency at which optics finer than any pixel would still resolve.
double optical_frequency(const Blur& blur, double contrast, double threshold) {
  if (contrast < threshold) return 0;
  constexpr double kFinest = 50;  // cycles per pixel: a hundred times finer than the pixels allow
  return crossing([&](double x) { return contrast * optical_transfer(blur, x) - threshold; },
                  std::min(kFinest, first_zero(blur)));
}

double motion_path(const CameraConstants& camera, const Values& v, double pitch) {
  return camera.sway_rate * v[Input::kShutter] * camera.focal / pitch;
}

/// Focal length and focus distance keep the blur circle's formula valid only beyond the focal length.
double defocus_px(const CameraConstants& camera, const Seen& seen, const Values& v, double pitch) {
  const camera::ThinLens lens{Length{camera.focal}, v[Input::kFNumber]};
  const double nearest = 1.001 * camera.focal;
  const Length focus{std::max(v[Input::kFocus], nearest)}, depth{std::max(seen.depth, nearest)};
  return camera::blur_circle(lens, focus, depth).si() / pitch;
}

Blur blur_of(const CameraConstants& camera, const Seen& seen, const Values& v) {
  // A narrower true view means a smaller active width, so smaller pixels.
  const double pitch = camera.pitch / v[Input::kDensityFactor];
  return {v[Input::kLensBlur], kDaylightWavelength.si() * v[Input::kFNumber] / pitch,
          defocus_px(camera, seen, v, pitch),
          seen.motion_density * v[Input::kDensityFactor] * v[Input::kSpeed] * v[Input::kShutter],
          motion_path(camera, v, pitch)};
}

/// Contrast after a veil's own light and the glare are laid over the subject: (max - min)/(max + min) of the sum.
double diluted(double contrast, double passed, double veil_luminance, double glare) {
  const double sum = passed + (1 - passed) * veil_luminance + glare;
  return sum > 0 ? contrast * passed / sum : 0;
}

}  // namespace

double resolved_frequency(const Blur& blur, double contrast, double threshold) {
  if (contrast < threshold) return 0;
  return crossing([&](double x) { return contrast * optical_transfer(blur, x) * sinc_transfer(1, x) - threshold; },
                  std::min(kNyquist, first_zero(blur)));
}

double reference_frequency(double threshold) {
  return resolved_frequency({.lens = kReferenceBlur}, kReferenceContrast, threshold);
}

Values::Values(const std::array<double, kInputCount>& values)
    : values_{values}, reference_{reference_frequency(values_[static_cast<size_t>(Input::kThreshold)])} {}

Values Values::with(Input input, double value) const {
  Values changed = *this;
  changed.values_[static_cast<size_t>(input)] = value;
  if (input == Input::kThreshold) changed.reference_ = reference_frequency(value);
  return changed;
}

Values nominal(const RangedInputs& inputs) {
  std::array<double, kInputCount> values{};
  for (size_t i = 0; i < kInputCount; ++i) values[i] = inputs[i].nominal;
  return Values{values};
}

double delivered_without(Limit factor, const CameraConstants& camera, const Seen& seen, const Values& v) {
  Blur blur = blur_of(camera, seen, v);
  double contrast = v[Input::kContrast], passed = seen.passed, glare = v[Input::kGlare];
  switch (factor) {
    case Limit::kLens:
      blur.lens = std::min(blur.lens, kReferenceBlur);
      blur.diffraction = 0;
      break;
    case Limit::kFocus:
      blur.defocus = 0;
      break;
    case Limit::kMotion:
      blur.motion = 0;
      break;
    case Limit::kShake:
      blur.shake = 0;
      break;
    case Limit::kGlare:
      glare = 0;
      break;
    case Limit::kVeil:
      passed = 1;
      break;
    case Limit::kContrast:
      contrast = std::max(contrast, kReferenceContrast);
      break;
    default:
      break;
  }
  contrast = diluted(contrast, passed, v[Input::kVeilLuminance], glare);
  const double density = seen.density * v[Input::kDensityFactor];
  if (v.reference() <= 0) return 0;
  if (factor == Limit::kPixels) {
    // Finer pixels behind the same optics: the part of the lens's blur that belongs to any pixel goes with them.
    blur.lens = std::sqrt(std::max(0.0, blur.lens * blur.lens - kReferenceBlur * kReferenceBlur));
    return density * optical_frequency(blur, contrast, v[Input::kThreshold]) / v.reference();
  }
  return density * std::min(1.0, resolved_frequency(blur, contrast, v[Input::kThreshold]) / v.reference());
}

double delivered(const CameraConstants& camera, const Seen& seen, const Values& values) {
  return delivered_without(Limit::kNone, camera, seen, values);
}

void delivered(const CameraConstants& camera, std::span<const Seen> seen, const Values& values, std::span<double> out) {
  std::transform(seen.begin(), seen.end(), out.begin(),
                 [&](const Seen& one) { return one.density > 0 ? delivered(camera, one, values) : 0.0; });
}

DeliveredRange delivered_range(const CameraConstants& camera, const Seen& seen, const RangedInputs& inputs) {
  const Values middle = nominal(inputs);
  const double at_nominal = delivered(camera, seen, middle);
  DeliveredRange range{{at_nominal, at_nominal, at_nominal}, Input::kThreshold};
  if (at_nominal <= 0) return range;
  double down = 0, up = 0, most = 0;
  for (size_t i = 0; i < kInputCount; ++i) {
    const Ranged<double>& r = inputs[i];
    if (r.low == r.high) continue;
    double spread = 0;
    for (const double end : {r.low, r.high}) {
      const double at_end = delivered(camera, seen, middle.with(static_cast<Input>(i), end));
      const double log_ratio = at_end > 0 ? std::log(at_end / at_nominal) : -std::numeric_limits<double>::infinity();
      (log_ratio < 0 ? down : up) += log_ratio * log_ratio;
      spread += std::abs(log_ratio);
    }
    if (spread > most) {
      most = spread;
      range.widest = static_cast<Input>(i);
    }
  }
  range.value.low = at_nominal * std::exp(-std::sqrt(down));
  range.value.high = at_nominal * std::exp(std::sqrt(up));
  return range;
}

Limit limit_of(const CameraConstants& camera, const Seen& seen, const Values& values) {
  constexpr std::array kFactors{Limit::kPixels, Limit::kLens,  Limit::kFocus, Limit::kMotion,
                                Limit::kShake,  Limit::kGlare, Limit::kVeil,  Limit::kContrast};
  Limit worst = Limit::kPixels;
  double most = 0;
  for (const Limit factor : kFactors) {
    const double without = delivered_without(factor, camera, seen, values);
    if (without > most) {
      most = without;
      worst = factor;
    }
  }
  return worst;
}

}  // namespace sightfall::detail
