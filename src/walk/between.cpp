// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/between.h"

#include <algorithm>
#include <cmath>

namespace sightfall::walk {
namespace {

constexpr int kLargest = 16, kSmallest = 4;
constexpr size_t kFewPoints = 5;  // points that cost no more by themselves than a cell does

constexpr unsigned spread_out(int value) {
  unsigned bits = static_cast<unsigned>(value) & 0xFFU;
  bits = (bits | (bits << 4U)) & 0x0F0FU;
  bits = (bits | (bits << 2U)) & 0x3333U;
  return (bits | (bits << 1U)) & 0x5555U;
}

constexpr unsigned place_of(int column, int row) { return spread_out(column) | (spread_out(row) << 1U); }

}  // namespace

void Between::spread(const Slow& slow, std::span<const Place> places, std::vector<float>& values) {
  slow_ = &slow;
  places_ = places;
  values.resize(static_cast<size_t>(slow.count) * places.size());
  values_ = values.data();
  here_.resize(static_cast<size_t>(slow.count));
  node_of_.fill(0);
  nodes_.clear();
  nodes_.reserve(node_of_.size() * static_cast<size_t>(slow.count));  // so that pointers into it stay
  size_t first = 0;
  constexpr unsigned kCell = kLargest * kLargest;
  while (first < places.size()) {
    const unsigned cell_begins = places[first] / kCell * kCell;
    const auto last = static_cast<size_t>(
        std::lower_bound(places.begin() + static_cast<ptrdiff_t>(first), places.end(), cell_begins + kCell) -
        places.begin());
    cell(column_of(static_cast<Place>(cell_begins)), row_of(static_cast<Place>(cell_begins)), kLargest, first, last);
    first = last;
  }
}

void Between::cell(int column, int row, int size, size_t first, size_t last) {
  if (first == last) return;
  if (last - first <= kFewPoints && !slow_->coarse) return one_by_one(first, last);
  std::array<const float*, 4> corners{};
  if (last - first > kFewPoints && holds(column, row, size, corners))
    return between(column, row, size, corners, first, last);
  if (size == kSmallest) return slow_->coarse ? share(first, last) : one_by_one(first, last);
  const int half = size / 2;
  for (int quarter = 0; quarter < 4; ++quarter) {
    const int x = column + (quarter & 1) * half, y = row + (quarter >> 1) * half;
    const unsigned ends = place_of(x, y) + static_cast<unsigned>(half * half);
    const auto upto = static_cast<size_t>(std::lower_bound(places_.begin() + static_cast<ptrdiff_t>(first),
                                                           places_.begin() + static_cast<ptrdiff_t>(last), ends) -
                                          places_.begin());
    cell(x, y, half, first, upto);
    first = upto;
  }
}

const float* Between::node(int column, int row) {
  int& index = node_of_.at(static_cast<size_t>(row / kStep) * kNodes + static_cast<size_t>(column / kStep));
  const auto count = static_cast<size_t>(slow_->count);
  if (index == 0) {
    index = -1;
    if (slow_->at(column, row, here_)) {
      nodes_.insert(nodes_.end(), here_.begin(), here_.end());
      index = static_cast<int>(nodes_.size() / count);
    }
  }
  return index < 0 ? nullptr : &nodes_[(static_cast<size_t>(index) - 1) * count];
}

bool Between::holds(int column, int row, int size, std::array<const float*, 4>& corners) {
  corners = {node(column, row), node(column + size, row), node(column, row + size), node(column + size, row + size)};
  const float *upper = node(column + size / 2, row), *left = node(column, row + size / 2);
  for (const float* one : {corners[0], corners[1], corners[2], corners[3], upper, left})
    if (one == nullptr) return false;
  for (int v = 0; v < slow_->count; ++v) {
    const std::array<float, 4> c{corners[0][v], corners[1][v], corners[2][v], corners[3][v]};
    const auto [least, most] = std::minmax_element(c.begin(), c.end());
    if (*least == 0 && *most > slow_->floor) return false;  // an edge, such as that of a beam, runs through it
    const auto far_off = [&](float guess, float is) {
      return std::abs(guess - is) > std::max(kTolerance * std::abs(is), slow_->floor);
    };
    if (far_off((c[0] + c[1]) / 2, upper[v]) || far_off((c[0] + c[2]) / 2, left[v])) return false;
  }
  return true;
}

void Between::between(int column, int row, int size, const std::array<const float*, 4>& corners, size_t first,
                      size_t last) {
  constexpr size_t kMost = kLargest * kLargest;
  std::array<float, kMost> right, down;
  const float scale = 1 / static_cast<float>(size);
  for (size_t i = first; i < last; ++i) {
    right[i - first] = scale * static_cast<float>(column_of(places_[i]) - column);
    down[i - first] = scale * static_cast<float>(row_of(places_[i]) - row);
  }
  for (int v = 0; v < slow_->count; ++v) {
    const float a = corners[0][v], b = corners[1][v] - a, c = corners[2][v] - a;
    const float d = corners[3][v] - corners[1][v] - c;
    float* out = values_ + static_cast<size_t>(v) * places_.size() + first;
    for (size_t i = 0; i < last - first; ++i) out[i] = a + b * right[i] + (c + d * right[i]) * down[i];
  }
}

void Between::one_by_one(size_t first, size_t last) {
  for (size_t i = first; i < last; ++i) {
    if (!slow_->at(column_of(places_[i]), row_of(places_[i]), here_)) std::fill(here_.begin(), here_.end(), 0.0F);
    for (size_t v = 0; v < here_.size(); ++v) values_[v * places_.size() + i] = here_[v];
  }
}

void Between::share(size_t first, size_t last) {
  one_by_one(first, first + 1);
  for (size_t v = 0; v < here_.size(); ++v)
    std::fill(values_ + v * places_.size() + first + 1, values_ + v * places_.size() + last, here_[v]);
}

}  // namespace sightfall::walk
