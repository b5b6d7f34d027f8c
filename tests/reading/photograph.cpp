// SPDX-License-Identifier: GPL-3.0-or-later
#include "photograph.h"

#include <cmath>

#include "walk/blur.h"
#include "walk/texture.h"

namespace sightfall::reading {
namespace {

/// Points a pixel each way, as walk takes for a small subject and for a larger one.
int finer_at(double density) {
  constexpr double kLarge = 200;  // px/m
  constexpr int kSmallSubject = 5, kLargeSubject = 3;
  return density < kLarge ? kSmallSubject : kLargeSubject;
}

/// A number in [0, 1) that a seed decides.
double share(uint64_t seed) {
  constexpr double kScale = 1.0 / 9007199254740992.0;  // 2^-53
  return static_cast<double>(walk::mixed(seed) >> 11) * kScale;
}

/// Where the subject is in the picture, and how large that is.
struct Layout {
  int columns = 0, rows = 0;
  double left = 0, top = 0;
};

Layout laid_out(const Flat& flat, double density, int margin, uint64_t seed) {
  const auto whole = [&](Length length) { return static_cast<int>(std::ceil(length.si() * density)) + 1 + 2 * margin; };
  return {whole(flat.width), whole(flat.height), margin + share(2 * seed), margin + share(2 * seed + 1)};
}

walk::Cutout cut_out(const Flat& flat, const Setting& setting, const Layout& layout) {
  walk::Cutout cut;
  const double contrast = setting.get(detail::Input::kContrast), density = setting.seen.density;
  cut.columns = layout.columns, cut.rows = layout.rows, cut.finer = finer_at(density);
  cut.rate = cut.cover = walk::Plane{cut.columns * cut.finer, cut.rows * cut.finer};
  cut.hue.assign(cut.rate.at.size(), 0);
  for (int row = 0; row < cut.rate.rows; ++row)
    for (int column = 0; column < cut.rate.columns; ++column) {
      const double u = ((column + 0.5) / cut.finer - layout.left) / (density * flat.width.si());
      const double v = ((row + 0.5) / cut.finer - layout.top) / (density * flat.height.si());
      if (u < 0 || u >= 1 || v < 0 || v >= 1) continue;
      const size_t at = cut.rate.index(column, row);
      cut.rate.at[at] = static_cast<float>(setting.seen.path + setting.seen.others * (1 + contrast * flat.at(u, v)));
      cut.cover.at[at] = 1;
    }
  return cut;
}

walk::Background even_ground(const Layout& layout, double rate, const detail::Seen& seen) {
  return {{layout.columns, layout.rows, static_cast<float>(rate)},
          {layout.columns, layout.rows, static_cast<float>(seen.glare)},
          {layout.columns, layout.rows, static_cast<float>(seen.depth)},
          std::vector<uint8_t>(static_cast<size_t>(layout.columns) * static_cast<size_t>(layout.rows), 0)};
}

}  // namespace

Photograph photograph(const Setting& setting, const Flat& flat, Length around, uint64_t seed, const Finish& finish) {
  need::Station station;
  station.constants = camera_in_light(setting);
  const walk::Shot shot{&station, detail::Values{setting.inputs}, setting.seen, setting.along, seed, 0};
  const detail::Blur blur = detail::blur_of(station.constants, setting.seen, shot.values,
                                            detail::exposed(station.constants, setting.seen, shot.values));
  const double density = setting.seen.density;
  const int margin = walk::reach_of(blur, 1) + static_cast<int>(std::ceil(around.si() * density));
  const Layout layout = laid_out(flat, density, margin, seed);
  const double ground = setting.seen.path + flat.ground * setting.seen.others;
  const walk::Exposure exposure =
      walk::expose_picture(even_ground(layout, ground, setting.seen), cut_out(flat, setting, layout), shot);
  const Frames frames = [&](uint64_t frame) {
    walk::Shot next = shot;
    next.frame = frame;
    return walk::developed(walk::electrons(exposure, next), exposure, true);
  };
  const walk::Picture picture = finish ? finish(frames) : frames(0);
  Photograph result{picture.columns, picture.rows, std::vector<uint8_t>(picture.rgb.size() / 3),
                    layout.left,     layout.top,   density};
  for (size_t i = 0; i < result.grey.size(); ++i) result.grey[i] = picture.rgb[3 * i];
  return result;
}

}  // namespace sightfall::reading
