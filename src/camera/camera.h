// SPDX-License-Identifier: GPL-3.0-or-later
// A camera: a sheet at a mount, aimed and set.
#pragma once
#include <optional>
#include <string>

#include "unit/quantity.h"

namespace sightfall::camera {

struct Camera {
  std::string name;
  std::string sheet;  ///< name of a sheet of the catalogue
  std::string mount;  ///< name of a mount of the site
  Angle heading;      ///< clockwise from the site's north
  Angle tilt;         ///< below the horizon
  Angle roll;
  std::optional<Length> focal;       ///< unset: the short end
  std::optional<Length> focus;       ///< distance set; unset: estimated (need/station.h)
  std::optional<Time> shutter;       ///< unset: the daylight shutter of detail/typical.h
  std::optional<double> f_number;    ///< of an adjustable iris; unset: open
  std::optional<double> frame_rate;  ///< Hz; unset: the sheet's highest
};

}  // namespace sightfall::camera
