// SPDX-License-Identifier: GPL-3.0-or-later
// Calibration: a few observations of a camera narrow what its sheet leaves open, as estimates to put into the sheet.
//   Model    docs/models.md section 8. Every uncertain input is a factor, log-normal with its range as the prior; the
//            posterior is Gaussian in the logarithms about its mode (Laplace). What is seen stands still, on the axis
//   Limits   a lamp's yield and the sensor's response to it are told only together, as are lens and sensor by visible
//            light: one entry carries the range of both. What the observations do not
//            narrow by at least a fifth is left out
//   Checked  seen_test.cpp; tests/physics/calibration_test.cpp
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "camera/sheet.h"
#include "card/card.h"

namespace sightfall::card {

enum class SeenSubject { kFace, kPlate, kGreyCard };  ///< the card: 18 % in every band

/// One observation. The level and the noise are of the picture's values after the tone curve, over the largest value.
struct Observation {
  Length distance;
  SeenSubject subject = SeenSubject::kGreyCard;
  std::optional<double> lux;    ///< of a white lamp on the subject, own infrared off; unset: own infrared in the dark
  std::optional<Time> shutter;  ///< with the gain; unset: automatic exposure, which tells little by a level
  std::optional<double> gain;   ///< dB
  std::optional<double> level;  ///< mean
  std::optional<double> noise;  ///< standard deviation
  std::optional<bool> read;     ///< whether the face or the plate was made out
  PixelDensity needed{125};     ///< delivered detail at which half of observers would
};

/// Errors of an observation, as standard deviations.
inline constexpr double kLevelError = 0.03, kLevelOffset = 0.01;  ///< of the level; added to it
inline constexpr double kNoiseError = 0.1;                        ///< of the noise
inline constexpr double kReadingSlope = 8;  ///< of the logistic in the logarithm of delivered over needed detail

/// What a camera with the request's nominal values shows.
struct Shown {
  double level = 0, noise = 0;
  double delivered = 0;  ///< px/m
};
Shown shown(const CardRequest& request, const Observation& observation);

/// An entry that is told only together with another one.
struct Held {
  std::string name, unit;
  double value = 0;  ///< that goes with the other one's range
};

/// A range before and after.
struct Narrowed {
  std::string name, unit;        ///< of the table's entry
  std::vector<Held> held;        ///< entries told only together with it
  Ranged<double> before, after;  ///< in the entry's unit; before: with what is held
  bool told = false;             ///< narrower by a fifth or more
};

struct Calibration {
  size_t observations = 0;
  std::vector<Narrowed> parameters;
  std::vector<camera::Estimate> estimates;  ///< those that are told, and what they hold
};

/// `file` is what the estimates name as their source.
Calibration narrowed(const CardRequest& request, const std::vector<Observation>& observations, const std::string& file);

/// The sheet with the estimates in place of those of the same names.
camera::Sheet with(camera::Sheet sheet, const std::vector<camera::Estimate>& estimates);

}  // namespace sightfall::card
