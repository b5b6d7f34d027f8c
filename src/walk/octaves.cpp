// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/octaves.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <vector>

namespace sightfall::walk {
namespace {

float five(float a, float b, float c, float d, float e) { return a + 4 * (b + d) + 6 * c + e; }

/// Five rows of a plane joined by their weights.
template <Of of>
void join_rows(const Plane& plane, int middle, std::span<float> sum) {
  const auto line = [&](int off) { return &plane.at[plane.index(0, mirrored(middle + off, plane.rows))]; };
  const float *a = line(-2), *b = line(-1), *c = line(0), *d = line(1), *e = line(2);
  for (size_t x = 0; x < sum.size(); ++x)
    if constexpr (of == Of::kSquares)
      sum[x] = five(a[x] * a[x], b[x] * b[x], c[x] * c[x], d[x] * d[x], e[x] * e[x]);
    else
      sum[x] = five(a[x], b[x], c[x], d[x], e[x]);
}

/// Every other value of a row through the same weights.
void halve_row(std::span<const float> row, std::span<float> to) {
  constexpr float kWhole = 1.0F / 256;
  const auto count = static_cast<int>(row.size()), half = static_cast<int>(to.size());
  const auto at = [&](int x) { return row[static_cast<size_t>(mirrored(x, count))]; };
  const auto anywhere = [&](int x) {
    to[static_cast<size_t>(x)] = kWhole * five(at(2 * x - 2), at(2 * x - 1), at(2 * x), at(2 * x + 1), at(2 * x + 2));
  };
  const int last = std::max(1, (count - 2) / 2);  // up to which the weights lie within the row
  anywhere(0);
  for (int x = 1; x < last; ++x) {
    const float* from = &row[2 * static_cast<size_t>(x) - 2];
    to[static_cast<size_t>(x)] = kWhole * five(from[0], from[1], from[2], from[3], from[4]);
  }
  for (int x = last; x < half; ++x) anywhere(x);
}

}  // namespace

Plane halved(const Plane& plane, Of of) {
  Plane half{(plane.columns + 1) / 2, (plane.rows + 1) / 2};
  tbb::parallel_for(0, half.rows, [&](int row) {
    thread_local std::vector<float> sum;
    sum.resize(static_cast<size_t>(plane.columns));
    of == Of::kSquares ? join_rows<Of::kSquares>(plane, 2 * row, sum) : join_rows<Of::kValues>(plane, 2 * row, sum);
    halve_row(sum, {&half.at[half.index(0, row)], static_cast<size_t>(half.columns)});
  });
  return half;
}

void doubled_row(const Plane& half, int row, std::span<float> to) {
  thread_local std::vector<float> sum;
  const auto count = static_cast<size_t>(half.columns);
  sum.resize(count + 2);  // one more to each side
  const auto line = [&](int at) { return &half.at[half.index(0, mirrored(at, half.rows))]; };
  const int at = row / 2;
  const float *a = line(at - 1), *b = line(at), *c = line(at + 1);
  constexpr float kEighth = 0.125F, kHalf = 0.5F;
  if (row % 2 == 0)
    for (size_t x = 0; x < count; ++x) sum[x + 1] = kEighth * (a[x] + 6 * b[x] + c[x]);
  else
    for (size_t x = 0; x < count; ++x) sum[x + 1] = kHalf * (b[x] + c[x]);
  sum[0] = sum[1 + static_cast<size_t>(mirrored(-1, half.columns))];
  sum[count + 1] = sum[1 + static_cast<size_t>(mirrored(half.columns, half.columns))];
  const size_t pairs = to.size() / 2;
  for (size_t x = 0; x < pairs; ++x) {
    to[2 * x] = kEighth * (sum[x] + 6 * sum[x + 1] + sum[x + 2]);
    to[2 * x + 1] = kHalf * (sum[x + 1] + sum[x + 2]);
  }
  if (to.size() % 2 != 0) to[2 * pairs] = kEighth * (sum[pairs] + 6 * sum[pairs + 1] + sum[pairs + 2]);
}

Plane doubled(const Plane& half, int columns, int rows) {
  Plane whole{columns, rows};
  tbb::parallel_for(0, rows, [&](int row) {
    doubled_row(half, row, {&whole.at[whole.index(0, row)], static_cast<size_t>(columns)});
  });
  return whole;
}

}  // namespace sightfall::walk
