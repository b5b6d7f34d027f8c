// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/station_light.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "detail/sensor.h"
#include "light/air.h"
#include "light/infrared.h"
#include "light/spectrum.h"

namespace sightfall::need {
namespace {

using namespace units;
using detail::Input;
using detail::Typical;

/// Factors that are known within ranges, together: root-sum-square of the logarithms.
Ranged<double> together(std::initializer_list<Ranged<double>> factors) {
  double down = 0, nominal = 1, up = 0;
  for (const Ranged<double>& factor : factors) {
    nominal *= factor.nominal;
    down += std::pow(std::log(factor.nominal / factor.low), 2);
    up += std::pow(std::log(factor.high / factor.nominal), 2);
  }
  return {nominal * std::exp(-std::sqrt(down)), nominal, nominal * std::exp(std::sqrt(up))};
}

/// The same over its nominal value.
Ranged<double> spread(const Ranged<double>& of) { return scaled(of, 1 / of.nominal); }

/// Stated by the sheet, or typical.
Ranged<double> stated_or(const std::optional<double>& stated, const Ranged<double>& typical) {
  return stated ? Ranged<double>::exact(*stated) : typical;
}

/// Responses and their ranges, from what the sheet states of its sensor and what is typical.
void set_sensor(Station& station, const camera::Sheet& sheet, const camera::Camera& camera, const Typical& typical) {
  const camera::SensorFacts facts = sheet.sensor.value_or(camera::SensorFacts{});
  const double pitch = station.constants.pitch, area = pitch * pitch;
  const Ranged<double> visible = stated_or(facts.efficiency, typical.efficiency.value);
  const Ranged<double> near850 =
      facts.efficiency_850 ? Ranged<double>::exact(*facts.efficiency_850) : together({visible, typical.near_850.value});
  const Ranged<double> near940 = together({spread(near850), visible, typical.near_940.value});
  const double lens =
      typical.lens_transmission.value.nominal * detail::image_share(station.lens.optics.f_number) * area;
  station.response_day = {{lens * visible.nominal, 0, 0}};
  station.response_night = {{lens * visible.nominal, lens * near850.nominal, lens * near940.nominal}};
  const bool at_940 = station.infrared && station.infrared->band == light::Band::kNear940;
  station.sensitivity_day = together({spread(visible), spread(typical.lens_transmission.value)});
  station.sensitivity_night = together({spread(at_940 ? near940 : near850), spread(typical.lens_transmission.value)});
  at(station.inputs, Input::kSensitivity) = station.sensitivity_day;
  at(station.inputs, Input::kReadNoise) = stated_or(facts.read_noise, typical.read_noise.value);
  constexpr double kSquareMicrometre = 1e-12;
  at(station.inputs, Input::kFullWell) =
      stated_or(facts.full_well, scaled(typical.full_well.value, area / kSquareMicrometre));
  const std::optional<double> decibels = camera.largest_gain ? camera.largest_gain : facts.largest_gain;
  const Ranged<double> gain = stated_or(decibels, typical.largest_gain.value);
  at(station.inputs, Input::kGain) = {detail::ratio_of_decibels(gain.low), detail::ratio_of_decibels(gain.nominal),
                                      detail::ratio_of_decibels(gain.high)};
  station.constants.dark = typical.dark_current.value.nominal;
}

/// Light through the iris wide open over that through it closed, where it moves by itself.
double iris_range(const Station& station, const camera::Sheet& sheet, const camera::Camera& camera,
                  const Typical& typical) {
  if (sheet.iris != camera::Iris::kAutomatic || camera.f_number) return 1;
  const double smallest = sheet.smallest_iris.value_or(typical.smallest_iris.value.nominal);
  const double ratio = std::max(1.0, smallest / station.lens.optics.f_number);
  return ratio * ratio;
}

void set_exposure(Station& station, const camera::Sheet& sheet, const camera::Camera& camera, const Typical& typical) {
  station.constants.f_number = station.lens.optics.f_number;
  station.constants.limits.order = sheet.exposure_order.value_or(camera::ExposureOrder::kShutterFirst);
  station.constants.limits.iris_range = iris_range(station, sheet, camera, typical);
  station.constants.limits.clip_share = typical.adaptive_clip.value.nominal;
  station.metering = sheet.metering.value_or(camera::Metering::kEven);
  station.picture = camera.picture;
  station.infrared_use = camera.infrared;
  station.has_filter = sheet.infrared_filter.value_or(true);
  const camera::NoiseReduction reduction = sheet.noise_reduction.value_or(camera::NoiseReduction::kLow);
  if (reduction != camera::NoiseReduction::kOff) {
    const bool high = reduction == camera::NoiseReduction::kHigh;
    station.constants.averaged = (high ? typical.frames_high : typical.frames_low).value.nominal;
    station.constants.smear = (high ? typical.smear_high : typical.smear_low).value.nominal;
  }
  if (sheet.wide_dynamic_range.value_or(false)) station.constants.dynamic_ratio = typical.dynamic_ratio.value.nominal;
  at(station.inputs, Input::kNoiseThreshold) = typical.noise_threshold.value;
  at(station.inputs, Input::kTarget) = typical.exposure_target.value;
  at(station.inputs, Input::kReflectance) = typical.reflectance_factor.value;
  at(station.inputs, Input::kFlare) = spread(typical.flare.value);
  at(station.inputs, Input::kGlass) = spread(typical.glass_return.value);
  at(station.inputs, Input::kFlicker) = {-1, 0, 1};
  const Ranged<double>& sr = typical.scatter_angle.value;
  at(station.inputs, Input::kScatter) = {sr.nominal / sr.high, 1, sr.nominal / sr.low};
  station.scatter_angle = sr.nominal;
}

std::string lamp_words(const camera::Infrared& lamp, const camera::PowerDraw& power, const Ranged<double>& draw) {
  if (lamp.draw) return fmt::format("{:g} W drawn", lamp.draw->in(W));
  if (power.largest)
    return fmt::format("{:.2g} W ({:.2g} to {:.2g} W) of the largest draw of {:g} W", draw.nominal, draw.low, draw.high,
                       power.largest->in(W));
  return fmt::format("{:.2g} W ({:.2g} to {:.2g} W), for nothing is stated", draw.nominal, draw.low, draw.high);
}

/// Electrical power of the infrared alone.
Ranged<double> infrared_draw(const camera::Sheet& sheet, const Typical& typical) {
  if (sheet.infrared->draw) return Ranged<double>::exact(sheet.infrared->draw->si());
  if (sheet.power.largest) return scaled(typical.infrared_share.value, sheet.power.largest->si());
  return typical.infrared_draw.value;
}

void set_infrared(Station& station, const camera::Sheet& sheet, const Typical& typical) {
  at(station.inputs, Input::kInfrared) = Ranged<double>::exact(1);
  if (!sheet.infrared) return;
  const camera::Infrared& stated = *sheet.infrared;
  const Angle view = std::min(camera::horizontal_view(station.lens.projector), 140 * deg);
  const Angle beam = stated.half_power.value_or(view * typical.infrared_beam.value.nominal);
  OwnInfrared lamp;
  lamp.exponent = light::beam_exponent(std::min(beam, 170 * deg));
  constexpr Length kBetween = 895 * nm;  // of the two usual wavelengths
  const bool at_940 = stated.wavelength && *stated.wavelength > kBetween;
  lamp.band = at_940 ? light::Band::kNear940 : light::Band::kNear850;
  lamp.photons = light::photons_per_watt(stated.wavelength.value_or(850 * nm));
  lamp.offset = stated.offset ? stated.offset->si() : typical.infrared_offset.value.nominal;
  constexpr Angle kOnePixel{0};  // what one pixel sees is a line beside the lamp
  lamp.overlap = light::overlap_begins(Length{lamp.offset}, beam * 0.5, kOnePixel);
  lamp.adaptive = stated.adaptive.value_or(false);
  if (stated.shared_glass.value_or(false)) lamp.glass_return = typical.glass_return.value.nominal;
  station.infrared_stated = stated.intensity.has_value();
  if (stated.intensity) {
    lamp.intensity = stated.intensity->si();
  } else {
    const Ranged<double> draw = infrared_draw(sheet, typical);
    const Ranged<double> watts = together({draw, typical.infrared_efficiency.value});
    lamp.intensity = light::on_axis(Power{watts.nominal}, lamp.exponent).si();
    at(station.inputs, Input::kInfrared) = spread(watts);
    station.assumptions.push_back(
        {fmt::format(
             "{}: infrared intensity not stated, taken as {:.2g} W/sr on the axis ({:.2g} to {:.2g}): {}, {:.0f} % "
             "of it radiated, half as strong {:.0f} degrees off the axis",
             station.name, lamp.intensity, lamp.intensity * watts.low / watts.nominal,
             lamp.intensity * watts.high / watts.nominal, lamp_words(stated, sheet.power, draw),
             100 * typical.infrared_efficiency.value.nominal, beam.in(deg) / 2),
         typical.infrared_efficiency.settle});
  }
  if (stated.focus_shift) station.constants.focus_shift = stated.focus_shift->si();
  station.infrared = lamp;
}

}  // namespace

void set_light(Station& station, const camera::Sheet& sheet, const camera::Camera& camera, const Typical& typical) {
  set_exposure(station, sheet, camera, typical);
  set_infrared(station, sheet, typical);
  set_sensor(station, sheet, camera, typical);
}

}  // namespace sightfall::need
