// SPDX-License-Identifier: GPL-3.0-or-later
#include "detail/typical_entries.h"

#include <algorithm>
#include <array>
#include <utility>

namespace sightfall::detail {

namespace {

using T = Typical;
constexpr std::array<TypicalEntry, 95> kEntries{{
    {"contrast_threshold", &T::contrast_threshold, 0.001, 1},
    {"contrast_face", &T::contrast_face, 0.01, 1},
    {"contrast_person", &T::contrast_person, 0.01, 1},
    {"contrast_plate", &T::contrast_plate, 0.01, 1},
    {"contrast_vehicle", &T::contrast_vehicle, 0.01, 1},
    {"contrast_object", &T::contrast_object, 0.01, 1},
    {"glare", &T::glare, 0, 1},
    {"veil_luminance", &T::veil_luminance, 0, 100},
    {"lens_blur_economy", &T::lens_blur_economy, 0.01, 20},
    {"lens_blur_standard", &T::lens_blur_standard, 0.01, 20},
    {"lens_blur_precise", &T::lens_blur_precise, 0.01, 20},
    {"view_tolerance", &T::view_tolerance, 0.1, 10},
    {"format_tolerance", &T::format_tolerance, 0.1, 10},
    {"f_number_tolerance", &T::f_number_tolerance, 0.1, 10},
    {"f_number_unknown", &T::f_number_unknown, 0.5, 64},
    {"focus_setting", &T::focus_setting, 0.01, 100},
    {"smallest_iris", &T::smallest_iris, 0.5, 64},
    {"shutter_slowest", &T::shutter_slowest, 1e-7, 60},
    {"speed_walker", &T::speed_walker, 0, 20},
    {"speed_vehicle", &T::speed_vehicle, 0, 100},
    {"readout", &T::readout, 0, 1000},
    {"face_yaw", &T::face_yaw, 1, 180},
    {"face_pitch", &T::face_pitch, 1, 90},
    {"plate_angle", &T::plate_angle, 1, 90},
    {"height_face", &T::height_face, 0.01, 10},
    {"height_person", &T::height_person, 0.01, 10},
    {"height_plate", &T::height_plate, 0.001, 10},
    {"height_vehicle", &T::height_vehicle, 0.01, 20},
    {"height_object", &T::height_object, 0.001, 20},
    {"contrast_face_near", &T::contrast_face_near, 0.01, 1},
    {"contrast_person_near", &T::contrast_person_near, 0.01, 1},
    {"contrast_plate_near", &T::contrast_plate_near, 0.01, 1},
    {"contrast_vehicle_near", &T::contrast_vehicle_near, 0.01, 1},
    {"contrast_object_near", &T::contrast_object_near, 0.01, 1},
    {"reflectance_factor", &T::reflectance_factor, 0.01, 100},
    {"plate_retro", &T::plate_retro, 0, 1000},
    {"plate_retro_half", &T::plate_retro_half, 0.01, 90},
    {"noise_threshold", &T::noise_threshold, 0.1, 100},
    {"efficiency", &T::efficiency, 0.01, 1},
    {"near_850", &T::near_850, 0, 2},
    {"near_940", &T::near_940, 0, 2},
    {"lens_transmission", &T::lens_transmission, 0.01, 1},
    {"read_noise", &T::read_noise, 0.01, 1000},
    {"full_well", &T::full_well, 10, 1e6},
    {"dark_current", &T::dark_current, 0, 1e6},
    {"largest_gain", &T::largest_gain, 0, 100},
    {"exposure_target", &T::exposure_target, 0.001, 1},
    {"night_switch", &T::night_switch, 0, 10000},
    {"day_switch", &T::day_switch, 1, 100},
    {"frames_low", &T::frames_low, 1, 1000},
    {"frames_high", &T::frames_high, 1, 1000},
    {"smear_low", &T::smear_low, 0, 100},
    {"smear_high", &T::smear_high, 0, 100},
    {"dynamic_ratio", &T::dynamic_ratio, 1, 10000},
    {"infrared_efficiency", &T::infrared_efficiency, 0.01, 1},
    {"infrared_share", &T::infrared_share, 0.01, 1},
    {"infrared_draw", &T::infrared_draw, 0.01, 1000},
    {"infrared_beam", &T::infrared_beam, 0.05, 20},
    {"infrared_offset", &T::infrared_offset, 0, 5},
    {"adaptive_clip", &T::adaptive_clip, 0, 1},
    {"glass_return", &T::glass_return, 0, 1000},
    {"scatter_angle", &T::scatter_angle, 1, 1000},
    {"flare", &T::flare, 0, 10000},
    {"stream_step", &T::stream_step, 0.05, 20},
    {"stream_quality", &T::stream_quality, 1, 51},
    {"headlight", &T::headlight, 0, 1e6},
    {"cable_slack", &T::cable_slack, 1, 3},
    {"service_loop", &T::service_loop, 0, 50},
    {"conductor_temperature", &T::conductor_temperature, -40, 120},
    {"supply_efficiency", &T::supply_efficiency, 0.1, 1},
    {"battery_efficiency", &T::battery_efficiency, 0.1, 1},
    {"battery_age", &T::battery_age, 0.01, 1},
    {"peukert_flooded", &T::peukert_flooded, 1, 2},
    {"peukert_sealed", &T::peukert_sealed, 1, 2},
    {"peukert_lithium", &T::peukert_lithium, 1, 2},
    {"body_draw", &T::body_draw, 0.1, 500},
    {"motion_share", &T::motion_share, 0, 1},
    {"rate_forecast", &T::rate_forecast, 0.001, 1000},
    {"viewer_rate", &T::viewer_rate, 0.001, 1000},
    {"disk_share", &T::disk_share, 0.1, 1},
    {"write_amplification", &T::write_amplification, 1, 100},
    {"card_cycles", &T::card_cycles, 1, 1e+06},
    {"wind_speed", &T::wind_speed, 1, 100},
    {"body_drag", &T::body_drag, 0.1, 5},
    {"body_side", &T::body_side, 0.01, 5},
    {"body_mass", &T::body_mass, 0.01, 500},
    {"wood_gravity", &T::wood_gravity, 0.1, 1.2},
    {"fixing_spread", &T::fixing_spread, 0.005, 5},
    {"fixing_arm", &T::fixing_arm, 0.01, 10},
    {"pole_sway", &T::pole_sway, 0.01, 100},
    {"pole_frequency", &T::pole_frequency, 0.1, 10},
    {"sway_frequency", &T::sway_frequency, 0.01, 50},
    {"flicker_led", &T::flicker_led, 0, 1},
    {"flicker_halogen", &T::flicker_halogen, 0, 1},
    {"flicker_sodium", &T::flicker_sodium, 0, 1},
}};
static_assert(sizeof(T) == kEntries.size() * sizeof(TypicalValue) + sizeof(T::codecs), "every member has its entry");

}  // namespace

std::span<const TypicalEntry> typical_entries() { return kEntries; }

const TypicalEntry* find_entry(std::string_view name) {
  const auto entries = typical_entries();
  const auto found =
      std::find_if(entries.begin(), entries.end(), [&](const auto& entry) { return entry.name == name; });
  return found == entries.end() ? nullptr : &*found;
}

Typical with_estimates(Typical typical, const std::vector<camera::Estimate>& estimates) {
  for (const camera::Estimate& estimate : estimates)
    if (const TypicalEntry* entry = find_entry(estimate.name); entry != nullptr) {
      (typical.*entry->member).value = estimate.value;
      (typical.*entry->member).source = estimate.source;
    }
  return typical;
}

}  // namespace sightfall::detail
