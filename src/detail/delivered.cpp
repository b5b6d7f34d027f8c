// SPDX-License-Identifier: GPL-3.0-or-later
#include "detail/delivered.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "camera/focus.h"
#include "detail/sensor.h"
#include "detail/tones.h"
#include "detail/transfer.h"

namespace sightfall::detail {
namespace {

constexpr double kNyquist = 0.5;  // cycles per pixel
constexpr double kUnlimited = std::numeric_limits<double>::infinity();
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

/// Where a falling function crosses zero in [0, high]; `high` where it does not, 0 where it begins below. Looked for
/// near `guess` first, in squares of x: there the logarithm of most transfers is nearly a straight line (false position
/// in its Illinois form, by extrapolation until the crossing lies between two points).
template <class Falling>
double crossing(Falling f, double high, double guess) {
  constexpr int kSteps = 60;
  constexpr double kClose = 1e-7;
  struct Point {
    double square, value;
  };
  Point before{0, f(0)};
  if (before.value < 0) return 0;
  Point above = before, below{0, 0};  // no square below: none is known
  const double most = high * high;
  double square = guess > 0 ? std::min(guess * guess, most) : most;
  for (int i = 0; i < kSteps; ++i) {
    const Point here{square, f(std::sqrt(square))};
    if (here.value >= 0 && square >= most) return high;
    const double slope = (here.value - before.value) / (here.square - before.square);
    const double straight_on = slope < 0 ? std::clamp(square - here.value / slope, 0.0, most) : most;
    if (std::abs(here.value) < kClose) return std::sqrt(slope < 0 ? straight_on : square);
    const bool again = i > 0 && (here.value > 0) == (before.value > 0);  // on the same side
    if (here.value > 0) {
      if (again) below.value *= 0.5;
      above = here;
    } else {
      if (again) above.value *= 0.5;
      below = here;
    }
    before = here;
    square = below.square > 0 ? (above.square * below.value - below.square * above.value) / (below.value - above.value)
                              : straight_on;
  }
  return std::sqrt(square);
}

/// How far above what is asked, on a scale on which what is far off does not lead astray.
double log_over(double what, double asked) {
  constexpr double kFar = 6;
  return what > 0 ? std::clamp(std::log(what / asked), -kFar, kFar) : -kFar;
}

/// Focal length and focus distance keep the blur circle's formula valid only beyond the focal length. Another
/// wavelength moves the plane of focus; the circle is told with its sign, so that the shift may help or harm.
double defocus_px(const CameraConstants& camera, const Seen& seen, const Values& v, double f_number, double pitch) {
  const camera::ThinLens lens{Length{camera.focal}, f_number};
  const double nearest = 1.001 * camera.focal;
  const Length focus{std::max(v[Input::kFocus], nearest)}, depth{std::max(seen.depth, nearest)};
  const double circle = camera::blur_circle(lens, focus, depth).si();
  if (camera.focus_shift == 0) return circle / pitch;
  const double behind = depth < focus ? circle : -circle;  // a near subject is focused behind the sensor
  return std::abs(behind - camera.focus_shift / f_number) / pitch;
}

/// What is left of a bar pattern through a modulation.
struct Bars {
  double bright = 0, dark = 0;  // electrons

  double amplitude() const { return (bright - dark) / 2; }
  double contrast() const { return bright + dark > 0 ? (bright - dark) / (bright + dark) : 0; }
};

Bars bars_of(const Signal& s, double modulation) {
  return {std::min(s.subject * (1 + modulation) + s.behind, s.full_scale),
          std::min(s.subject * std::max(1 - modulation, 0.0) + s.behind, s.full_scale)};
}

/// The codec on one sample; without a table nothing is lost.
struct Compression {
  const CodecTable* table = nullptr;
  double step = 1;        // of its quantiser, grey levels
  double noise = 0;       // of the sample, grey levels
  double full_scale = 1;  // electrons

