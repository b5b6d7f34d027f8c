// SPDX-License-Identifier: GPL-3.0-or-later
#include "detail/signal.h"

#include <algorithm>
#include <cmath>

#include "detail/sensor.h"
#include "detail/transfer.h"

namespace sightfall::detail {
namespace {

/// Electrons a second, in the state of the values: the exposure is still open.
struct Rates {
  double scale = 1, own_scale = 1;  // of the frame, and of own infrared within it
  double others = 0, own = 0;       // of the subject, through veils
  double behind = 0, own_behind = 0;
};

Rates rates_of(const CameraConstants& camera, const Seen& seen, const Values& v) {
  Rates r;
  const double open = camera.f_number > 0 ? camera.f_number / v[Input::kFNumber] : 1;
  r.scale = v[Input::kSensitivity] * open * open;
  r.own_scale = v[Input::kInfrared];
  const double veiled = (1 - seen.passed) * v[Input::kVeilLuminance];
  const double subject = r.scale * v[Input::kReflectance], own = r.scale * r.own_scale;
  r.others = subject * seen.others * seen.passed;
  r.own = own * v[Input::kReflectance] * seen.own * seen.passed * seen.passed;
  r.behind = r.scale * (seen.others * veiled + seen.path + v[Input::kFlare] * seen.glare);
  r.own_behind = own * (seen.own * veiled * seen.veil_own + v[Input::kScatter] * seen.own_path +
                        v[Input::kGlass] * seen.own_glass);
  // Stray light is a share of the frame's mean; without a frame, of the subject's.
  const Metering& frame = camera.metering;
  const double others_mean = frame.uniform() ? subject * seen.others : r.scale * frame.mean() * (1 - frame.own_share());
  const double own_mean =
      own * (frame.uniform() ? v[Input::kReflectance] * seen.own : frame.mean() * frame.own_share());
  r.behind += v[Input::kGlare] * others_mean;
  r.own_behind += v[Input::kGlare] * own_mean;
  return r;
}

Exposed come_to(const CameraConstants& camera, const Seen& seen, const Values& v, const Rates& r) {
  ExposureLimits limits = camera.limits;
  limits.longest = v[Input::kShutter];
  limits.shortest = camera.shutter_fixed ? limits.longest : std::min(limits.shortest, limits.longest);
  limits.largest_gain = v[Input::kGain];
  limits.target = v[Input::kTarget];
  const MeterSubject subject{r.others + r.behind, r.own + r.own_behind, v[Input::kContrast], seen.cover};
  return expose(camera.metering, limits, subject, v[Input::kFullWell], r.scale, r.own_scale);
}

/// Lamps on the mains over their mean: a row is exposed for a time that averages a part of their swing.
double swing(const CameraConstants& camera, const Seen& seen, const Values& v, double time) {
  return seen.flicker > 0 ? 1 + v[Input::kFlicker] * seen.flicker * sinc_transfer(time, camera.flicker_rate) : 1;
}

/// Noise of what stands still in the frame at its mean level, grey levels: what the rate control spends its bits on.
double frame_noise(const CameraConstants& camera, const Values& v, const Rates& r, const Signal& s) {
  const Metering& frame = camera.metering;
  const double own = frame.own_share() * r.own_scale * s.exposed.power;
  const double mean = frame.uniform()
                          ? s.subject + s.behind
                          : r.scale * frame.mean() * (1 - frame.own_share() + own) * s.exposed.time * s.exposed.iris;
  const double within = std::min(mean, s.full_scale);
  const SensorNoise noise{v[Input::kReadNoise], camera.dark * s.exposed.time, output_step(within, s.full_scale)};
  return std::sqrt(signal_variance(within, noise) / std::max(1.0, camera.averaged)) / output_step(within, s.full_scale);
}

Signal signal_from(const CameraConstants& camera, const Seen& seen, const Values& v, const Rates& r,
                   const Exposed& exposed) {
  Signal s;
  s.exposed = exposed;
  s.full_scale = std::max(v[Input::kFullWell], 1.0) / exposed.gain;
  const double open = exposed.time * exposed.iris;
  s.subject = (r.others * swing(camera, seen, v, exposed.time) + exposed.power * r.own) * open;
  s.behind = (r.behind + exposed.power * r.own_behind) * open;
  const auto bright = [&] { return s.subject * (1 + v[Input::kContrast]) + s.behind; };
  if (camera.dynamic_ratio > 1 && bright() > s.full_scale) {
    s.subject /= camera.dynamic_ratio;
    s.behind /= camera.dynamic_ratio;
  }
  const double mean = s.subject + s.behind;
  const SensorNoise noise{v[Input::kReadNoise], camera.dark * exposed.time, output_step(mean, s.full_scale)};
  s.deviation = std::sqrt(signal_variance(mean, noise) / averaged_frames(camera, seen, v, exposed.time));
  s.clipped = bright() > s.full_scale ? 1 : 0;
  if (camera.codec) s.frame_noise = frame_noise(camera, v, r, s);
  return s;
}

}  // namespace

double averaged_frames(const CameraConstants& camera, const Seen& seen, const Values& v, double time) {
  if (camera.averaged <= 1) return 1;
  const double rate = time > 0 ? std::min(camera.frame_rate, 1 / time) : camera.frame_rate;
  const double moved = seen.motion_density * v[Input::kDensityFactor] * v[Input::kSpeed];  // px/s
  return moved * camera.averaged <= rate ? camera.averaged : std::max(1.0, rate / moved);
}

Exposed exposed(const CameraConstants& camera, const Seen& seen, const Values& values) {
  return come_to(camera, seen, values, rates_of(camera, seen, values));
}

double noise_ratio(const Signal& signal) { return signal.deviation > 0 ? signal.subject / signal.deviation : 0; }

Signal signal_of(const CameraConstants& camera, const Seen& seen, const Values& values) {
  const Rates rates = rates_of(camera, seen, values);
  return signal_from(camera, seen, values, rates, come_to(camera, seen, values, rates));
}

Signal signal_without(Limit factor, const CameraConstants& camera, const Seen& as_it_is, const Values& values) {
  Seen seen = as_it_is;
  if (factor == Limit::kVeil) seen.passed = 1;
  const Rates rates = rates_of(camera, seen, values);
  const Exposed exposed = come_to(camera, seen, values, rates);
  if (factor == Limit::kGlare) {
    seen.glare = seen.own_glass = 0;
    return signal_from(camera, seen, values, rates_of(camera, seen, values.with(Input::kGlare, 0)), exposed);
  }
  if (factor == Limit::kAir && seen.air > 0) {
    seen.path = seen.own_path = 0;
    seen.others /= seen.air;
    seen.own /= seen.air * seen.air;
    return signal_from(camera, seen, values, rates_of(camera, seen, values), exposed);
  }
  return signal_from(camera, seen, values, rates, exposed);
}

}  // namespace sightfall::detail
