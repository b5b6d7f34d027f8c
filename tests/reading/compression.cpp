// SPDX-License-Identifier: GPL-3.0-or-later
#include "compression.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

#include "base/check.h"
#include "detail/signal.h"
#include "file/project.h"
#include "video/encode.h"

namespace sightfall::reading {
namespace {

constexpr int kFrames = 12, kAcross = 2, kDown = 1;  // px a frame: a walk's pace
constexpr int kRoom = 32;                            // px of ground about the picture

/// A picture on a ground of its own edge's level.
video::Picture placed(const walk::Picture& picture, int frame) {
  video::Picture canvas{
      picture.columns + kFrames * kAcross + 2 * kRoom, picture.rows + kFrames * kDown + 2 * kRoom, {}};
  canvas.rgb.assign(3 * static_cast<size_t>(canvas.columns) * static_cast<size_t>(canvas.rows), picture.rgb.front());
  for (int row = 0; row < picture.rows; ++row) {
    const size_t from = 3 * static_cast<size_t>(row) * static_cast<size_t>(picture.columns);
    const size_t to = 3 * (static_cast<size_t>(row + kRoom + frame * kDown) * static_cast<size_t>(canvas.columns) +
                           static_cast<size_t>(kRoom + frame * kAcross));
    std::copy_n(&picture.rgb[from], 3 * picture.columns, &canvas.rgb[to]);
  }
  return canvas;
}

walk::Picture taken_back(const video::Picture& canvas, int columns, int rows) {
  walk::Picture picture{columns, rows, {}};
  for (int row = 0; row < rows; ++row) {
    const auto first =
        canvas.rgb.begin() + 3 * (static_cast<ptrdiff_t>(row + kRoom + (kFrames - 1) * kDown) * canvas.columns + kRoom +
                                  (kFrames - 1) * kAcross);
    picture.rgb.insert(picture.rgb.end(), first, first + 3 * static_cast<ptrdiff_t>(columns));
  }
  return picture;
}

video::Encoded encoded(const Frames& frames, double factor) {
  std::vector<video::Picture> clip;
  clip.reserve(kFrames);
  for (int frame = 0; frame < kFrames; ++frame) clip.push_back(placed(frames(static_cast<uint64_t>(frame)), frame));
  video::EncodeSettings settings;
  settings.rate = video::FreeQuality{factor};
  Result<video::Encoded> result = video::encode(clip, settings, video::Back::kPicturesToo);
  CHECK_EQ(result.has_value(), true);
  return std::move(*result);
}

}  // namespace

Level compressed(const Setting& setting, double factor, const Flat& trial) {
  constexpr uint64_t kTrials = 8, kFirst = 1000000;  // seeds that no reader gets
  double quantisers = 0;
  for (uint64_t seed = kFirst; seed < kFirst + kTrials; ++seed)
    photograph(setting, trial, Length{0.03}, seed, [&](const Frames& frames) {
      quantisers += encoded(frames, factor).quantisers.back() / kTrials;
      return frames(0);
    });
  Level level{factor, setting, [factor](const Frames& frames) {
                const walk::Picture first = frames(0);
                return taken_back(encoded(frames, factor).pictures.back(), first.columns, first.rows);
              }};
  level.setting.camera.codec = file::default_typical().codecs.front();
  level.setting.camera.quality = factor;
  const detail::CameraConstants camera = camera_in_light(level.setting);
  const detail::Values values{level.setting.inputs};
  const double noise = detail::signal_of(camera, level.setting.seen, values).frame_noise;
  level.setting.set(detail::Input::kQuantiser,
                    detail::step_of(quantisers) / camera.codec->step_at_quality(factor, noise));
  return level;
}

}  // namespace sightfall::reading
