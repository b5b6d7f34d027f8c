// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/typical_entries.h"

#include <array>

namespace sightfall::file {

std::span<const TypicalEntry> typical_entries() {
  using T = detail::Typical;
  static constexpr std::array<TypicalEntry, 27> kEntries{{
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
      {"shutter_day", &T::shutter_day, 1e-7, 60},
      {"speed_walker", &T::speed_walker, 0, 20},
      {"speed_vehicle", &T::speed_vehicle, 0, 100},
      {"face_yaw", &T::face_yaw, 1, 180},
      {"face_pitch", &T::face_pitch, 1, 90},
      {"plate_angle", &T::plate_angle, 1, 90},
      {"height_face", &T::height_face, 0.01, 10},
      {"height_person", &T::height_person, 0.01, 10},
      {"height_plate", &T::height_plate, 0.001, 10},
      {"height_vehicle", &T::height_vehicle, 0.01, 20},
      {"height_object", &T::height_object, 0.001, 20},
  }};
  static_assert(sizeof(T) == kEntries.size() * sizeof(detail::TypicalValue), "every member has its entry");
  return kEntries;
}

}  // namespace sightfall::file
