// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/smear.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "detail/sensor.h"
#include "walk/octaves.h"

namespace sightfall::walk {
namespace {

constexpr size_t kOctaves = 4;   // the last one's patterns have up to kCoarsest pixels a cycle
constexpr size_t kSmoother = 2;  // octaves by which an amplitude is told more coarsely than its pattern

/// Amplitudes of neighbour octaves are added to this power: 1 would be right of a sine that is shared out between two
/// without more, but halving and doubling also give it images of other frequencies, which count too.
constexpr float kJoining = 1.2F;

/// A picture by octaves: `means` of falling size, and what each has that the next lacks.
struct Octaves {
  std::array<Plane, kOctaves + kSmoother> means;  // without the first, the picture itself
  std::array<Plane, kOctaves> details, powers;    // of amplitudes
};

template <class Row>
void for_rows(const Plane& plane, Row row) {
  tbb::parallel_for(0, plane.rows, [&](int y) { row(y, plane.index(0, y)); });
}

std::span<float> row_of(Plane& plane, int y) {
  return {&plane.at[plane.index(0, y)], static_cast<size_t>(plane.columns)};
}

Octaves parted(const Plane& picture) {
  Octaves octaves;
  for (size_t k = 0; k < octaves.means.size(); ++k)
    octaves.means.at(k) = halved(k == 0 ? picture : octaves.means.at(k - 1));
  for (size_t k = 0; k < kOctaves; ++k) {
    const Plane& finer = k == 0 ? picture : octaves.means.at(k - 1);
    Plane& detail = octaves.details.at(k);
    detail = Plane{finer.columns, finer.rows};
    for_rows(detail, [&](int y, size_t first) {
      const std::span<float> row = row_of(detail, y);
      doubled_row(octaves.means.at(k), y, row);
      for (size_t x = 0; x < row.size(); ++x) row[x] = finer.at[first + x] - row[x];
    });
    Plane& power = octaves.powers.at(k);
    power = halved(halved(detail, Of::kSquares));
    for_rows(power, [&](int y, size_t) {
      for (float& value : row_of(power, y)) value = std::pow(2 * value, kJoining / 2);
    });
  }
  return octaves;
}

/// Amplitude of what lies in an octave and its neighbours, to the power of kJoining, as coarse as that octave's own.
Plane joint_power(const Octaves& octaves, size_t octave) {
  Plane sum = octaves.powers.at(octave);
  const auto add = [&](const Plane& other) {
    for (size_t i = 0; i < sum.at.size(); ++i) sum.at[i] += other.at[i];
  };
  if (octave > 0) add(halved(octaves.powers.at(octave - 1)));
  if (octave + 1 < kOctaves) add(doubled(octaves.powers.at(octave + 1), sum.columns, sum.rows));
  return sum;
}

/// Share of an octave's pattern that is left, as coarse as its amplitude.
Plane share_left(const Octaves& octaves, size_t octave, const Plane& averaged, const SmearSetting& setting) {
  Plane share = joint_power(octaves, octave);
  const Plane& mean = octaves.means.at(octave + kSmoother - 1);
  const int step = 1 << (octave + kSmoother);
  tbb::parallel_for(0, share.rows, [&](int y) {
    for (int x = 0; x < share.columns; ++x) {
      const size_t at = share.index(x, y);
      const auto collected = static_cast<double>(mean.at[at]);
      const double ratio = collected > setting.full_scale ? setting.dynamic_ratio : 1;
      const double level = std::clamp(collected / ratio, 0.0, setting.full_scale);
      const detail::SensorNoise noise{setting.read, setting.dark, detail::output_step(level, setting.full_scale)};
      const int column = std::min(step * x, averaged.columns - 1), row = std::min(step * y, averaged.rows - 1);
      const double variance = ratio * ratio * detail::signal_variance(level, noise) /
                              static_cast<double>(averaged.at[averaged.index(column, row)]);
      const auto amplitude2 = static_cast<double>(std::pow(share.at[at], 2 / kJoining));
      const double lost = setting.smear * setting.smear * variance;
      share.at[at] = lost > 0 ? static_cast<float>(amplitude2 / (amplitude2 + lost)) : 1;
    }
  });
  return share;
}

}  // namespace

void smear(Plane& mean, const Plane& averaged, const SmearSetting& setting) {
  if (setting.smear <= 0) return;
  Octaves octaves = parted(mean);
  for (size_t k = kOctaves; k-- > 0;) {
    Plane& to = k == 0 ? mean : octaves.means.at(k - 1);
    const Plane &coarser = octaves.means.at(k), &detail = octaves.details.at(k);
    const Plane twice = share_left(octaves, k, averaged, setting);
    const Plane share = doubled(twice, coarser.columns, coarser.rows);
    for_rows(to, [&](int y, size_t first) {
      thread_local std::vector<float> left;
      left.resize(static_cast<size_t>(to.columns));
      doubled_row(share, y, left);
      const std::span<float> row = row_of(to, y);
      doubled_row(coarser, y, row);
      for (size_t x = 0; x < row.size(); ++x) row[x] += left[x] * detail.at[first + x];
    });
  }
}

}  // namespace sightfall::walk
