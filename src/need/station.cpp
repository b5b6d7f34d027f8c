// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/station.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/check.h"
#include "camera/mask.h"
#include "camera/stream_in_force.h"
#include "detail/typical_entries.h"
#include "need/station_light.h"
#include "need/sway.h"
#include "site/ground.h"

namespace sightfall::need {
namespace {

using namespace units;
using detail::Input;
using detail::Typical;
using detail::TypicalValue;
using light::Band;

const TypicalValue& lens_blur(camera::LensClass lens_class, const Typical& typical) {
  switch (lens_class) {
    case camera::LensClass::kEconomy:
      return typical.lens_blur_economy;
    case camera::LensClass::kPrecise:
      return typical.lens_blur_precise;
    case camera::LensClass::kStandard:
      break;
  }
  return typical.lens_blur_standard;
}

void set_f_number(Station& station, const Typical& typical) {
  const double f_number = station.lens.optics.f_number;
  at(station.inputs, Input::kFNumber) = station.lens.f_number_stated
                                            ? scaled(typical.f_number_tolerance.value, f_number)
                                            : typical.f_number_unknown.value;
  if (!station.lens.f_number_stated)
    station.assumptions.push_back(
        {fmt::format("{}: f-number not stated, taken as f/{:.2g} ({:.2g} to {:.2g})", station.name, f_number,
                     typical.f_number_unknown.value.low, typical.f_number_unknown.value.high),
         typical.f_number_unknown.settle});
}

void set_density_factor(Station& station, const Typical& typical) {
  const bool from_format = station.lens.width_source == camera::WidthSource::kNominalFormat;
  const TypicalValue& entry = from_format ? typical.format_tolerance : typical.view_tolerance;
  at(station.inputs, Input::kDensityFactor) = entry.value;
  if (from_format)
    station.assumptions.push_back(
        {fmt::format("{}: angle of view not stated, taken from the nominal format as {:.1f} degrees across "
                     "(density {:+.0f} to {:+.0f} %)",
                     station.name, camera::horizontal_view(station.lens.projector).in(deg), 100 * (entry.value.low - 1),
                     100 * (entry.value.high - 1)),
         entry.settle});
}

/// A stated angle wins over the sheet's own width; where the two disagree the user is told, for one of them is wrong.
void tell_disagreement(Station& station, const camera::Sheet& sheet) {
  const auto stated = camera::stated_view(sheet, station.lens.optics.focal);
  const auto own = camera::view_of_own_width(sheet, station.lens.optics.focal);
  if (!stated || !own || std::abs(*own / *stated - 1) <= camera::kDisagreement) return;
  station.assumptions.push_back(
      {fmt::format("{}: the sheet states {:.1f} degrees across, its {} gives {:.1f}; the stated angle is used",
                   station.name, stated->in(deg), sheet.active_width ? "active width" : "nominal format", own->in(deg)),
       "photograph a tape across the picture, or ask the maker"});
}

void set_focus(Station& station, const camera::Sheet& sheet, const camera::Camera& camera, const Typical& typical) {
  if (camera.focus) {
    at(station.inputs, Input::kFocus) = Ranged<double>::exact(camera.focus->si());
    return;
  }
  const Length circle = station.lens.pitch() * Pixels{kUnknownFocusBlur};
  const Length guess =
      std::max(camera::hyperfocal(station.lens.optics, circle), sheet.closest_focus.value_or(Length{0}));
  at(station.inputs, Input::kFocus) = scaled(typical.focus_setting.value, guess.si());
  station.assumptions.push_back(
      {fmt::format("{}: focus distance not given, taken as {:.3g} m ({:.3g} to {:.3g} m), sharp from half of it on",
                   station.name, guess.in(m), guess.in(m)*typical.focus_setting.value.low,
                   guess.in(m)*typical.focus_setting.value.high),
       typical.focus_setting.settle});
}

void set_shutter(Station& station, const camera::Sheet& sheet, const camera::Camera& camera, const Typical& typical) {
  station.constants.shutter_fixed = camera.shutter.has_value();
  at(station.inputs, Input::kShutter) =
      camera.shutter ? Ranged<double>::exact(camera.shutter->si()) : slowest_shutter(sheet, camera, typical);
  if (sheet.shutter) station.constants.limits.shortest = sheet.shutter->wide.si();
}

double frame_rate_of(const camera::Sheet& sheet, const camera::Camera& camera, Station& station) {
  if (camera.frame_rate) return *camera.frame_rate;
  if (!sheet.frame_rates.empty()) return *std::max_element(sheet.frame_rates.begin(), sheet.frame_rates.end());
  constexpr double kCommonRate = 25;  // Hz, from memory
  station.assumptions.push_back(
      {fmt::format("{}: frame rate not stated, taken as {} a second", station.name, kCommonRate),
       "ask the maker, or set frame_rate"});
  return kCommonRate;
}

/// Compression as the stream is set; without a stream figures are before compression.
void set_stream(Station& station, const camera::Sheet& sheet, const camera::Camera& camera, const Typical& typical) {
  at(station.inputs, Input::kQuantiser) = Ranged<double>::exact(1);
  const std::optional<camera::Stream>& stream = camera::stream_of(sheet, camera);
  if (!stream) return;
  detail::CameraConstants& constants = station.constants;
  constants.codec = typical.codecs.at(static_cast<size_t>(stream->codec));
  if (!constants.codec) return;
  at(station.inputs, Input::kQuantiser) = typical.stream_step.value;
  if (stream->rate)
    constants.bits_per_pixel =
        stream->rate->in(bit / s) / (station.frame_rate * static_cast<double>(sheet.columns) * sheet.rows);
  if (stream->control == camera::RateControl::kConstant) return;
  const Ranged<double>& usual = typical.stream_quality.value;
  constants.quality = stream->quality.value_or(usual.nominal);
  if (stream->quality) return;
  // Both are not known: the spread of the quality joins that of the step.
  const auto joined = [](double end, double quality_end, double nominal) {
    return std::hypot(std::log(end), std::log(detail::step_of(quality_end) / detail::step_of(nominal)));
  };
  const Ranged<double>& step = typical.stream_step.value;
  at(station.inputs, Input::kQuantiser) = {
      step.nominal * std::exp(-joined(step.low / step.nominal, usual.low, usual.nominal)), step.nominal,
      step.nominal * std::exp(joined(step.high / step.nominal, usual.high, usual.nominal))};
  station.assumptions.push_back(
      {fmt::format("{}: quality of the stream not stated, taken as a constant rate factor of {:g} ({:g} to {:g})",
                   station.name, usual.nominal, usual.low, usual.high),
       typical.stream_quality.settle});
}

/// What is assumed of a mount's sway, with its range.
std::string assumed_in_words(const Sway& sway) {
  const auto [low, nominal, high] = sway.factor;
  const double often = sway.frequency.in(Hz), degrees = sway.amplitude.in(deg);
  if (sway.assumed == SwayAssumed::kBendOfPole)
    return fmt::format(
        "sway not stated, taken from its pole in a fresh breeze: {:.3f} degrees ({:.3f} to {:.3f}), {:.1f} times a "
        "second",
        degrees, low * degrees, high * degrees, often);
  return fmt::format("how often its mount sways is not stated, taken {} {:.1f} times a second ({:.1f} to {:.1f})",
                     sway.assumed == SwayAssumed::kPolesFrequency ? "from its pole:" : "as", often, low * often,
                     high * often);
}

/// Turning speed of the camera in its mount's sway, 2 pi f A, rad/s.
void set_sway(Station& station, const Sway& sway, const Typical& typical) {
  station.constants.sway_rate = 2 * std::numbers::pi * sway.frequency.si() * sway.amplitude.si();
  station.sway_assumed = sway.assumed;
  at(station.inputs, Input::kSway) = sway.factor;
  if (sway.assumed != SwayAssumed::kNothing)
    station.assumptions.push_back(
        {fmt::format("{}: {}", station.name, assumed_in_words(sway)), entry_of(sway.assumed, typical).settle});
}

}  // namespace

bool shows(const Station& station, geom::Vec3 in_camera) {
  const auto at = camera::image_point(station.lens.projector, in_camera);
  return at && camera::in_picture(station.lens.projector, *at) &&
         !camera::masked(station.masks, station.lens.projector, *at);
}

std::string_view compression_in_words(const Project& project) {
  const auto streams = [&](const camera::Camera& camera) {
    const camera::Sheet* sheet = find_named(project.catalogue, camera.sheet);
    return sheet != nullptr ? camera::stream_of(*sheet, camera).has_value() : camera.stream.has_value();
  };
  const std::vector<camera::Camera>& all = project.cameras;
  if (std::none_of(all.begin(), all.end(), streams)) return "before compression";
  return std::all_of(all.begin(), all.end(), streams) ? "through each camera's stream"
                                                      : "through the stream of cameras that state one";
}

Ranged<double> slowest_shutter(const camera::Sheet& sheet, const camera::Camera& camera, const Typical& typical) {
  if (camera.slowest_shutter) return Ranged<double>::exact(camera.slowest_shutter->si());
  const auto within = [&](double seconds) {
    return sheet.shutter ? std::clamp(seconds, sheet.shutter->wide.si(), sheet.shutter->tele.si()) : seconds;
  };
  const Ranged<double>& slowest = typical.shutter_slowest.value;
  return {within(slowest.low), within(slowest.nominal), within(slowest.high)};
}

Station station_at(const camera::Sheet& sheet, const camera::Camera& camera, geom::SitePoint eye_site,
                   const Typical& table) {
  const Typical typical = detail::with_estimates(table, sheet.estimates);
  Station station;
  station.name = camera.name;
  station.masks = camera.masks;
  station.lens = camera::lens_at(
      sheet, {camera.focal.value_or(sheet.focal.wide), camera.f_number, typical.f_number_unknown.value.nominal});
  station.pose = geom::pose_of(eye_site, camera.heading, camera.tilt, camera.roll);
  station.constants.focal = station.lens.optics.focal.si();
  station.constants.pitch = station.lens.pitch().si();
  station.lens_class = sheet.lens_class.value_or(camera::LensClass::kStandard);
  const TypicalValue& blur = lens_blur(station.lens_class, typical);
  at(station.inputs, Input::kLensBlur) = blur.value;
  if (!sheet.lens_class)
    station.assumptions.push_back(
        {fmt::format("{}: lens class not stated, taken as standard (blur {:.2g} px, {:.2g} to {:.2g})", station.name,
                     blur.value.nominal, blur.value.low, blur.value.high),
         blur.settle});
  at(station.inputs, Input::kThreshold) = typical.contrast_threshold.value;
  at(station.inputs, Input::kGlare) = typical.glare.value;
  at(station.inputs, Input::kVeilLuminance) = typical.veil_luminance.value;
  at(station.inputs, Input::kSway) = Ranged<double>::exact(1);
  set_f_number(station, typical);
  set_density_factor(station, typical);
  set_focus(station, sheet, camera, typical);
  set_shutter(station, sheet, camera, typical);
  station.frame_rate = frame_rate_of(sheet, camera, station);
  station.constants.frame_rate = station.frame_rate;
  set_stream(station, sheet, camera, typical);
  set_light(station, sheet, camera, typical);
  return station;
}

Station station_of(const Project& project, const camera::Camera& camera, Length raised) {
  const camera::Sheet& sheet = the_named(project.catalogue, camera.sheet);
  const site::Mount& mount = the_named(project.site.mounts, camera.mount);
  const geom::SitePoint eye = site::above_ground(project.site.terrain, mount.at, mount.height + raised);
  Station station = station_at(sheet, camera, eye, project.settings.typical);
  const auto by_name = [&](const camera::Camera& one) { return one.name == camera.name; };
  station.number =
      static_cast<int>(std::find_if(project.cameras.begin(), project.cameras.end(), by_name) - project.cameras.begin());
  station.constants.flicker_rate = 2 * project.settings.mains.si();
  tell_disagreement(station, sheet);  // the range card tells it as a claim
  set_sway(station, sway_of(project, mount, raised), project.settings.typical);
  return station;
}

std::vector<Station> stations_of(const Project& project) {
  std::vector<Station> stations;
  stations.reserve(project.cameras.size());
  for (const camera::Camera& camera : project.cameras) stations.push_back(station_of(project, camera));
  return stations;
}

detail::RangedInputs subject_inputs(const Station& station, const Need& need, const Typical& typical) {
  detail::RangedInputs inputs = station.inputs;
  at(inputs, Input::kContrast) = contrast_of(need.subject, station.near_infrared, typical).value;
  if (need.shutter) at(inputs, Input::kShutter) = Ranged<double>::exact(need.shutter->si());
  const bool on_wheels = need.subject == Subject::kPlate || need.subject == Subject::kVehicle;
  if (need.speed)
    at(inputs, Input::kSpeed) = Ranged<double>::exact(need.speed->si());
  else if (need.subject == Subject::kObject)
    at(inputs, Input::kSpeed) = Ranged<double>::exact(0);
  else
    at(inputs, Input::kSpeed) = (on_wheels ? typical.speed_vehicle : typical.speed_walker).value;
  return inputs;
}

const TypicalValue& contrast_of(Subject subject, bool near_infrared, const Typical& typical) {
  switch (subject) {
    case Subject::kFace:
      return near_infrared ? typical.contrast_face_near : typical.contrast_face;
    case Subject::kPerson:
      return near_infrared ? typical.contrast_person_near : typical.contrast_person;
    case Subject::kPlate:
      return near_infrared ? typical.contrast_plate_near : typical.contrast_plate;
    case Subject::kVehicle:
      return near_infrared ? typical.contrast_vehicle_near : typical.contrast_vehicle;
    case Subject::kObject:
      break;
  }
  return near_infrared ? typical.contrast_object_near : typical.contrast_object;
}

const TypicalValue& height_of(Subject subject, const Typical& typical) {
  switch (subject) {
    case Subject::kFace:
      return typical.height_face;
    case Subject::kPerson:
      return typical.height_person;
    case Subject::kPlate:
      return typical.height_plate;
    case Subject::kVehicle:
      return typical.height_vehicle;
    case Subject::kObject:
      break;
  }
  return typical.height_object;
}

const TypicalValue& entry_of(Input input, const Station& station, Subject subject, const Typical& typical) {
  switch (input) {
    case Input::kThreshold:
      return typical.contrast_threshold;
    case Input::kContrast:
      return contrast_of(subject, station.near_infrared, typical);
    case Input::kGlare:
      return typical.glare;
    case Input::kVeilLuminance:
      return typical.veil_luminance;
    case Input::kFNumber:
      return station.lens.f_number_stated ? typical.f_number_tolerance : typical.f_number_unknown;
    case Input::kDensityFactor:
      return station.lens.width_source == camera::WidthSource::kNominalFormat ? typical.format_tolerance
                                                                              : typical.view_tolerance;
    case Input::kFocus:
      return typical.focus_setting;
    case Input::kShutter:
      return typical.shutter_slowest;
    case Input::kSpeed:
      return subject == Subject::kPlate || subject == Subject::kVehicle ? typical.speed_vehicle : typical.speed_walker;
    case Input::kNoiseThreshold:
      return typical.noise_threshold;
    case Input::kSensitivity:
      return !station.near_infrared                                         ? typical.efficiency
             : station.infrared && station.infrared->band == Band::kNear940 ? typical.near_940
                                                                            : typical.near_850;
    case Input::kReflectance:
      return typical.reflectance_factor;
    case Input::kInfrared:
      return typical.infrared_efficiency;
    case Input::kScatter:
      return typical.scatter_angle;
    case Input::kFlare:
      return typical.flare;
    case Input::kReadNoise:
      return typical.read_noise;
    case Input::kFullWell:
      return typical.full_well;
    case Input::kGain:
      return typical.largest_gain;
    case Input::kGlass:
      return typical.glass_return;
    case Input::kFlicker:
      return typical.flicker_led;
    case Input::kQuantiser:
      return typical.stream_step;
    case Input::kTarget:
      return typical.exposure_target;
    case Input::kSway:
      return entry_of(station.sway_assumed, typical);
    case Input::kLensBlur:
      break;
  }
  return lens_blur(station.lens_class, typical);
}

PixelDensity faintest(const detail::LevelTable& table) {
  CHECK_GT(table.levels.size(), size_t{0});
  return table.levels.front().least;
}

}  // namespace sightfall::need
