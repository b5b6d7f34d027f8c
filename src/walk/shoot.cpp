// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/shoot.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "detail/sensor.h"
#include "detail/signal.h"
#include "walk/blur.h"
#include "walk/texture.h"

namespace sightfall::walk {
namespace {

using detail::Input;

/// Lays the blurred subject over the picture, in electrons a second.
void lay_subject(const Cutout& cast, const Shot& shot, Exposure& exposure) {
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
    }
}

/// Numbers in (0, 1) that depend on the key alone.
class Random {
 public:
  explicit Random(uint64_t key) : state_{key} {}
  double uniform() {
    constexpr double kScale = 1.0 / 9007199254740992.0;  // 2^-53
    return (static_cast<double>(mixed(++state_) >> 11) + 0.5) * kScale;
  }
  double normal() { return std::sqrt(-2 * std::log(uniform())) * std::cos(2 * std::numbers::pi * uniform()); }
  /// Poisson: by inversion where the mean is small, else its normal limit.
  double counted(double mean) {
    constexpr double kSmall = 30;
    if (mean > kSmall) return std::max(0.0, std::round(mean + std::sqrt(mean) * normal()));
    double left = uniform(), chance = std::exp(-mean);
    int count = 0;
    constexpr int kMost = 200;
    while (left > chance && count < kMost) {
      left -= chance;
      chance *= mean / ++count;
    }
    return count;
  }

 private:
  uint64_t state_;
};

}  // namespace

Exposure expose_picture(const Background& background, const Cutout& subject, const Shot& shot) {
  const detail::CameraConstants& camera = shot.station->constants;
  Exposure exposure;
  exposure.exposed = detail::exposed(camera, shot.seen, shot.values);
  exposure.full_scale = std::max(shot.values[Input::kFullWell], 1.0) / exposure.exposed.gain;
  exposure.hue = background.hue;
  exposure.averaged = Plane{background.rate.columns, background.rate.rows, static_cast<float>(camera.averaged)};
  exposure.mean = blurred(background.rate, background.depth, camera, shot.values, exposure.exposed);
  lay_subject(subject, shot, exposure);
  const detail::Metering& frame = camera.metering;
  const double glare =
      shot.values[Input::kGlare] * frame.mean() * (1 - frame.own_share() + frame.own_share() * exposure.exposed.power);
  const double open = exposure.exposed.time * exposure.exposed.iris;
  tbb::parallel_for(size_t{0}, exposure.mean.at.size(), [&](size_t i) {
    exposure.mean.at[i] = static_cast<float>(
        open * std::max(0.0, static_cast<double>(exposure.mean.at[i] + background.stray.at[i]) + glare));
  });
  return exposure;
}

Plane electrons(const Exposure& exposure, const Shot& shot) {
  const double dark = shot.station->constants.dark * exposure.exposed.time;
  const double read = shot.values[Input::kReadNoise];
  Plane plane{exposure.mean.columns, exposure.mean.rows};
  tbb::parallel_for(0, plane.rows, [&](int row) {
    for (int column = 0; column < plane.columns; ++column) {
      const size_t at = plane.index(column, row);
      const auto mean = static_cast<double>(exposure.mean.at[at]);
      Random random{mixed(shot.seed + mixed(shot.frame + mixed(at)))};
      // The mean of n frames has the noise of one over the root of n. Many electrons are as good as normal, with all
      // noise at once.
      constexpr double kMany = 30;
      const double noisy = mean > kMany ? mean + std::sqrt(mean + dark + read * read) * random.normal()
                                        : random.counted(mean + dark) - dark + read * random.normal();
      const double kept = mean + (noisy - mean) / std::sqrt(static_cast<double>(exposure.averaged.at[at]));
      plane.at[at] = static_cast<float>(std::clamp(kept, 0.0, exposure.full_scale));
    }
  });
  return plane;
}

Picture developed(const Plane& electrons, const Exposure& exposure, bool monochrome) {
  Picture picture{electrons.columns, electrons.rows, std::vector<uint8_t>(3 * electrons.at.size())};
  tbb::parallel_for(size_t{0}, electrons.at.size(), [&](size_t i) {
    const double light = static_cast<double>(electrons.at[i]) / exposure.full_scale;
    const auto level = [&](double share) {
      constexpr double kHalf = 0.5;  // rounds
      return static_cast<uint8_t>(255 * std::sqrt(std::min(1.0, light * share)) + kHalf);
    };
    if (monochrome) {
      std::fill_n(picture.rgb.begin() + static_cast<ptrdiff_t>(3 * i), 3, level(1));
      return;
    }
    const Hue& hue = hues()[exposure.hue[i]];
    for (size_t channel = 0; channel < 3; ++channel)
      picture.rgb[3 * i + channel] = level(static_cast<double>(hue.at(channel)));
  });
  return picture;
}

Picture shoot(const StillCast& still, const Stage& stage, const Shot& shot) {
  const detail::Exposed exposed = detail::exposed(shot.station->constants, shot.seen, shot.values);
  const detail::Blur blur = detail::blur_of(shot.station->constants, shot.seen, shot.values, exposed);
  const Background background = still.background(stage, exposed.power);
  const Cutout subject = cast_subject(stage, *shot.station, exposed.power, reach_of(blur, 1));
  const Exposure exposure = expose_picture(background, subject, shot);
  return developed(electrons(exposure, shot), exposure, shot.station->monochrome);
}

}  // namespace sightfall::walk