  Compression() = default;
  Compression(const CameraConstants& camera, const Signal& s, const Values& v) : table{camera.codec.get()} {
    if (table == nullptr) return;
    full_scale = s.full_scale;
    noise = s.deviation / output_step(s.subject + s.behind, full_scale);
    step = kSpread * quantiser_step(camera, s, v);
    if (step <= 0) table = nullptr;
  }

  double surviving(const Bars& bars, double x) const {
    if (table == nullptr) return 1;
    const double amplitude = (grey_level(bars.bright, full_scale) - grey_level(bars.dark, full_scale)) / 2;
    return table->surviving(amplitude / step, noise / step, x);
  }
  /// Of bars to noise, of whose pattern a share survives: both come through alike, and the codec's own error is added.
  double ratio_left(double share) const {
    if (table == nullptr) return 1;
    if (noise <= 0) return share;
    const double error = kDistortion * step / noise;
    return share / std::sqrt(share * share + error * error);
  }
};

/// Everything that decides up to which frequency one sample's pattern is made out.
struct Pattern {
  Blur blur;
  Signal signal;
  Compression codec;
  double contrast = 0, threshold = 0, noise_threshold = 0;
  double area = 1;      // see Seen
  double smear = 0;     // see CameraConstants
  double pixel = 1;     // width of the pixel's own blur; 0: finer than any
  bool shaded = false;  // see Seen

  double modulation(double x) const { return contrast * optical_transfer(blur, x) * sinc_transfer(pixel, x); }

  /// What is left of a bar pattern of one frequency.
  struct Left {
    double contrast = 0;
    double bar_ratio = 0;  ///< signal to noise over a bar that is seven times as long as wide (Rose), times frequency
  };

  Left left(double x) const {
    constexpr double kBar = 7;
    const double m = modulation(x);
    const Bars bars = bars_of(signal, m);
    const double share = codec.surviving(bars, x);
    Left left;
    left.contrast =
        share * (shaded ? contrast_of_tones(signal.subject + signal.behind, signal.subject * m, signal.full_scale)
                        : bars.contrast());
    left.bar_ratio = 2 * bars.amplitude() * codec.ratio_left(share) / signal.deviation * std::sqrt(kBar * area / 4);
    if (smear <= 0 || bars.amplitude() <= 0) return left;
    const double ratio = bars.amplitude() / (smear * signal.deviation);
    left.contrast *= ratio * ratio / (ratio * ratio + 1);
    return left;
  }

  bool noisy() const { return noise_threshold > 0 && signal.deviation > 0; }

  /// How many times the threshold a bar stands out of the noise.
  double margin_to_noise(double x) const { return noisy() ? margin_to_noise(left(x), x) : kUnlimited; }
  double margin_to_noise(const Left& left, double x) const {
    return left.bar_ratio / (noise_threshold * std::max(x, 1e-9));
  }

  /// The lowest frequency up to `most` at which either test fails, looked for near a guess first.
  double resolved(double most, double guess) const {
    return crossing(
        [&](double x) {
          const Left is_left = left(x);
          const double by_contrast = log_over(is_left.contrast, threshold);
          return noisy() ? std::min(by_contrast, log_over(margin_to_noise(is_left, x), 1)) : by_contrast;
        },
        std::min(most, first_zero(blur)), guess);
  }

