// SPDX-License-Identifier: GPL-3.0-or-later
// A camera as its data sheet describes it. What the sheet does not say stays unset here and is estimated, in the open,
// in camera/lens.h.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/ranged.h"
#include "camera/stream.h"
#include "unit/quantity.h"

namespace sightfall::camera {

/// A pair for the short (wide) and the long (tele) end of a zoom; equal for a fixed focal length.
template <class T>
struct Ends {
  T wide{}, tele{};
  bool operator==(const Ends&) const = default;
};

/// How field angle becomes image height.
enum class Projection { kRectilinear, kDistorted, kFisheye };

/// How well the lens resolves on its own sensor: its blur in pixels is a typical value of the class.
enum class LensClass { kEconomy, kStandard, kPrecise };

enum class Iris { kFixed, kManual, kAutomatic };
enum class NoiseReduction { kOff, kLow, kHigh };

/// Brown-Conrady coefficients (k1 k2 p1 p2 k3) or the four of the equidistant fisheye form (k1..k4), when measured.
struct Distortion {
  std::vector<double> coefficients;
};

struct Infrared {
  std::optional<Length> reach;  ///< as claimed
  std::optional<Length> wavelength;
  std::optional<Angle> half_power;            ///< full width of the beam at half power
  std::optional<Power> draw;                  ///< electrical, of the infrared alone
  std::optional<Length> offset;               ///< between lamp and lens
  std::optional<RadiantIntensity> intensity;  ///< on the axis
  std::optional<bool> shared_glass;           ///< whether lamp and lens look through one pane or dome; unset: no
  std::optional<bool> adaptive;               ///< whether it lowers its power where the picture clips
  std::optional<Length> focus_shift;          ///< of the plane of focus at that wavelength, towards the lens positive
};

/// What a sheet may state of the sensor (EMVA 1288).
struct SensorFacts {
  std::optional<double> read_noise;      ///< electrons
  std::optional<double> full_well;       ///< electrons
  std::optional<double> efficiency;      ///< electrons per photon at 550 nm
  std::optional<double> efficiency_850;  ///< the same at 850 nm, filter out
  std::optional<double> largest_gain;    ///< dB
};

/// What the exposure meter gives most weight.
enum class Metering { kEven, kCentre };

/// In low light, what is spent first.
enum class ExposureOrder { kShutterFirst, kGainFirst };

/// A typical value that is known better of this sheet, such as from observations: it replaces the entry of that name.
struct Estimate {
  std::string name;  ///< of the entry in data/typical.json
  Ranged<double> value;
  std::string source;
};

struct PowerDraw {
  std::optional<std::string> supply;  ///< such as `PoE class 3` or `12 V DC`
  std::optional<Power> typical;       ///< without infrared
  std::optional<Power> largest;       ///< with infrared, heater and motor
  std::optional<Power> heater, motor;
};

/// One data sheet. Vectors of two are [wide, tele]; unset fields are unknown.
struct Sheet {
  std::string name;
  std::string about;
  int columns = 0, rows = 0;                  ///< pixels across and down
  std::optional<std::string> optical_format;  ///< nominal, such as `1/2.8`
  std::optional<Length> active_width;         ///< of the pixels used, when stated
  Ends<Length> focal;
  std::optional<Ends<double>> f_number;  ///< with the iris open, at each end
  std::optional<double> smallest_iris;   ///< the largest f-number an adjustable iris closes to
  Iris iris = Iris::kFixed;
  std::optional<Ends<Angle>> view;  ///< stated horizontal angle of view at each end
  std::optional<Projection> projection;
  std::optional<Distortion> distortion;
  std::optional<LensClass> lens_class;
  std::optional<Length> closest_focus;
  std::vector<double> frame_rates;    ///< Hz
  std::optional<Ends<Time>> shutter;  ///< shortest (wide) and longest (tele)
  std::optional<Time> readout;        ///< of a full frame, for the rolling shutter's lean
  std::optional<Stream> stream;       ///< as it is delivered
  std::optional<Infrared> infrared;
  std::optional<double> lowest_light_lux;  ///< as claimed, with its own conditions
  std::optional<SensorFacts> sensor;
  std::optional<Metering> metering;
  std::optional<ExposureOrder> exposure_order;
  std::optional<bool> infrared_filter;  ///< whether a filter is moved out of the way by night; unset: it is
  std::vector<Estimate> estimates;
  PowerDraw power;
  std::optional<NoiseReduction> noise_reduction;
  std::optional<bool> wide_dynamic_range;
  std::optional<Mass> mass;
  std::optional<Ends<Length>> body;            ///< width and height of what the wind meets
  std::optional<std::string> ingress, impact;  ///< such as `IP66`, `IK10`
  std::optional<Ends<double>> temperature_c;   ///< coldest and hottest, degrees Celsius
  std::optional<std::string> connector;
  std::optional<double> price;  ///< in the catalogue's currency

  bool zoom() const { return focal.wide != focal.tele; }
};

}  // namespace sightfall::camera
