// SPDX-License-Identifier: GPL-3.0-or-later
// Bars rendered, encoded and measured on the decoded picture, against the kernel's resolved frequency.
//   Source   real encodes by x264 and x265, at the quantiser that the kernel counts with; docs/models.md section 6
#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>

#include "detail/signal.h"
#include "file/project.h"
#include "picture_setting.h"
#include "video/encode.h"
#include "walk/pattern.h"

namespace sightfall::walk {
namespace {

using detail::Input;

constexpr int kTall = 64, kFrames = 14, kSettled = 4;
constexpr double kMoves = 1.7;  // px a frame, a walk's pace

struct Streamed {
  const char* name;
  size_t codec;
  double bits;   // a pixel
  double light;  // electrons a second
};

Setting setting_of(const Streamed& streamed) {
  Setting setting;
  setting.seen.others = streamed.light;
  setting.set(Input::kQuantiser, 1);
  setting.set(Input::kFullWell, 4000);
  setting.set(Input::kNoiseThreshold, 0.01);  // compression alone decides
  setting.station.constants.codec = file::default_typical().codecs.at(streamed.codec);
  setting.station.constants.bits_per_pixel = streamed.bits;
  setting.finish();
  return setting;
}

/// Contrast of bars in the decoded frames, in light: the amplitude in phase over the mean.
double contrast_left(const Setting& setting, size_t codec, double frequency) {
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

class CompressedBars : public testing::TestWithParam<Streamed> {};

TEST_P(CompressedBars, AreResolvedOnTheDecodedPictureAsByTheKernel) {
  const Setting setting = setting_of(GetParam());
  Setting of_bars = setting;
  of_bars.set(Input::kQuantiser, 1 / detail::kSpread);  // the table's own step
  const double kernel = resolved_by_kernel(of_bars);
  const double least = setting.values[static_cast<size_t>(Input::kThreshold)];
  double picture = 0.5;
  constexpr double kStep = 1.04;
  for (double frequency = 0.05; frequency < 0.5; frequency *= kStep)
    if (contrast_left(setting, GetParam().codec, frequency) < least) {
      picture = frequency / std::sqrt(kStep);
      break;
    }
  RecordProperty("kernel", std::to_string(kernel));
  RecordProperty("picture", std::to_string(picture));
  Setting free = setting;
  free.station.constants.codec.reset();
  EXPECT_LT(kernel, 0.97 * resolved_by_kernel(free)) << "compression takes something";
  // 10 % is asked; the table is smoothed, and H.264 in noise keeps some 15 % more than it says.
  EXPECT_NEAR(picture / kernel, 1, 0.16) << kernel << " by the kernel, " << picture << " on the picture";
}

INSTANTIATE_TEST_SUITE_P(EveryRate, CompressedBars,
                         testing::Values(Streamed{"by_day_h264", 0, 0.004, 8e4}, Streamed{"noisy_h264", 0, 0.02, 8000},
                                         Streamed{"by_day_h265", 1, 0.0015, 8e4},
                                         Streamed{"noisy_h265", 1, 0.004, 8000}),
                         [](const auto& info) { return std::string{info.param.name}; });

}  // namespace
}  // namespace sightfall::walk
