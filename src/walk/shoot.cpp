// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/shoot.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <span>
#include <vector>

#include "detail/sensor.h"
#include "detail/signal.h"
#include "walk/blur.h"
#include "walk/mosaic.h"
#include "walk/noise.h"
#include "walk/rolling.h"
#include "walk/smear.h"
#include "walk/tone.h"

namespace sightfall::walk {
namespace {

using detail::Input;

/// By how much of its light each pixel swings with the mains; empty where none does.
using Shares = Plane;

float share_of(const Plane& swinging, const Plane& rate, size_t at) {
  return rate.at[at] > 0 ? std::min(1.0F, swinging.at[at] / rate.at[at]) : 0;
}

Shares swinging_shares(const Background& background) {
  Shares shares;
  if (background.swinging.at.empty()) return shares;
  shares = Plane{background.rate.columns, background.rate.rows};
  tbb::parallel_for(0, shares.rows, [&](int row) {
    for (size_t i = shares.index(0, row); i < shares.index(0, row + 1); ++i)
      shares.at[i] = share_of(background.swinging, background.rate, i);
  });
  return shares;
}

/// Lays the blurred subject over the picture, in electrons a second.
void lay_subject(const Cutout& cast, const Shot& shot, Shares& shares, Exposure& exposure) {
  if (cast.empty()) return;
  const detail::Blur blur = detail::blur_of(shot.station->constants, shot.seen, shot.values, exposure.exposed);
  const Transfer transfer = transfer_of(blur, shot.along, cast.finer, true);
  std::array<Plane, 2> planes{cast.rate, cast.cover};
  tbb::parallel_for(0, 2,
                    [&](int i) { filter(planes.at(static_cast<size_t>(i)), transfer, reach_of(blur, cast.finer)); });
  const double moving = detail::averaged_frames(shot.station->constants, shot.seen, shot.values, exposure.exposed.time);
  for (int row = 0; row < cast.rows; ++row)
    for (int column = 0; column < cast.columns; ++column) {
      const int middle = cast.finer / 2;
      const size_t fine = planes[0].index(column * cast.finer + middle, row * cast.finer + middle);
      const size_t at = exposure.mean.index(cast.left + column, cast.top + row);
      const float cover = std::clamp(planes[1].at[fine], 0.0F, 1.0F);
      exposure.mean.at[at] = (1 - cover) * exposure.mean.at[at] + std::max(planes[0].at[fine], 0.0F);
      constexpr float kMostly = 0.5F;
      if (cover < kMostly) continue;
      exposure.averaged.at[at] = static_cast<float>(moving);
      exposure.hue[at] = cast.hue[fine];
      if (!shares.at.empty()) shares.at[at] = cast.swinging.at.empty() ? 0 : share_of(cast.swinging, cast.rate, fine);
    }
}

/// What of two exposures the tone curve has to hold, over full scale: the frame's brightest part as its meter sees it,
/// or the subject's. A camera spreads its curve no further than the scene asks.
double brightest(const Shot& shot, const Exposure& exposure) {
  const double subject = (shot.seen.others + shot.seen.path) * (1 + shot.values[Input::kContrast]);
  const double rate = std::max(shot.station->constants.metering.bright(0), subject);
  const double most = rate * exposure.exposed.time * exposure.exposed.iris / exposure.full_scale;
  return std::clamp(most, 1.0, exposure.dynamic_ratio);
}

/// From electrons a second to those of the exposure, with what is laid over the whole picture.
void collect(const Plane& stray, const Shares& shares, const Shot& shot, Exposure& exposure) {
  const detail::CameraConstants& camera = shot.station->constants;
  const detail::Exposed& exposed = exposure.exposed;
  const detail::Metering& frame = camera.metering;
  const auto glare = static_cast<float>(shot.values[Input::kGlare] * frame.mean() *
                                        (1 - frame.own_share() + frame.own_share() * exposed.power));
  const auto open = static_cast<float>(exposed.time * exposed.iris);
  Plane& mean = exposure.mean;
  std::vector<float> swing;
  if (!shares.at.empty())
    swing = swing_by_row({shot.begin, shot.readout, exposed.time, mean.rows}, camera.flicker_rate);
  tbb::parallel_for(0, mean.rows, [&](int row) {
    const size_t first = mean.index(0, row), end = mean.index(0, row + 1);
    if (!swing.empty())
      for (size_t i = first; i < end; ++i) mean.at[i] *= 1 + shares.at[i] * swing[static_cast<size_t>(row)];
    for (size_t i = first; i < end; ++i) mean.at[i] = open * std::max(0.0F, mean.at[i] + stray.at[i] + glare);
  });
}

}  // namespace

Exposure expose_picture(const Background& background, const Cutout& subject, const Shot& shot) {
  const detail::CameraConstants& camera = shot.station->constants;
  Exposure exposure;
  exposure.exposed = detail::exposed(camera, shot.seen, shot.values);
  exposure.full_scale = std::max(shot.values[Input::kFullWell], 1.0) / exposure.exposed.gain;
  exposure.dynamic_ratio = std::max(1.0, camera.dynamic_ratio);
  exposure.brightest = brightest(shot, exposure);
  exposure.mosaic = shot.mosaic && !shot.station->monochrome;
  exposure.hue = background.hue;
  exposure.averaged = Plane{background.rate.columns, background.rate.rows, static_cast<float>(camera.averaged)};
  exposure.mean = blurred(background.rate, background.depth, camera, shot.values, exposure.exposed);
  Shares shares = swinging_shares(background);
  lay_subject(subject, shot, shares, exposure);
  collect(background.stray, shares, shot, exposure);
  smear(exposure.mean, exposure.averaged,
        {camera.smear, shot.values[Input::kReadNoise], camera.dark * exposure.exposed.time, exposure.full_scale,
         exposure.dynamic_ratio});
  if (exposure.mosaic) lay_mosaic(exposure.mean, exposure.hue);
  return exposure;
}

Plane electrons(const Exposure& exposure, const Shot& shot) {
  const Noise noise{shot.seed, shot.frame, shot.values[Input::kReadNoise],
                    shot.station->constants.dark * exposure.exposed.time};
  const auto full = static_cast<float>(exposure.full_scale), ratio = static_cast<float>(exposure.dynamic_ratio);
  Plane plane{exposure.mean.columns, exposure.mean.rows};
  tbb::parallel_for(0, plane.rows, [&](int row) {
    const size_t first = plane.index(0, row), count = static_cast<size_t>(plane.columns);
    const std::span<const float> mean{&exposure.mean.at[first], count}, averaged{&exposure.averaged.at[first], count};
    const std::span<float> sum{&plane.at[first], count};
    noise.add(Noise::kLong, first, mean, averaged, sum);
    for (float& one : sum) one = std::clamp(one, 0.0F, full);
    if (ratio <= 1 || std::none_of(sum.begin(), sum.end(), [&](float one) { return one >= full; })) return;
    thread_local std::vector<float> brief, brief_mean;
    brief.resize(count), brief_mean.resize(count);
    for (size_t i = 0; i < count; ++i) brief_mean[i] = mean[i] / ratio;
    noise.add(Noise::kShort, first, brief_mean, averaged, brief);
    for (size_t i = 0; i < count; ++i)
      if (sum[i] >= full) sum[i] = ratio * std::clamp(brief[i], 0.0F, full);
  });
  return plane;
}

Picture developed(const Plane& electrons, const Exposure& exposure, bool monochrome) {
  Picture picture{electrons.columns, electrons.rows, std::vector<uint8_t>(3 * electrons.at.size())};
  const ToneCurve curve{exposure.brightest};
  const auto scale = static_cast<float>(1 / exposure.full_scale);
  tbb::parallel_for(0, electrons.rows, [&](int row) {
    const size_t first = electrons.index(0, row), count = static_cast<size_t>(electrons.columns);
    uint8_t* to = &picture.rgb[3 * first];
    if (monochrome) {
      for (size_t i = 0; i < count; ++i) std::fill_n(to + 3 * i, 3, curve.level(scale * electrons.at[first + i]));
      return;
    }
    thread_local std::vector<float> colours;
    colours.resize(3 * count);
    if (exposure.mosaic)
      reconstruct_row(electrons, row, colours);
    else
      for (size_t i = 0; i < 3 * count; ++i)
        colours[i] = electrons.at[first + i / 3] * hues()[exposure.hue[first + i / 3]].at(i % 3);
    for (size_t i = 0; i < 3 * count; ++i) to[i] = curve.level(scale * colours[i]);
  });
  return picture;
}

void black_out(const std::vector<camera::Mask>& masks, Picture& picture) {
  const auto edge = [](double share, int of) { return static_cast<int>(std::lround(share * of)); };
  for (const camera::Mask& mask : masks) {
    const auto first = static_cast<size_t>(edge(mask.left, picture.columns));
    const auto count = static_cast<size_t>(edge(mask.right, picture.columns)) - first;
    for (int row = edge(mask.top, picture.rows); row < edge(mask.bottom, picture.rows); ++row)
      std::fill_n(&picture.rgb[3 * (static_cast<size_t>(row) * static_cast<size_t>(picture.columns) + first)],
                  3 * count, uint8_t{0});
  }
}

Picture shoot(const StillCast& still, const Stage& stage, const Shot& shot) {
  const detail::Exposed exposed = detail::exposed(shot.station->constants, shot.seen, shot.values);
  const detail::Blur blur = detail::blur_of(shot.station->constants, shot.seen, shot.values, exposed);
  const Background background = still.background(stage, exposed.power);
  const Cutout subject = cast_subject(stage, *shot.station, exposed.power, reach_of(blur, 1));
  const Exposure exposure = expose_picture(background, subject, shot);
  Picture picture = developed(electrons(exposure, shot), exposure, shot.station->monochrome);
  black_out(shot.station->masks, picture);
  return picture;
}

}  // namespace sightfall::walk