  /// The lowest frequency up to `most` at which a bar drowns in noise.
  double resolved_by_noise(double most) const {
    return crossing([&](double x) { return log_over(margin_to_noise(x), 1); }, most, most);
  }
};

constexpr double kFinest = 50;  // cycles per pixel: a hundred times finer than the pixels allow

/// A sample as it is, or with one factor taken away.
Pattern pattern_of(Limit without, const CameraConstants& camera, const Seen& seen, const Values& v) {
  Pattern p;
  p.signal = signal_without(without, camera, seen, v);
  p.blur = blur_of(camera, seen, v, p.signal.exposed);
  p.contrast = v[Input::kContrast];
  p.threshold = v[Input::kThreshold];
  p.noise_threshold = v[Input::kNoiseThreshold];
  p.area = seen.area;
  p.shaded = seen.shaded;
  p.smear = camera.smear;
  p.codec = Compression{camera, p.signal, v};
  return p;
}

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
  const double by_contrast = quiet.resolved(kFinest, kNyquist);
  const double most = std::min(1.0, first_zero(as_it_is.blur));  // the pixel's own first zero, or another blur's
  if (as_it_is.noise_threshold <= 0 || as_it_is.signal.deviation <= 0 || as_it_is.margin_to_noise(most) >= 1)
    return by_contrast;
  return std::min(by_contrast, as_it_is.resolved_by_noise(most));
}

/// Where no factor's removal alone gives anything: what takes the contrast even of the coarsest pattern, or the noise.
/// Where that is the codec, the noise forbids also what is not compressed, and less of it would be compressed less.
Limit nothing_helps(const CameraConstants& camera, const Seen& seen, const Values& v) {
  const auto coarsest = [&](Limit without) {
    Pattern pattern = pattern_of(without, camera, seen, v);
    take_away(without, pattern);
    pattern.smear = 0;  // noise reduction is the noise's
    return pattern.left(0).contrast - pattern.threshold;
  };
  if (coarsest(Limit::kNone) >= 0) return Limit::kNoise;
  for (const Limit factor : {Limit::kClipping, Limit::kCompression, Limit::kAir, Limit::kVeil, Limit::kGlare})
    if (coarsest(factor) >= 0) return factor == Limit::kCompression ? Limit::kNoise : factor;
  return Limit::kContrast;
}

/// Which inputs can move a sample's answer: the others are not tried at their ends.
class Relevant {
 public:
  Relevant(const CameraConstants& camera, const Seen& seen, const Values& v)
      : seen_{seen}, pattern_{pattern_of(Limit::kNone, camera, seen, v)} {
    constexpr double kAmple = 4;  // times what is asked: light within its range does not reach the answer
    const double at = pattern_.resolved(kNyquist, kNyquist);
    const Signal& s = pattern_.signal;
    const bool noisy = at <= 0 || pattern_.margin_to_noise(at) < kAmple ||
                       (pattern_.smear > 0 && bars_of(s, pattern_.modulation(at)).amplitude() <
                                                  kAmple * kAmple * pattern_.smear * s.deviation);
    const bool near_clipping = (s.subject * (1 + pattern_.contrast) + s.behind) * kAmple / 2 > s.full_scale;
    constexpr double kSmall = 0.2;  // px: motion below it leaves no mark
    const bool moving = !camera.shutter_fixed && pattern_.blur.motion + pattern_.blur.shake > kSmall;
    const bool layered = seen.own > 0 && (seen.path + seen.glare > 0 || seen.own_path + seen.own_glass > 0);
    exposure_ = noisy || near_clipping;
    light_ = exposure_ || moving || layered || camera.limits.iris_range > 1;
    compressed_ = pattern_.codec.table != nullptr;
    timed_ = camera.shutter_fixed || 2 * s.exposed.time > v[Input::kShutter];
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
      default:
        return true;
    }
  }

 private:
  const Seen& seen_;
  Pattern pattern_;
  bool exposure_ = true, light_ = true, timed_ = true, compressed_ = false;
};

double log_of_ratio(double value, double to) {
  constexpr double kNone = std::numeric_limits<double>::infinity();
  if (to <= 0) return 0;
  return value > 0 ? std::log(value / to) : -kNone;
}

/// Beyond the reference's frequency nothing is gained, so it is not looked for there.
double delivered_of(const Pattern& pattern, const Seen& seen, const Values& v, double guess) {
  const double share = std::min(1.0, pattern.resolved(std::min(kNyquist, v.reference()), guess) / v.reference());
  return seen.density * v[Input::kDensityFactor] * share;
}

/// With the frequency up to which the pattern is made out looked for near a guess first.
double delivered_near(double guess, const CameraConstants& camera, const Seen& seen, const Values& v) {
  return v.reference() > 0 ? delivered_of(pattern_of(Limit::kNone, camera, seen, v), seen, v, guess) : 0;
}

