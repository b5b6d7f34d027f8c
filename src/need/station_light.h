// SPDX-License-Identifier: GPL-3.0-or-later
// A station's part that answers to light: sensor, automatic exposure, own infrared.
//   Checked  station_test.cpp, illumination_test.cpp
#pragma once
#include "need/station.h"

namespace sightfall::need {

inline Ranged<double>& at(detail::RangedInputs& inputs, detail::Input input) {
  return inputs[static_cast<size_t>(input)];
}

inline Ranged<double> scaled(const Ranged<double>& factor, double by) {
  return {factor.low * by, factor.nominal * by, factor.high * by};
}

/// Fills in what the sheet states and what is typical. The station has its lens, pitch and frame rate.
void set_light(Station& station, const camera::Sheet& sheet, const camera::Camera& camera,
               const detail::Typical& typical);

}  // namespace sightfall::need
