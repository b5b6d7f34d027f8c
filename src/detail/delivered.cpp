// SPDX-License-Identifier: GPL-3.0-or-later
#include "detail/delivered.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace sightfall::detail {
namespace {

constexpr double kFinest = 50;  // cycles per pixel: a hundred times finer than the pixels allow

void take_away(Limit factor, Pattern& p) {
  switch (factor) {
    case Limit::kLens:
      p.blur.lens = std::min(p.blur.lens, kReferenceBlur);
      p.blur.diffraction = 0;
      break;
    case Limit::kFocus:
      p.blur.defocus = 0;
      break;
    case Limit::kMotion:
      p.blur.motion = 0;
      break;
    case Limit::kShake:
      p.blur.shake = 0;
      break;
    case Limit::kContrast:
      p.contrast = std::max(p.contrast, kReferenceContrast);
      break;
    case Limit::kNoise:
      p.noise_threshold = p.smear = 0;
      break;
    case Limit::kCompression:
      p.codec = {};
      break;
    case Limit::kClipping:
      p.signal.full_scale = std::numeric_limits<double>::infinity();
      break;
    case Limit::kPixels:
      // Finer pixels behind the same optics: the part of the lens's blur that belongs to any pixel goes with them.
      p.blur.lens = std::sqrt(std::max(0.0, p.blur.lens * p.blur.lens - kReferenceBlur * kReferenceBlur));
      p.pixel = 0;
      break;
    default:
      break;
  }
}

/// With finer pixels: contrast as the optics leave it, but no less noise, for finer pixels collect less light each.
double resolved_by_finer(const Pattern& as_it_is, const Pattern& finer) {
  Pattern quiet = finer;
  quiet.noise_threshold = 0;
  const double by_contrast = quiet.resolved(kFinest, {kNyquist}).at;
  const double most = std::min(1.0, first_zero(as_it_is.blur));  // the pixel's own first zero, or another blur's
  if (as_it_is.margin_to_noise(most) >= 1) return by_contrast;
  return std::min(by_contrast, as_it_is.resolved_by_noise(most));
}

/// Where no factor's removal alone gives anything: what takes the contrast even of the coarsest pattern, or the noise.
/// Where that is the codec, the noise forbids also what is not compressed, and less of it would be compressed less.
Limit nothing_helps(const CameraConstants& camera, const Seen& seen, const Values& v) {
  const auto coarsest = [&](Limit without) {
    Pattern pattern = pattern_of(without, camera, seen, v);
    take_away(without, pattern);
    pattern.smear = 0;  // noise reduction is the noise's
    return pattern.contrast_left(0) - pattern.threshold;
  };
  if (coarsest(Limit::kNone) >= 0) return Limit::kNoise;
  for (const Limit factor : {Limit::kClipping, Limit::kCompression, Limit::kAir, Limit::kVeil, Limit::kGlare})
    if (coarsest(factor) >= 0) return factor == Limit::kCompression ? Limit::kNoise : factor;
  return Limit::kContrast;
}

/// Which inputs can move a sample's answer: the others are not tried at their ends.
class Relevant {
 public:
  /// `at` is the frequency up to which the pattern is made out.
  Relevant(const CameraConstants& camera, const Seen& seen, const Values& v, const Pattern& pattern, double at)
      : seen_{seen} {
    constexpr double kAmple = 4;  // times what is asked: light within its range does not reach the answer
    const Signal& s = pattern.signal;
    const bool noisy = at <= 0 || pattern.margin_to_noise(at) < kAmple ||
                       (pattern.smear > 0 && pattern.amplitude(at) < kAmple * kAmple * pattern.smear * s.deviation);
    const bool near_clipping = (s.subject * (1 + pattern.contrast) + s.behind) * kAmple / 2 > s.full_scale;
    constexpr double kSmall = 0.2;  // px: motion below it leaves no mark
    const bool moving = !camera.shutter_fixed && pattern.blur.motion + pattern.blur.shake > kSmall;
    const bool layered = seen.own > 0 && (seen.path + seen.glare > 0 || seen.own_path + seen.own_glass > 0);
    exposure_ = noisy || near_clipping;
    light_ = exposure_ || moving || layered || camera.limits.iris_range > 1;
    compressed_ = pattern.codec.table != nullptr;
    timed_ = camera.shutter_fixed || 2 * s.exposed.time > v[Input::kShutter];
    swaying_ = kAmple * pattern.blur.shake > kSmall;
  }

