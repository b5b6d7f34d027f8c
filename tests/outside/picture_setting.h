// SPDX-License-Identifier: GPL-3.0-or-later
// A camera, a sample and its light, as the kernel is handed them, and the picture of a pattern that fills it.
#pragma once
#include <array>
#include <cmath>
#include <functional>
#include <vector>

#include "walk/shoot.h"

namespace sightfall::walk {

inline constexpr int kColumns = 180, kRows = 24, kFiner = 3;

/// A camera, a sample and its light, as the kernel is handed them.
struct Setting {
  need::Station station;
  detail::Seen seen{.density = 150, .depth = 20, .others = 1e5};
  std::array<double, detail::kInputCount> values{};
  double path = 0;  // electrons a second laid over the pattern by the air

  Setting() {
    station.constants = {.focal = 6e-3, .pitch = 2e-6};
    set(detail::Input::kThreshold, 0.2);
    set(detail::Input::kContrast, 0.75);
    set(detail::Input::kVeilLuminance, 0.5);
    set(detail::Input::kLensBlur, 0.8);
    set(detail::Input::kFNumber, 1.6);
    set(detail::Input::kFocus, 20);
    set(detail::Input::kShutter, 0.01);
    set(detail::Input::kNoiseThreshold, 4);
    set(detail::Input::kReadNoise, 2);
    set(detail::Input::kFullWell, 8000);
    set(detail::Input::kTarget, 0.18);
    for (const detail::Input factor :
         {detail::Input::kDensityFactor, detail::Input::kSensitivity, detail::Input::kReflectance,
          detail::Input::kInfrared, detail::Input::kScatter, detail::Input::kFlare, detail::Input::kGlass,
          detail::Input::kGain, detail::Input::kQuantiser})
      set(factor, 1);
  }
  void set(detail::Input input, double value) { values[static_cast<size_t>(input)] = value; }
  double get(detail::Input input) const { return values[static_cast<size_t>(input)]; }

  /// The frame is lit as the subject is.
  void finish() {
    const std::vector<detail::MeterPixel> frame(16, detail::MeterPixel{seen.others + path, 0});
    station.constants.metering = detail::Metering{frame};
    seen.path = path;
  }
  Shot shot() const { return {&station, detail::Values{values}, seen, {1, 0}, 7, 0}; }
};

inline Background even(double rate, int rows = kRows) {
  Background background{{kColumns, rows, static_cast<float>(rate)},
                        {kColumns, rows},
                        {kColumns, rows, 20},
                        std::vector<uint8_t>(static_cast<size_t>(kColumns) * static_cast<size_t>(rows), 0)};
  return background;
}

/// A cutout that fills the picture with a pattern of values in [-1, 1] across it.
inline Cutout filled(const Setting& setting, const std::function<double(double across, double down)>& pattern,
                     int rows = kRows) {
  Cutout cut;
  cut.columns = kColumns, cut.rows = rows, cut.finer = kFiner;
  cut.rate = cut.cover = Plane{kColumns * kFiner, rows * kFiner, 1};
  cut.hue.assign(cut.rate.at.size(), 0);
  const double contrast = setting.values[static_cast<size_t>(detail::Input::kContrast)];
  for (int row = 0; row < cut.rate.rows; ++row)
    for (int column = 0; column < cut.rate.columns; ++column)
      cut.rate.at[cut.rate.index(column, row)] = static_cast<float>(
          setting.path + setting.seen.others * (1 + contrast * pattern((column + 0.5) / kFiner, (row + 0.5) / kFiner)));
  return cut;
}

/// The kernel's own resolved frequency, cycles a pixel.
inline double resolved_by_kernel(const Setting& setting) {
  const detail::Values values{setting.values};
  return detail::delivered(setting.station.constants, setting.seen, values) / setting.seen.density * values.reference();
}

}  // namespace sightfall::walk