/// The range of one sample's answer, as one input after the other is taken into it.
class Widening {
 public:
  Widening(const CameraConstants& camera, const Seen& seen, const RangedValues& values)
      : camera_{camera},
        seen_{seen},
        values_{values},
        nominal_{delivered(camera, seen, values.nominal())},
        guess_{seen.density > 0 ? nominal_ / seen.density * values.nominal().reference() : 0},
        relevant_{camera, seen, values.nominal()},
        best_{values.nominal()},
        most_alone_{nominal_} {}

  void add(Input input) {
    const std::span<const Values> ends = values_.with_at_ends(input);
    if (ends.empty() || !relevant_(input)) return;
    double helped = nominal_, spread = 0;
    for (const Values& end : ends) {
      const double at_end = delivered_near(guess_, camera_, seen_, end);
      if (at_end > helped) {
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
  double nominal_;
  double guess_;  // of the frequency, cycles per pixel
  Relevant relevant_;
  Values best_;  // each input at the end that helps
  double down_ = 0, up_ = 0, gained_ = 0, most_alone_, most_ = 0;
  Input widest_ = Input::kThreshold;
};

}  // namespace

double quantiser_step(const CameraConstants& camera, const Signal& s, const Values& v) {
  if (!camera.codec) return 0;
  const double by_rate =
      std::isfinite(camera.bits_per_pixel) ? camera.codec->step_at_rate(camera.bits_per_pixel, s.frame_noise) : 0;
  const double by_quality = camera.quality > 0 ? camera.codec->step_at_quality(camera.quality, s.frame_noise) : 0;
  return std::max(by_rate, by_quality) * v[Input::kQuantiser];
}

Blur blur_of(const CameraConstants& camera, const Seen& seen, const Values& v, const Exposed& exposed) {
  // A narrower true view means a smaller active width, so smaller pixels.
  const double pitch = camera.pitch / v[Input::kDensityFactor];
  const double f_number = v[Input::kFNumber] / std::sqrt(exposed.iris);
  return {v[Input::kLensBlur], camera.wavelength * f_number / pitch, defocus_px(camera, seen, v, f_number, pitch),
          seen.motion_density * v[Input::kDensityFactor] * v[Input::kSpeed] * exposed.time,
          camera.sway_rate * exposed.time * camera.focal / pitch};
}

double resolved_frequency(const Blur& blur, double contrast, double threshold) {
  if (contrast < threshold) return 0;
  return crossing(
      [&](double x) { return log_over(contrast * optical_transfer(blur, x) * sinc_transfer(1, x), threshold); },
      std::min(kNyquist, first_zero(blur)), kNyquist);
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

RangedValues::RangedValues(const RangedInputs& inputs) : inputs_{inputs}, nominal_{detail::nominal(inputs)} {
  for (size_t i = 0; i < kInputCount; ++i) {
    begin_[i] = ends_.size();
    if (inputs[i].low == inputs[i].high) continue;
    for (const double end : {inputs[i].low, inputs[i].high}) ends_.push_back(nominal_.with(static_cast<Input>(i), end));
  }
}

std::span<const Values> RangedValues::with_at_ends(Input input) const {
  const Ranged<double>& range = of(input);
  return std::span{ends_}.subspan(begin_[static_cast<size_t>(input)], range.low == range.high ? 0 : 2);
}

double delivered_without(Limit factor, const CameraConstants& camera, const Seen& seen, const Values& v) {
  if (v.reference() <= 0) return 0;
  const Pattern as_it_is = pattern_of(factor, camera, seen, v);
  Pattern pattern = as_it_is;
  take_away(factor, pattern);
  if (factor == Limit::kPixels)
    return seen.density * v[Input::kDensityFactor] * resolved_by_finer(as_it_is, pattern) / v.reference();
  return delivered_of(pattern, seen, v, kNyquist);
}

double delivered(const CameraConstants& camera, const Seen& seen, const Values& values) {
  return delivered_near(kNyquist, camera, seen, values);
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

DeliveredRange delivered_range(const CameraConstants& camera, const Seen& seen, const RangedInputs& inputs) {
  return delivered_range(camera, seen, RangedValues{inputs});
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
