// SPDX-License-Identifier: GPL-3.0-or-later
// A camera: a sheet at a mount, aimed and set.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "camera/stream.h"
#include "unit/quantity.h"

namespace sightfall::camera {

/// When the camera's own infrared burns: with the filter out (automatic), always, never.
enum class InfraredUse { kAutomatic, kOn, kOff };

/// Colour by day and monochrome by night, or one of them always.
enum class PictureMode { kAutomatic, kColour, kMonochrome };

/// A part of the picture that is blacked out, in shares of its width from the left and of its height from the top.
struct Mask {
  std::string name;
  double left = 0, top = 0, right = 1, bottom = 1;
};

enum class RecordingMode { kAlways, kHours, kMotion };

/// When what it shows is kept.
struct Recording {
  RecordingMode mode = RecordingMode::kAlways;
  std::optional<double> hours_a_day;   ///< with kHours
  std::optional<double> motion_share;  ///< of the time, with kMotion; unset: typical
  std::optional<DataSize> card;        ///< in the camera, beside the recorder
  bool operator==(const Recording&) const = default;
};

struct Camera {
  std::string name;
  std::string sheet;  ///< name of a sheet of the catalogue
  std::string mount;  ///< name of a mount of the site
  Angle heading;      ///< clockwise from the site's north
  Angle tilt;         ///< below the horizon
  Angle roll;
  std::optional<Length> focal;          ///< unset: the short end
  std::optional<Length> focus;          ///< distance set; unset: estimated (need/station.h)
  std::optional<Time> shutter;          ///< unset: automatic exposure
  std::optional<double> f_number;       ///< of an adjustable iris; unset: open
  std::optional<double> frame_rate;     ///< Hz; unset: the sheet's highest
  std::optional<Time> slowest_shutter;  ///< that automatic exposure goes to; unset: typical
  std::optional<double> largest_gain;   ///< dB; unset: the sheet's, else typical
  std::optional<Stream> stream;         ///< unset: the sheet's
  InfraredUse infrared = InfraredUse::kAutomatic;
  PictureMode picture = PictureMode::kAutomatic;
  std::vector<Mask> masks;
  Recording recording;
};

}  // namespace sightfall::camera
