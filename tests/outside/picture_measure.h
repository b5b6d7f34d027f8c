// SPDX-License-Identifier: GPL-3.0-or-later
// Bars measured on pictures: the contrast that is left, as the sensor has it and in the frames of a decoded stream.
#pragma once
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "detail/signal.h"
#include "picture_setting.h"
#include "video/encode.h"
#include "walk/pattern.h"

namespace sightfall::walk {

/// Bright and dark of bars in the middle of the picture, and the noise of its pixels, electrons.
struct MeasuredBars {
  double bright = 0, dark = 1e300, noise = 0;
  double contrast() const { return (bright - dark) / (bright + dark); }
  /// Of a bar seven times as long as wide, over the noise of its pixels.
  double ratio(double frequency) const {
    constexpr double kBar = 7;
    return (bright - dark) / noise * std::sqrt(kBar / 4) / frequency;
  }
};

inline MeasuredBars measured_bars(const Setting& setting, double frequency) {
  const Cutout bars = filled(setting, [&](double across, double) { return sine_bars_at(across, frequency); });
  const Exposure exposure = expose_picture(even(setting.seen.others + setting.path), bars, setting.shot());
  const Plane noisy = electrons(exposure, setting.shot());
  MeasuredBars m;
  double squares = 0;
  int count = 0;
  for (int row = kRows / 4; row < 3 * kRows / 4; ++row)
    for (int column = kColumns / 5; column < 4 * kColumns / 5; ++column) {
      const size_t at = exposure.mean.index(column, row);
      const double mean = std::min(static_cast<double>(exposure.mean.at[at]), exposure.full_scale);
      m.bright = std::max(m.bright, mean);
      m.dark = std::min(m.dark, mean);
      squares += std::pow(static_cast<double>(noisy.at[at]) - mean, 2);
      ++count;
    }
  m.noise = std::sqrt(squares / count);
  return m;
}

/// Contrast of bars in the decoded frames of a clip in which they move at a walk's pace, in light: the amplitude in
/// phase over the mean.
inline double contrast_in_stream(const Setting& setting, size_t codec, double frequency) {
  constexpr int kTall = 64, kFrames = 14, kSettled = 4;
  constexpr double kMoves = 1.7;  // px a frame
  const detail::Values values{setting.values};
  const detail::CameraConstants& camera = setting.station.constants;
  const detail::Signal signal = detail::signal_of(camera, setting.seen, values);
  const double factor =
      camera.codec->quality_of_step(detail::quantiser_step(camera, signal, values), signal.frame_noise);
  std::vector<Picture> pictures;
  const auto at = [&](double across, int frame) { return sine_bars_at(across - kMoves * frame, frequency); };
  for (int frame = 0; frame < kFrames; ++frame) {
    const Cutout bars = filled(
        setting, [&](double across, double) { return at(across, frame); }, kTall);
    Shot shot = setting.shot();
    shot.frame = static_cast<uint64_t>(frame);
    const Exposure exposure = expose_picture(even(setting.seen.others, kTall), bars, shot);
    pictures.push_back(developed(electrons(exposure, shot), exposure, true));
  }
  const auto encoded =
      video::encode(pictures, {static_cast<video::Codec>(codec), Frequency{25}, video::FreeQuality{factor}, kFrames, 1},
                    video::Back::kPicturesToo);
  EXPECT_TRUE(encoded);
  double both = 0, shape = 0, sum = 0;
  size_t count = 0;
  for (int frame = kSettled; frame < kFrames; ++frame)
    for (int row = 8; row < kTall - 8; ++row)
      for (int column = 20; column < kColumns - 20; ++column) {
        const Picture& picture = encoded->pictures[static_cast<size_t>(frame)];
        const double level = picture.rgb[3 * static_cast<size_t>(row * kColumns + column)] / 255.0;
        const double expected = at(column + 0.5, frame);
        both += level * level * expected;  // the tone curve undone
        shape += expected * expected;
        sum += level * level;
        ++count;
      }
  return both / shape / (sum / static_cast<double>(count));
}

/// The lowest frequency that a test fails, tried in steps of a ratio.
template <class Passes>
double resolved_in_steps(double from, double step, Passes passes) {
  double frequency = from;
  while (frequency < 0.5 && passes(frequency)) frequency *= step;
  return frequency < 0.5 ? frequency / std::sqrt(step) : 0.5;
}

}  // namespace sightfall::walk