  bool operator()(Input input) const {
    switch (input) {
      case Input::kVeilLuminance:
        return seen_.passed < 1;
      case Input::kNoiseThreshold:
      case Input::kReadNoise:
      case Input::kFullWell:
      case Input::kGain:
        return exposure_;
      case Input::kSensitivity:
      case Input::kTarget:
        return light_;
      case Input::kReflectance:
        return light_ || seen_.path > 0 || seen_.glare > 0;
      case Input::kInfrared:
        return light_ && seen_.own > 0;
      case Input::kScatter:
        return seen_.own_path > 0;
      case Input::kGlass:
        return seen_.own_glass > 0;
      case Input::kFlicker:
        return exposure_ && seen_.flicker > 0;
      case Input::kQuantiser:
        return compressed_;
      case Input::kFlare:
        return seen_.glare > 0;
      case Input::kShutter:
        return timed_;
      case Input::kSway:
        return swaying_;
      default:
        return true;
    }
  }

 private:
  const Seen& seen_;
  bool exposure_ = true, light_ = true, timed_ = true, compressed_ = false, swaying_ = false;
};

double log_of_ratio(double value, double to) {
  constexpr double kNone = std::numeric_limits<double>::infinity();
  if (to <= 0) return 0;
  return value > 0 ? std::log(value / to) : -kNone;
}

/// Beyond the reference's frequency nothing is gained.
double delivered_up_to(double frequency, const Seen& seen, const Values& v) {
  if (v.reference() <= 0) return 0;
  return seen.density * v[Input::kDensityFactor] * std::min(1.0, frequency / v.reference());
}

/// With the frequency up to which the pattern is made out looked for near a guess first.
double delivered_near(const Crossing& guess, const Pattern& pattern, const Seen& seen, const Values& v) {
  return delivered_up_to(pattern.resolved(kNyquist, guess).at, seen, v);
}

/// The range of one sample's answer, as one input after the other is taken into it.
class Widening {
 public:
  Widening(const CameraConstants& camera, const Seen& seen, const RangedValues& values)
      : camera_{camera},
        seen_{seen},
        values_{values},
        best_{values.nominal()},
        pattern_{pattern_of(Limit::kNone, camera, seen, best_)},
        made_out_{pattern_.resolved(kNyquist)},
        nominal_{delivered_up_to(made_out_.at, seen, best_)},
        relevant_{camera, seen, best_, pattern_, made_out_.at},
        most_alone_{nominal_} {}

  void add(Input input) {
    const std::span<const Values> ends = values_.with_at_ends(input);
    if (ends.empty() || !relevant_(input)) return;
    constexpr double kSolved = 1e-6;  // what is found from elsewhere differs a little: that is no help
    double helped = nominal_, spread = 0;
    for (const Values& end : ends) {
      const double at_end = delivered_near(made_out_, pattern_of(Limit::kNone, camera_, seen_, end), seen_, end);
      if (at_end > (1 + kSolved) * helped) {
        best_ = best_.with(input, end[input]);
        helped = at_end;
      }
      const double log_ratio = log_of_ratio(at_end, nominal_);
      (log_ratio < 0 ? down_ : up_) += log_ratio * log_ratio;
      spread += nominal_ > 0 ? std::abs(log_ratio) : at_end;
    }
    gained_ += (helped - nominal_) * (helped - nominal_);
    most_alone_ = std::max(most_alone_, helped);
    if (spread > most_) {
      most_ = spread;
      widest_ = input;
    }
  }

  double nominal() const { return nominal_; }
  double most_alone() const { return most_alone_; }  ///< that one input gives
  Input widest() const { return widest_; }
  double low() const { return nominal_ > 0 ? nominal_ * std::exp(-std::sqrt(down_)) : 0; }

