// SPDX-License-Identifier: GPL-3.0-or-later
// Bars rendered, encoded and measured on the decoded picture, against the kernel's resolved frequency.
//   Source   real encodes by x264 and x265, at the quantiser that the kernel counts with; docs/models.md section 6
#include <gtest/gtest.h>

#include "file/project.h"
#include "picture_measure.h"

namespace sightfall::walk {
namespace {

using detail::Input;

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

class CompressedBars : public testing::TestWithParam<Streamed> {};

TEST_P(CompressedBars, AreResolvedOnTheDecodedPictureAsByTheKernel) {
  const Setting setting = setting_of(GetParam());
  Setting of_bars = setting;
  of_bars.set(Input::kQuantiser, 1 / detail::kSpread);  // the table's own step
  const double kernel = resolved_by_kernel(of_bars);
  const double least = setting.values[static_cast<size_t>(Input::kThreshold)];
  const double picture = resolved_in_steps(
      0.05, 1.04, [&](double frequency) { return contrast_in_stream(setting, GetParam().codec, frequency) >= least; });
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
