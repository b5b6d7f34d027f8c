// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/mosaic.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>

#include "base/check.h"

namespace sightfall::walk {
namespace {

constexpr int kAround = 2;  // pixels that a reconstruction looks to each side

/// Sums of what lies around a pixel, by distance and direction.
struct Around {
  float here, across, down, corners, far_across, far_down;
};

/// Five rows of a plane around one, from a column on.
class Rows {
 public:
  Rows(const Plane& plane, int row) : columns_{plane.columns} {
    for (int i = 0; i < kCount; ++i)
      rows_.at(static_cast<size_t>(i)) = &plane.at[plane.index(0, mirrored(row + i - kAround, plane.rows))];
  }
  /// Around a column at least two from either edge.
  Around inside(int c) const {
    const auto& [above2, above, here, below, below2] = rows_;
    return {here[c],
            here[c - 1] + here[c + 1],
            above[c] + below[c],
            above[c - 1] + above[c + 1] + below[c - 1] + below[c + 1],
            here[c - 2] + here[c + 2],
            above2[c] + below2[c]};
  }
  Around anywhere(int c) const {
    const auto& [above2, above, here, below, below2] = rows_;
    const auto at = [&](int off) { return mirrored(c + off, columns_); };
    return {here[c],
            here[at(-1)] + here[at(1)],
            above[c] + below[c],
            above[at(-1)] + above[at(1)] + below[at(-1)] + below[at(1)],
            here[at(-2)] + here[at(2)],
            above2[c] + below2[c]};
  }

 private:
  static constexpr int kCount = 2 * kAround + 1;
  int columns_;
  std::array<const float*, kCount> rows_{};
};

/// The three colours of a pixel, where `own` is that of the row's red or blue pixels and `other` that of its
/// neighbours.
struct Three {
  float own, green, other;
};

constexpr float kEighth = 0.125F, kHalf = 0.5F;

Three at_coloured(const Around& a) {
  return {a.here, kEighth * (4 * a.here + 2 * (a.across + a.down) - a.far_across - a.far_down),
          kEighth * (6 * a.here + 2 * a.corners - 1.5F * (a.far_across + a.far_down))};
}

Three at_green(const Around& a) {
  return {kEighth * (5 * a.here + 4 * a.across - a.far_across - a.corners + kHalf * a.far_down), a.here,
          kEighth * (5 * a.here + 4 * a.down - a.far_down - a.corners + kHalf * a.far_across)};
}

}  // namespace

Hue shares_of(const Hue& hue) {
  const float mean = (hue[0] + 2 * hue[1] + hue[2]) / 4;
  return {hue[0] / mean, hue[1] / mean, hue[2] / mean};
}

void lay_mosaic(Plane& mean, const std::vector<uint8_t>& hue) {
  std::vector<Hue> shares;
  for (const Hue& one : hues()) shares.push_back(shares_of(one));
  tbb::parallel_for(0, mean.rows, [&](int row) {
    for (int column = 0; column < mean.columns; ++column) {
      const size_t at = mean.index(column, row);
      mean.at[at] *= shares[hue[at]].at(colour_at(column, row));
    }
  });
}

void reconstruct_row(const Plane& raw, int row, std::span<float> colours) {
  CHECK_GT(std::min(raw.columns, raw.rows), kAround);
  const Rows rows{raw, row};
  const bool reds = row % 2 == 0;  // else blues
  const auto put = [&](int column, const Three& three) {
    float* to = &colours[3 * static_cast<size_t>(column)];
    to[0] = reds ? three.own : three.other;
    to[1] = three.green;
    to[2] = reds ? three.other : three.own;
  };
  const auto coloured = [&](int column) { return colour_at(column, row) != 1; };
  const auto one = [&](int column) {
    const Around around = rows.anywhere(column);
    put(column, coloured(column) ? at_coloured(around) : at_green(around));
  };
  const int first = kAround, last = raw.columns - kAround;
  for (int column = 0; column < std::min(first, raw.columns); ++column) one(column);
  const bool starts_coloured = coloured(first);
  int column = first;
  for (; column + 1 < last; column += 2) {
    const Around here = rows.inside(column), next = rows.inside(column + 1);
    put(column, starts_coloured ? at_coloured(here) : at_green(here));
    put(column + 1, starts_coloured ? at_green(next) : at_coloured(next));
  }
  for (; column < raw.columns; ++column) one(column);
}

}  // namespace sightfall::walk