  /// Where an input brings back what the nominal value has hardly any of, logarithms overshoot: the sum of squares of
  /// the gains themselves, or all helping ends together, bounds them.
  double high() const {
    if (nominal_ <= 0) return most_alone_;
    const double bound = std::max(nominal_ + std::sqrt(gained_), delivered(camera_, seen_, best_));
    const double most_pixels = seen_.density * values_.of(Input::kDensityFactor).high;
    return std::max(most_alone_, std::min({nominal_ * std::exp(std::sqrt(up_)), bound, most_pixels}));
  }

 private:
  const CameraConstants& camera_;
  const Seen& seen_;
  const RangedValues& values_;
  Values best_;      // each input at the end that helps
  Pattern pattern_;  // as everything is nominal
  Crossing made_out_;
  double nominal_;
  Relevant relevant_;
  double down_ = 0, up_ = 0, gained_ = 0, most_alone_, most_ = 0;
  Input widest_ = Input::kThreshold;
};

}  // namespace

double delivered_without(Limit factor, const CameraConstants& camera, const Seen& seen, const Values& v) {
  if (v.reference() <= 0) return 0;
  const Pattern as_it_is = pattern_of(factor, camera, seen, v);
  Pattern pattern = as_it_is;
  take_away(factor, pattern);
  if (factor == Limit::kPixels)
    return seen.density * v[Input::kDensityFactor] * resolved_by_finer(as_it_is, pattern) / v.reference();
  return delivered_near({}, pattern, seen, v);
}

double delivered(const CameraConstants& camera, const Seen& seen, const Values& values) {
  return delivered_near({}, pattern_of(Limit::kNone, camera, seen, values), seen, values);
}

void delivered(const CameraConstants& camera, std::span<const Seen> seen, const Values& values, std::span<double> out) {
  std::transform(seen.begin(), seen.end(), out.begin(),
                 [&](const Seen& one) { return one.density > 0 ? delivered(camera, one, values) : 0.0; });
}

DeliveredRange delivered_range(const CameraConstants& camera, const Seen& seen, const RangedValues& values) {
  Widening widening{camera, seen, values};
  for (size_t i = 0; i < kInputCount; ++i) widening.add(static_cast<Input>(i));
  return {{widening.low(), widening.nominal(), widening.high()}, widening.widest()};
}

Ranged<bool> delivers(const CameraConstants& camera, const Seen& seen, const RangedValues& values, double level) {
  if (seen.density * values.of(Input::kDensityFactor).high < level) return {};
  Widening widening{camera, seen, values};
  const bool nominal = widening.nominal() >= level;
  // Each input takes the low end down and the best of them up: what they have settled, the others leave so.
  for (size_t i = 0; i < kInputCount; ++i) {
    widening.add(static_cast<Input>(i));
    if (nominal && widening.low() < level) return {false, true, true};
    if (!nominal && widening.most_alone() >= level) return {false, false, true};
  }
  return nominal ? Ranged<bool>::exact(true) : Ranged<bool>{false, false, widening.high() >= level};
}

Limit limit_of(const CameraConstants& camera, const Seen& seen, const Values& values) {
  constexpr std::array kFactors{Limit::kPixels, Limit::kLens,     Limit::kFocus, Limit::kMotion,
                                Limit::kShake,  Limit::kGlare,    Limit::kVeil,  Limit::kContrast,
                                Limit::kNoise,  Limit::kClipping, Limit::kAir,   Limit::kCompression};
  // Of the density: what the codec takes of less is not its to take, for noise leaves hardly any.
  constexpr double kHardlyAny = 0.01;
  const double by_noise = kHardlyAny * seen.density * values[Input::kDensityFactor];
  Limit worst = nothing_helps(camera, seen, values);
  double most = 0;
  for (const Limit factor : kFactors) {
    const double without = delivered_without(factor, camera, seen, values);
    if (without > (factor == Limit::kCompression ? std::max(most, by_noise) : most)) {
      most = without;
      worst = factor;
    }
  }
  return worst;
}

}  // namespace sightfall::detail
