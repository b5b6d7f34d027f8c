// SPDX-License-Identifier: GPL-3.0-or-later
#include "plate_matcher.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "walk/pattern.h"

namespace sightfall::reading {
namespace {

/// Of mean 0 and length 1; all 0 when it is even.
std::vector<double> standardised(std::vector<double> values) {
  const double mean = std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
  double squares = 0;
  for (double& value : values) {
    value -= mean;
    squares += value * value;
  }
  if (squares > 0)
    for (double& value : values) value /= std::sqrt(squares);
  return values;
}

std::vector<double> cell_of(const Cells& cells, int place) {
  std::vector<double> values;
  for (int row = 0; row < cells.picture.rows; ++row) {
    const uint8_t* first = cells.picture.row(row) + place * cells.columns;
    values.insert(values.end(), first, first + cells.columns);
  }
  return standardised(std::move(values));
}

}  // namespace

PlateMatcher::PlateMatcher() {
  const Photograph empty{1, 1, {0}, 0, 0, 1};
  const Cells one = cells_of(empty, 1);  // for its size
  constexpr double kSoft = 0.004;        // m from ink to paper, about the blur at which distance ends reading
  for (const std::string_view set : {walk::kFigures, walk::kLetters})
    for (const char character : set) {
      std::vector<double> drawing;
      for (int row = 0; row < one.picture.rows; ++row)
        for (int column = 0; column < one.columns; ++column)
          drawing.push_back(std::clamp(walk::ink_distance(character, in_box(column, row)) / kSoft, -1.0, 1.0));
      drawings_[character] = standardised(std::move(drawing));
    }
}

std::string PlateMatcher::read(const Cells& cells) const {
  std::string all;
  for (int place = 0; place < cells.count; ++place) {
    const std::vector<double> cell = cell_of(cells, place);
    const auto likeness = [&](char character) {
      const std::vector<double>& drawing = drawings_.at(character);
      return std::inner_product(cell.begin(), cell.end(), drawing.begin(), 0.0);
    };
    const std::string_view set = characters_at(place);
    all += *std::max_element(set.begin(), set.end(), [&](char a, char b) { return likeness(a) < likeness(b); });
  }
  return all;
}

}  // namespace sightfall::reading
