// SPDX-License-Identifier: GPL-3.0-or-later
#include "detail/pattern.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "camera/focus.h"
#include "detail/sensor.h"
#include "detail/tones.h"
#include "detail/transfer.h"

namespace sightfall::detail {
namespace {

constexpr double kDiscFirstZero = 1.2197;  // of 2 J1(pi x)/(pi x)

/// Transfer of everything but the pixels.
double optical_transfer(const Blur& blur, double x) {
  double product = gaussian_transfer(blur.lens, x) * diffraction_transfer(blur.diffraction, x);
  if (blur.defocus > 0) product *= disc_transfer(blur.defocus, x);
  if (blur.motion > 0) product *= sinc_transfer(blur.motion, x);
  if (blur.shake > 0) product *= sinc_transfer(blur.shake, x);
  return product;
}

/// Where a falling function crosses zero in [0, high]; `high` where it does not, 0 where it begins below. Looked for
/// near a guess first, in squares of x: there the logarithm of most transfers is nearly a straight line (along slopes
/// until the crossing lies between two points, then by false position in its Illinois form).
template <class Falling>
Crossing crossing(Falling f, double high, const Crossing& guess) {
  constexpr int kSteps = 60;
  constexpr double kClose = 1e-5;  // a step along the slope from there comes a thousand times closer
  struct Point {
    double square, value;
  };
  const double most = high * high;
  double square = guess.at > 0 ? std::min(guess.at * guess.at, most) : most;
  Point here{square, f(std::sqrt(square))};
  std::optional<Point> above, below;
  Point before{0, here.value - guess.slope * square};
  if (guess.slope == 0 && (here.value < 0 || square < most)) {
    above = before = {0, f(0)};
    if (before.value < 0) return {};
  }
  for (int i = 0; i < kSteps; ++i) {
    if (here.value >= 0 && here.square >= most) return {high, guess.slope};
    if (here.value < 0 && here.square <= 0) return {};
    const double slope = (here.value - before.value) / (here.square - before.square);
    const double straight_on = slope < 0        ? std::clamp(here.square - here.value / slope, 0.0, most)
                               : here.value > 0 ? most
                                                : 0;
    if (std::abs(here.value) < kClose)
      return slope < 0 ? Crossing{std::sqrt(straight_on), slope} : Crossing{std::sqrt(here.square), guess.slope};
    const bool again = i > 0 && (here.value > 0) == (before.value > 0);  // on the same side
    std::optional<Point>& far_end = here.value > 0 ? below : above;
    if (again && far_end) far_end->value *= 0.5;
    (here.value > 0 ? above : below) = here;
    before = here;
    square = above && below
                 ? (above->square * below->value - below->square * above->value) / (below->value - above->value)
                 : straight_on;
    here = {square, f(std::sqrt(square))};
  }
  return {std::sqrt(here.square), guess.slope};
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

double surviving(const Compression& codec, const Bars& bars, double x) {
  if (codec.table == nullptr) return 1;
  const double amplitude = (grey_level(bars.bright, codec.full_scale) - grey_level(bars.dark, codec.full_scale)) / 2;
  return codec.table->surviving(amplitude / codec.step, codec.noise / codec.step, x);
}

/// Of bars to noise, of whose pattern a share survives: both come through alike, and the codec's own error is added.
double ratio_left(const Compression& codec, double share) {
  if (codec.table == nullptr) return 1;
  if (codec.noise <= 0) return share;
  const double error = kDistortion * codec.step / codec.noise;
  return share / std::sqrt(share * share + error * error);
}

/// What is left of a bar pattern of one frequency.
struct Left {
  double contrast = 0;
  double bar_ratio = 0;  // signal to noise over a bar that is seven times as long as wide (Rose), times frequency
};

double modulation(const Pattern& p, double x) {
  return p.contrast * optical_transfer(p.blur, x) * sinc_transfer(p.pixel, x);
}

Left left_of(const Pattern& p, double x) {
  constexpr double kBar = 7;
  const double m = modulation(p, x);
  const Bars bars = bars_of(p.signal, m);
  const double share = surviving(p.codec, bars, x);
  Left left;
  left.contrast = share * (p.shaded ? contrast_of_tones(p.signal.subject + p.signal.behind, p.signal.subject * m,
                                                        p.signal.full_scale)
                                    : bars.contrast());
  left.bar_ratio =
      2 * bars.amplitude() * ratio_left(p.codec, share) / p.signal.deviation * std::sqrt(kBar * p.area / 4);
  if (p.smear <= 0 || bars.amplitude() <= 0) return left;
  const double ratio = bars.amplitude() / (p.smear * p.signal.deviation);
  left.contrast *= ratio * ratio / (ratio * ratio + 1);
  return left;
}

bool is_noisy(const Pattern& p) { return p.noise_threshold > 0 && p.signal.deviation > 0; }

double margin_of(const Pattern& p, const Left& left, double x) {
  return left.bar_ratio / (p.noise_threshold * std::max(x, 1e-9));
}

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
          camera.sway_rate * v[Input::kSway] * exposed.time * camera.focal / pitch};
}

// Up to there each factor falls, so the product crosses a threshold once.
double first_zero(const Blur& blur) {
  const auto zero = [](double at, double width) {
    return width > 0 ? at / width : std::numeric_limits<double>::infinity();
  };
  return std::min(
      {zero(kDiscFirstZero, blur.defocus), zero(1, blur.motion), zero(1, blur.shake), zero(1, blur.diffraction)});
}

double resolved_frequency(const Blur& blur, double contrast, double threshold) {
  if (contrast < threshold) return 0;
  return crossing(
             [&](double x) { return log_over(contrast * optical_transfer(blur, x) * sinc_transfer(1, x), threshold); },
             std::min(kNyquist, first_zero(blur)), {})
      .at;
}

double reference_frequency(double threshold) {
  return resolved_frequency({.lens = kReferenceBlur}, kReferenceContrast, threshold);
}

Compression::Compression(const CameraConstants& camera, const Signal& signal, const Values& values)
    : table{camera.codec.get()} {
  if (table == nullptr) return;
  full_scale = signal.full_scale;
  noise = signal.deviation / output_step(signal.subject + signal.behind, full_scale);
  step = kSpread * quantiser_step(camera, signal, values);
  if (step <= 0) table = nullptr;
}

double Pattern::contrast_left(double frequency) const { return left_of(*this, frequency).contrast; }

double Pattern::amplitude(double frequency) const { return bars_of(signal, modulation(*this, frequency)).amplitude(); }

double Pattern::margin_to_noise(double frequency) const {
  if (!is_noisy(*this)) return std::numeric_limits<double>::infinity();
  return margin_of(*this, left_of(*this, frequency), frequency);
}

Crossing Pattern::resolved(double most, const Crossing& guess) const {
  return crossing(
      [&](double x) {
        const Left left = left_of(*this, x);
        const double by_contrast = log_over(left.contrast, threshold);
        return is_noisy(*this) ? std::min(by_contrast, log_over(margin_of(*this, left, x), 1)) : by_contrast;
      },
      std::min(most, first_zero(blur)), guess);
}

double Pattern::resolved_by_noise(double most) const {
  return crossing([&](double x) { return log_over(margin_to_noise(x), 1); }, most, {}).at;
}

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

}  // namespace sightfall::detail
