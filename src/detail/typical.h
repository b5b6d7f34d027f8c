// SPDX-License-Identifier: GPL-3.0-or-later
// What is assumed where a sheet or a document is silent: a nominal value, a 90 % range and a source for each.
//   Source   data/typical.json, the one table; a document may replace any entry in `settings.typical`
#pragma once
#include <string>
#include <vector>

#include "base/ranged.h"

namespace sightfall::detail {

/// One entry of the table. `unit` is for display; `value` is in that unit.
struct TypicalValue {
  Ranged<double> value;
  std::string unit;
  std::string meaning;
  std::string source;
  std::string settle;  ///< how a user can find the true value
};

/// Every assumption by name; the members are the names in data/typical.json.
struct Typical {
  // The eye and the pattern
  TypicalValue contrast_threshold;  ///< least contrast that is still made out
  TypicalValue contrast_face, contrast_person, contrast_plate, contrast_vehicle, contrast_object;
  TypicalValue glare;           ///< stray light as a share of the frame's mean
  TypicalValue veil_luminance;  ///< of a veil, over the subject's mean
  // The lens
  TypicalValue lens_blur_economy, lens_blur_standard, lens_blur_precise;  ///< Gaussian sigma, px
  TypicalValue view_tolerance;      ///< stated angle of view, as a factor on the density
  TypicalValue format_tolerance;    ///< nominal optical format, the same
  TypicalValue f_number_tolerance;  ///< factor
  TypicalValue f_number_unknown;    ///< when a quick question gives none
  TypicalValue focus_setting;       ///< factor on a focus distance that was estimated
  // Time
  TypicalValue shutter_day;                  ///< s
  TypicalValue speed_walker, speed_vehicle;  ///< m/s
  // Facing and size
  TypicalValue face_yaw, face_pitch, plate_angle;  ///< largest angle that still counts as facing, degrees
  TypicalValue height_face, height_person, height_plate, height_vehicle, height_object;  ///< size in the vertical, m
};

}  // namespace sightfall::detail
