// SPDX-License-Identifier: GPL-3.0-or-later
#include "plates.h"

#include "plate_matcher.h"
#include "plate_reader.h"
#include "walk/pattern.h"

namespace sightfall::reading {
namespace {

double share_right(const std::string& truth, const std::string& read) {
  size_t right = 0;
  for (size_t i = 0; i < truth.size(); ++i) right += truth[i] == read[i] ? 1 : 0;
  return static_cast<double>(right) / static_cast<double>(truth.size());
}

Photograph photographed(const Level& level, const std::string& characters, uint64_t seed) {
  const walk::PlatePattern pattern{characters};
  const Flat plate{walk::kPlateWidth, walk::kPlateHeight, [&](double u, double v) { return pattern.at(u, v); }};
  constexpr Length kAround{0.03};
  return photograph(level.setting, plate, kAround, seed, level.finish);
}

}  // namespace

Look read_plate(const Level& level, uint64_t seed) {
  thread_local PlateReader reader;
  thread_local PlateMatcher matcher;
  const std::string truth = walk::random_plate(seed);
  const Cells cells = cells_of(photographed(level, truth, seed), static_cast<int>(truth.size()));
  return {{share_right(truth, reader.read(cells)), share_right(truth, matcher.read(cells))}, 0};
}

Grey shown_plate(const Level& level, uint64_t seed) {
  const Photograph p = photographed(level, walk::random_plate(seed), seed);
  constexpr double kScale = 250;  // points a metre
  const auto points = [](Length length) { return static_cast<int>(length.si() * kScale); };
  return resized(p, {p.left, p.top, walk::kPlateWidth.si() * p.density, walk::kPlateHeight.si() * p.density},
                 points(walk::kPlateWidth), points(walk::kPlateHeight));
}

}  // namespace sightfall::reading
