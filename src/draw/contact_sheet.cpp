// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/contact_sheet.h"

#include <algorithm>
#include <cmath>

#include "draw/files.h"

namespace sightfall::draw {
namespace {

constexpr double kSheetMargin = 28, kGap = 20, kHead = 112, kFigures = 300;
constexpr double kLine = 21, kTitle = 22, kBody = 14;

Photograph photograph(const walk::Picture& picture) { return {picture.columns, picture.rows, picture.rgb.data()}; }

double height_of(const ContactRow& row) {
  const double lines = kLine * static_cast<double>(row.figures.size());
  return std::max({static_cast<double>(row.small.rows), static_cast<double>(row.piece.rows), lines}) + kGap;
}

void draw_row(Canvas& canvas, const ContactRow& row, double top) {
  canvas.photograph(photograph(row.small), {kSheetMargin, top}, 1);
  const double piece = kSheetMargin + kSmallColumns + kGap;
  if (row.piece.columns > 0) canvas.photograph(photograph(row.piece), {piece, top}, 1);
  double y = top;
  for (const std::string& line : row.figures) {
    canvas.letter_from(line, {.size = kBody, .bold = y == top, .wrap = kFigures}, {piece + kPieceColumns + kGap, y});
    y += kLine;
  }
}

}  // namespace

Result<std::string> contact_sheet(const std::string& title, const std::string& under_it,
                                  const std::vector<ContactRow>& rows) {
  double height = kHead + kSheetMargin;
  for (const ContactRow& row : rows) height += height_of(row);
  const double width = 2 * kSheetMargin + kSmallColumns + kPieceColumns + 2 * kGap + kFigures;
  return drawn_png({static_cast<int>(width), static_cast<int>(std::ceil(height))}, [&](Canvas& canvas) {
    canvas.letter_from(title, {.size = kTitle, .bold = true}, {kSheetMargin, kSheetMargin});
    canvas.letter_from(under_it, {.size = kBody, .colour = kSoftInk, .wrap = width - 2 * kSheetMargin},
                       {kSheetMargin, kSheetMargin + kTitle + 10});
    double top = kHead;
    for (const ContactRow& row : rows) {
      draw_row(canvas, row, top);
      top += height_of(row);
    }
  });
}

walk::Picture smaller(const walk::Picture& picture, int columns) {
  if (picture.columns <= columns) return picture;
  const double scale = static_cast<double>(picture.columns) / columns;
  walk::Picture small{columns, std::max(1, static_cast<int>(std::lround(picture.rows / scale))), {}};
  small.rgb.reserve(3 * static_cast<size_t>(small.columns) * static_cast<size_t>(small.rows));
  const auto edge = [&](int i, int most) { return std::min(static_cast<int>(std::lround(i * scale)), most); };
  for (int row = 0; row < small.rows; ++row)
    for (int column = 0; column < small.columns; ++column)
      for (int channel = 0; channel < 3; ++channel) {
        int sum = 0, count = 0;
        for (int y = edge(row, picture.rows - 1);
             y < std::max(edge(row + 1, picture.rows), edge(row, picture.rows - 1) + 1); ++y)
          for (int x = edge(column, picture.columns - 1); x < edge(column + 1, picture.columns); ++x, ++count)
            sum +=
                picture
                    .rgb[3 * (static_cast<size_t>(y) * static_cast<size_t>(picture.columns) + static_cast<size_t>(x)) +
                         static_cast<size_t>(channel)];
        small.rgb.push_back(static_cast<uint8_t>(count > 0 ? (sum + count / 2) / count : 0));
      }
  return small;
}

}  // namespace sightfall::draw
