// SPDX-License-Identifier: GPL-3.0-or-later
#include "samples.h"

#include <fmt/format.h>

#include "base/check.h"
#include "draw/files.h"

namespace sightfall::reading {
namespace {

constexpr double kSide = 20, kTop = 56, kNames = 120, kGap = 8, kWords = 20;
constexpr uint64_t kSeed = 12;

struct Sheet {
  std::vector<std::vector<Grey>> rows;
  double wide = 0, high = 0;  // of one picture
};

Sheet shown(std::span<const Series> all, const Show& show) {
  Sheet sheet;
  for (const Series& series : all) {
    sheet.rows.emplace_back();
    for (const Level& level : series.cause.levels) sheet.rows.back().push_back(show(level, kSeed));
  }
  sheet.wide = sheet.rows[0][0].columns;
  sheet.high = sheet.rows[0][0].rows;
  return sheet;
}

void draw_sample(const draw::Canvas& canvas, const Grey& grey, const std::string& words, draw::PagePoint at) {
  std::vector<uint8_t> rgb;
  for (const uint8_t level : grey.at) rgb.insert(rgb.end(), 3, level);
  canvas.photograph({grey.columns, grey.rows, rgb.data()}, at, 1);
  canvas.letter_from(words, {10.5, false, draw::kSoftInk}, {at.x, at.y + grey.rows + 2});
}

}  // namespace

std::string samples_of(const std::string& heading, std::span<const Series> all, size_t reader, const Show& show) {
  const Sheet sheet = shown(all, show);
  const double step = sheet.wide + kGap, line = sheet.high + kWords;
  const auto levels = static_cast<double>(sheet.rows[0].size()), causes = static_cast<double>(sheet.rows.size());
  const draw::PageSize size{static_cast<int>(2 * kSide + kNames + levels * step),
                            static_cast<int>(kTop + causes * line + kSide)};
  const Result<std::string> png = draw::drawn_png(size, [&](draw::Canvas& canvas) {
    canvas.fill(draw::rectangle({0, 0}, {static_cast<double>(size.width), static_cast<double>(size.height)}),
                draw::kPaper);
    canvas.letter_from(heading, {17, true}, {kSide, 16});
    for (size_t row = 0; row < sheet.rows.size(); ++row) {
      const double y = kTop + static_cast<double>(row) * line;
      const Cause& cause = all[row].cause;
      canvas.letter_from(cause.name, {13, true}, {kSide, y});
      for (size_t column = 0; column < sheet.rows[row].size(); ++column) {
        const double hits = all[row].score[reader][column].whole().share();
        draw_sample(canvas, sheet.rows[row][column],
                    fmt::format("{:.4g} {}: {:.0f} %", cause.levels[column].value, cause.unit, 100 * hits),
                    {kSide + kNames + static_cast<double>(column) * step, y});
      }
    }
  });
  CHECK_EQ(png.has_value(), true);
  return *png;
}

}  // namespace sightfall::reading
