// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <array>

#include "detail/typical_entries.h"
#include "file/describe.h"

namespace sightfall::file {
namespace {

constexpr std::array<std::string_view, 3> kIrises{"fixed", "manual", "automatic"};
constexpr std::array<std::string_view, 3> kProjections{"rectilinear", "distorted", "fisheye"};
constexpr std::array<std::string_view, 3> kLensClasses{"economy", "standard", "precise"};
constexpr std::array<std::string_view, 3> kNoiseReductions{"off", "low", "high"};
constexpr std::array<std::string_view, 2> kMeterings{"even", "centre"};
constexpr std::array<std::string_view, 2> kCodecs{"H.264", "H.265"};
constexpr std::array<std::string_view, 3> kRateControls{"constant", "capped", "free"};
constexpr std::array<std::string_view, 2> kExposureOrders{"shutter first", "gain first"};

void describe_distortion(Form& form, std::optional<camera::Distortion>& distortion) {
  std::vector<double> coefficients;
  if (distortion) coefficients = distortion->coefficients;
  form.numbers({"distortion", "", -1000, kOptional, 1000,
                "measured: k1 k2 p1 p2 k3 of a distorted lens, k1 k2 k3 k4 of a fisheye"},
               4, 5, coefficients);
  if (!coefficients.empty()) distortion = {coefficients};
}

void describe_picture(Form& form, camera::Sheet& sheet) {
  std::array<int, 2> pixels{sheet.columns, sheet.rows};
  form.whole_pair({"pixels", "px", 16, kRequired, 32768, "columns and rows of the picture"}, pixels);
  sheet.columns = pixels[0], sheet.rows = pixels[1];
  form.text({"optical_format", kOptional, "nominal, in inches, such as `1/2.8`"}, sheet.optical_format);
  form.number({"active_width_mm", kMillimetres, 0.5, kOptional, 100, "of the pixels used"}, sheet.active_width);
}

void describe_lens(Form& form, camera::Sheet& sheet) {
  form.ends({"focal_mm", kMillimetres, 0.1, kRequired, 5000, "focal length"}, sheet.focal);
  form.ends({"f_number", "", 0.5, kOptional, 64, "with the iris open"}, sheet.f_number);
  form.number({"smallest_iris", "", 0.5, kOptional, 64, "the largest f-number an adjustable iris closes to"},
              sheet.smallest_iris);
  form.choice({"iris", "fixed", "how the iris is set"}, kIrises, sheet.iris);
  form.ends({"view_deg", kDegrees, 0.1, kOptional, 360, "stated horizontal angle of view"}, sheet.view);
  form.choice({"projection", kOptional, "how field angle becomes image height"}, kProjections, sheet.projection);
  describe_distortion(form, sheet.distortion);
  form.choice({"lens_class", kOptional, "how well the lens resolves"}, kLensClasses, sheet.lens_class);
  form.number({"closest_focus_m", kMetres, 0, kOptional, 1000, "nearest distance it focuses on"}, sheet.closest_focus);
}

void describe_time(Form& form, camera::Sheet& sheet) {
  form.numbers({"frame_rates", "Hz", 0.01, kOptional, 10000, "frame rates it offers"}, 1, 100, sheet.frame_rates);
  form.pair({"shutter_s", kSeconds, 1e-7, kOptional, 60, "shortest and longest shutter"}, sheet.shutter);
  form.number({"readout_ms", kMilliseconds, 0.001, kOptional, 1000, "of a full frame"}, sheet.readout);
}

void describe_exposure(Form& form, camera::Sheet& sheet) {
  form.object({"sensor", kOptional, "what is stated of the sensor"}, sheet.sensor);
  form.choice({"metering", kOptional, "what the exposure meter gives most weight"}, kMeterings, sheet.metering);
  form.choice({"exposure_order", kOptional, "what automatic exposure spends first in low light"}, kExposureOrders,
              sheet.exposure_order);
  form.flag({"infrared_filter", kOptional, "whether a filter is moved out of the way by night; it is when absent"},
            sheet.infrared_filter);
}

/// Bounds wide enough for every entry; those of the one that is named are held in rules_typical.cpp.
void describe_range(Form& form, Ranged<double>& value) {
  double lowest = 0, highest = 0;
  for (const detail::TypicalEntry& entry : detail::typical_entries()) {
    lowest = std::min(lowest, entry.lowest);
    highest = std::max(highest, entry.highest);
  }
  form.number({"low", "", lowest, kRequired, highest, "low end of the 90 % range, in the entry's unit"}, value.low);
  form.number({"nominal", "", lowest, kRequired, highest, "most likely value"}, value.nominal);
  form.number({"high", "", lowest, kRequired, highest, "high end of the 90 % range"}, value.high);
}

void describe_body(Form& form, camera::Sheet& sheet) {
  form.number({"mass_kg", kKilograms, 0.001, kOptional, 1000, "with its lens"}, sheet.mass);
  form.pair({"body_mm", kMillimetres, 5, kOptional, 5000, "width and height of what the wind meets"}, sheet.body);
  form.text({"ingress", kOptional, "code against dust and water, such as `IP66`"}, sheet.ingress);
  form.text({"impact", kOptional, "code against blows, such as `IK10`"}, sheet.impact);
  form.pair({"temperature_c", "degrees Celsius", -100, kOptional, 150, "coldest and hottest it works in"},
            sheet.temperature_c);
  form.text({"connector", kOptional, "of its cable"}, sheet.connector);
  form.number({"price", "", 0, kOptional, 1e7, "in the catalogue's currency"}, sheet.price);
}

}  // namespace

void describe(Form& form, camera::Sheet& sheet) {
  form.name(sheet.name);
  form.lines({"about", kOptional, "in a few words"}, sheet.about);
  describe_picture(form, sheet);
  describe_lens(form, sheet);
  describe_time(form, sheet);
  form.object({"stream", kOptional, "how it sends its pictures; without it figures are before compression"},
              sheet.stream);
  form.object({"infrared", kOptional, "its own lamp; empty when it has one of which nothing is stated"},
              sheet.infrared);
  form.number({"lowest_light_lux", "lx", 0, kOptional, 1e5, "as claimed"}, sheet.lowest_light_lux);
  describe_exposure(form, sheet);
  form.object({"power", kOptional, "what it draws"}, sheet.power);
  form.choice({"noise_reduction", kOptional, "how it is set"}, kNoiseReductions, sheet.noise_reduction);
  form.flag({"wide_dynamic_range", kOptional, "whether it has it"}, sheet.wide_dynamic_range);
  describe_body(form, sheet);
  form.list({"estimates", kOptional, "assumptions that are known better of this sheet"}, 0, 200, sheet.estimates);
}

void describe(Form& form, camera::Stream& stream) {
  form.choice({"codec", kRequired, "ITU-T H.264 or H.265"}, kCodecs, stream.codec);
  form.choice({"control", "constant", "what is held: a rate, a quality under a ceiling, or a quality"}, kRateControls,
              stream.control);
  form.number({"bit_rate_kbps", kKilobitsPerSecond, 16, kOptional, 800000,
               "the rate, or the ceiling; none where a quality alone is held"},
              stream.rate);
  form.number({"quality", "", 1, kOptional, 51,
               "constant rate factor, finest first; the usual one when absent, none where a rate is held"},
              stream.quality);
}

void describe(Form& form, camera::Infrared& infrared) {
  form.number({"reach_m", kMetres, 0.1, kOptional, 5000, "as claimed"}, infrared.reach);
  form.number({"wavelength_nm", kNanometres, 600, kOptional, 1100, "of the lamp"}, infrared.wavelength);
  form.number({"half_power_deg", kDegrees, 1, kOptional, 180, "full width of the beam at half power"},
              infrared.half_power);
  form.number({"draw_w", kWatts, 0.01, kOptional, 1000, "electrical, of the infrared alone"}, infrared.draw);
  form.number({"offset_mm", kMillimetres, 0, kOptional, 5000, "between lamp and lens"}, infrared.offset);
  form.number({"intensity_w_sr", kWattsPerSteradian, 0.001, kOptional, 1e5, "radiant intensity on the axis"},
              infrared.intensity);
  form.flag({"shared_glass", kOptional,
             "whether lamp and lens look through one pane or dome, which throws light back; not so when absent"},
            infrared.shared_glass);
  form.flag({"adaptive", kOptional, "whether it lowers its power where the picture burns out"}, infrared.adaptive);
  form.number({"focus_shift_um", kMicrometres, -500, kOptional, 500,
               "of the plane of focus at that wavelength, towards the lens positive"},
              infrared.focus_shift);
}

void describe(Form& form, camera::SensorFacts& sensor) {
  form.number({"read_noise_e", "e", 0.01, kOptional, 1000, "noise of reading a pixel, in electrons"},
              sensor.read_noise);
  form.number({"full_well_e", "e", 100, kOptional, 1e7, "electrons that a pixel holds"}, sensor.full_well);
  form.number({"efficiency", "", 0.01, kOptional, 1, "electrons per photon at 550 nm"}, sensor.efficiency);
  form.number({"efficiency_850", "", 0.001, kOptional, 1, "the same at 850 nm, filter out"}, sensor.efficiency_850);
  form.number({"largest_gain_db", "dB", 0, kOptional, 100, "that it offers"}, sensor.largest_gain);
}

void describe(Form& form, camera::Estimate& estimate) {
  form.text({"name", kRequired, "of the entry of data/typical.json that it stands in for; unique within its list"},
            estimate.name);
  describe_range(form, estimate.value);
  form.lines({"source", kRequired, "where the three come from"}, estimate.source);
}

void describe(Form& form, camera::PowerDraw& power) {
  form.text({"supply", kOptional, "such as `PoE class 3` or `12 V DC`"}, power.supply);
  form.number({"typical_w", kWatts, 0.01, kOptional, 10000, "without infrared"}, power.typical);
  form.number({"largest_w", kWatts, 0.01, kOptional, 10000, "with infrared, heater and motor"}, power.largest);
  form.number({"heater_w", kWatts, 0, kOptional, 10000, "of its heater alone"}, power.heater);
  form.number({"motor_w", kWatts, 0, kOptional, 10000, "of its motors alone"}, power.motor);
}

}  // namespace sightfall::file
