// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/card_picture.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/check.h"
#include "camera/stream_in_force.h"
#include "draw/files.h"

namespace sightfall::draw {
namespace {

using namespace units;
using card::Mark;
using card::Seeing;

constexpr PageSize kPage{kPictureWidth, 1040};
constexpr PagePoint kLow{104, 176}, kHigh{1340, 900};  // the frame's corners
constexpr PixelDensity kLeast{5}, kMost{2000};
constexpr PixelDensity kNothing{1e-3};  // stands in for zero, far below the frame
constexpr Pen kDayPen{.colour = kAccent, .width = 3};
const Pen kNightPen{.colour = kInk, .width = 3, .dashes = {16, 7}};
const Pen kPixelsPen{.colour = kSoftInk, .width = 1.3, .dashes = {0, 5}};

double share(double value, double from, double to) { return std::log(value / from) / std::log(to / from); }

void rule(Canvas& canvas, PagePoint from, PagePoint to, const Pen& pen) { canvas.stroke(line_shape({from, to}), pen); }

/// Metres below and feet above.
void draw_distances(Canvas& canvas) {
  constexpr double kTick = 7;
  for (const double metres : {1., 2., 3., 5., 7., 10., 15., 20., 30., 50., 70., 100., 150., 200.}) {
    const double x = chart_point(Length{metres}, kLeast).x;
    rule(canvas, {x, kLow.y}, {x, kHigh.y}, {.colour = kFaintInk, .width = 0.5});
    rule(canvas, {x, kHigh.y}, {x, kHigh.y + kTick}, {.width = 1});
    canvas.letter(fmt::format("{:g}", metres), {.size = 15}, {x, kHigh.y + 19});
  }
  for (const double feet : {4., 5., 7., 10., 15., 20., 30., 50., 70., 100., 150., 200., 300., 500.}) {
    const double x = chart_point(feet * ft, kLeast).x;
    rule(canvas, {x, kLow.y - kTick}, {x, kLow.y}, {.width = 1});
    canvas.letter(fmt::format("{:g}", feet), {.size = 15}, {x, kLow.y - 18});
  }
  canvas.letter("distance, m", {.size = 15, .bold = true}, {(kLow.x + kHigh.x) / 2, kHigh.y + 44});
  canvas.letter("distance, ft", {.size = 15, .bold = true}, {(kLow.x + kHigh.x) / 2, kLow.y - 42});
}

void draw_densities(Canvas& canvas) {
  for (const double density : {5., 10., 20., 50., 100., 200., 500., 1000., 2000.}) {
    const double y = chart_point(card::kCurveNear, PixelDensity{density}).y;
    rule(canvas, {kLow.x - 7, y}, {kLow.x, y}, {.width = 1});
    canvas.letter(fmt::format("{:g}", density), {.size = 15}, {kLow.x - 31, y});
  }
  canvas.letter("detail of a face, px/m", {.size = 15, .bold = true}, {28, (kLow.y + kHigh.y) / 2}, -M_PI / 2);
}

void draw_levels(Canvas& canvas, const detail::LevelTable& table) {
  for (const detail::Level& level : table.levels) {
    if (level.least < kLeast || level.least > kMost) continue;
    const double y = chart_point(card::kCurveNear, level.least).y;
    rule(canvas, {kLow.x, y}, {kHigh.x + 8, y}, {.colour = kSoftInk, .width = 1.1});
    const std::string text = fmt::format("{:g}  {}", level.least.si(), level.name);
    canvas.letter_from(text, {.size = 15}, {kHigh.x + 14, y - measured(text, {.size = 15}).height / 2});
  }
}

using Pick = PixelDensity Ranged<PixelDensity>::*;

std::vector<PagePoint> line_of(const std::vector<Mark>& curve, Seeing Mark::*light, Pick pick) {
  std::vector<PagePoint> line;
  line.reserve(curve.size());
  for (const Mark& mark : curve)
    line.push_back(chart_point(mark.distance, std::max((mark.*light).delivered.*pick, kNothing)));
  return line;
}

void draw_light(Canvas& canvas, const std::vector<Mark>& curve, Seeing Mark::*light, const Pen& pen) {
  std::vector<PagePoint> band = line_of(curve, light, &Ranged<PixelDensity>::low);
  const std::vector<PagePoint> high = line_of(curve, light, &Ranged<PixelDensity>::high);
  band.insert(band.end(), high.rbegin(), high.rend());
  canvas.fill(ring_shape(band), with_opacity(pen.colour, 0.17));
  canvas.stroke(line_shape(line_of(curve, light, &Ranged<PixelDensity>::nominal)), pen);
}

void draw_clipping(Canvas& canvas, const std::optional<Length>& distance, const std::string& text) {
  if (!distance || *distance <= card::kCurveNear || *distance >= card::kCurveFar) return;
  const double x = chart_point(*distance, kLeast).x;
  const Lettering lettering{.size = 15, .colour = kInk, .halo = true};
  const double length = measured(text, lettering).width;
  rule(canvas, {x, kLow.y}, {x, kHigh.y}, {.width = 1.6, .dashes = {3, 5}});
  canvas.letter(text, lettering, {x - 12, kHigh.y - 14 - length / 2}, -M_PI / 2);
}

std::vector<std::string> clipping_words(const card::Clipping& clipping) {
  std::vector<std::string> words;
  for (const auto& [distance, power] :
       {std::pair{clipping.fixed, "full power"}, std::pair{clipping.adaptive, "adaptive power"}})
    words.push_back(distance ? fmt::format("burns out nearer than {:.1f} m, {}", distance->in(m), power) : "");
  return words;
}

const std::array<std::string, 3> kKeyNames{"day, ample light", "night, black sky", "pixels alone, nothing lost"};

void draw_key(Canvas& canvas) {
  constexpr double kLeft = 1030, kRow = 28, kSign = 60;
  const std::array<Pen, 3> pens{kDayPen, kNightPen, kPixelsPen};
  canvas.fill(rectangle({kLeft - 16, kLow.y + 12}, {kHigh.x - 12, kLow.y + 32 + 3 * kRow}), kPaper);
  for (size_t i = 0; i < pens.size(); ++i) {
    const PagePoint left{kLeft, kLow.y + 36 + kRow * static_cast<double>(i)};
    if (i < 2)
      canvas.fill(rectangle(left - PagePoint{0, 9}, left + PagePoint{kSign, 9}), with_opacity(pens[i].colour, 0.17));
    rule(canvas, left, left + PagePoint{kSign, 0}, pens[i]);
    canvas.letter_from(kKeyNames[i], {.size = 15},
                       left + PagePoint{kSign + 12, -measured(kKeyNames[i], {.size = 15}).height / 2});
  }
}

std::string subtitle(const CardPicture& picture) {
  const card::RangeCard& card = *picture.card;
  const std::string focus = std::isinf(card.focus.si()) ? "infinity" : fmt::format("{:.3g} m", card.focus.in(m));
  const std::string mount =
      picture.request->height
          ? fmt::format("mounted at {:.3g} m, tilted {:.1f} degrees {}", picture.request->height->in(m),
                        std::abs(card.tilt.in(deg)), card.tilt < Angle{0} ? "up" : "down")
          : std::string("on the axis");
  return fmt::format("{:g} mm at f/{:.2g}, focused at {}, {}", card.focal.in(mm), card.f_number, focus, mount);
}

std::string caption(const CardPicture& picture) {
  return fmt::format(
      "A face walking at the camera over open ground, clear air, {}. Bands: 90 % ranges. Night: black "
      "sky, {}, {}. Levels: {}.",
      camera::compression_in_words(picture.request->sheet),
      picture.card->infrared ? "the camera's own infrared" : "no infrared",
      picture.card->monochrome ? "monochrome" : "colour", picture.request->tables.front().source);
}

void draw(Canvas& canvas, const CardPicture& picture) {
  const std::vector<std::string> clipping = clipping_words(picture.card->clipping);
  canvas.letter_from(picture.card->camera, {.size = 25, .bold = true}, {kLow.x, 36});
  canvas.letter_from(subtitle(picture), {.size = 16, .colour = kSoftInk}, {kLow.x, 72});
  draw_distances(canvas);
  draw_densities(canvas);
  draw_levels(canvas, picture.request->tables.front());
  canvas.within(rectangle(kLow, kHigh), [&] {
    std::vector<PagePoint> pixels;
    for (const Mark& mark : *picture.curve)
      pixels.push_back(chart_point(mark.distance, std::max(mark.density, kNothing)));
    canvas.stroke(line_shape(pixels), kPixelsPen);
    draw_light(canvas, *picture.curve, &Mark::day, kDayPen);
    draw_light(canvas, *picture.curve, &Mark::night, kNightPen);
    draw_clipping(canvas, picture.card->clipping.fixed, clipping[0]);
    draw_clipping(canvas, picture.card->clipping.adaptive, clipping[1]);
  });
  draw_key(canvas);
  canvas.stroke(rectangle(kLow, kHigh), {.width = 1});
  canvas.letter_from(caption(picture), {.size = 14.5, .wrap = kPictureWidth - 2 * kLow.x}, {kLow.x, kHigh.y + 70});
}

/// Everything written on the picture, for those who cannot see it.
std::string description(const CardPicture& picture) {
  std::string text = subtitle(picture) + "\n" + caption(picture);
  for (const std::string& name : kKeyNames) text += "\n" + name;
  for (const std::string& words : clipping_words(picture.card->clipping))
    if (!words.empty()) text += "\n" + words;
  for (const detail::Level& level : picture.request->tables.front().levels)
    text += fmt::format("\n{:g} px/m: {}", level.least.si(), level.name);
  return text;
}

}  // namespace

PagePoint chart_point(Length distance, PixelDensity density) {
  return {kLow.x + (kHigh.x - kLow.x) * share(distance.si(), card::kCurveNear.si(), card::kCurveFar.si()),
          kHigh.y - (kHigh.y - kLow.y) * share(density.si(), kLeast.si(), kMost.si())};
}

Result<PlanPictures> draw_card(const CardPicture& picture) {
  CHECK_GT(picture.curve->size(), size_t{1});
  const Drawing drawing = [&](Canvas& canvas) { draw(canvas, picture); };
  Result<std::string> svg = drawn_svg(kPage, picture.card->camera, description(picture), drawing);
  if (!svg) return tl::make_unexpected(svg.error());
  Result<std::string> png = drawn_png(kPage, drawing);
  if (!png) return tl::make_unexpected(png.error());
  return PlanPictures{std::move(*svg), std::move(*png)};
}

}  // namespace sightfall::draw
