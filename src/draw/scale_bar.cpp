// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/scale_bar.h"

#include <fmt/format.h>

#include <cmath>

namespace sightfall::draw {

void draw_north(Canvas& canvas, PagePoint middle, Angle turn) {
  constexpr double kLength = 42;
  const PagePoint north{std::sin(turn.si()), -std::cos(turn.si())}, east{-north.y, north.x};
  const PagePoint tip = middle + kLength * north, tail = middle - kLength * north;
  canvas.stroke(line_shape({tail, tip}), {.width = 1.6});
  canvas.fill(ring_shape({tip, tip - 26.0 * north + 8.0 * east, tip - 19.0 * north}), kInk);
  canvas.stroke(ring_shape({tip, tip - 26.0 * north - 8.0 * east, tip - 19.0 * north}), {.width = 1.2});
  canvas.stroke(line_shape({middle - 12.0 * east, middle + 12.0 * east}), {.width = 1.6});
  if (turn == Angle{0}) return canvas.letter("N", {.size = 18, .bold = true}, tip + 14.0 * north);
  // Nobody is to take headings off the wrong one.
  const PagePoint up{0, -1};
  const PagePoint aside{turn.si() > 0 ? 32.0 : -32.0, 0};  // so that the two words keep clear of each other
  canvas.letter("true N", {.size = 15, .bold = true}, tip + 12.0 * north + aside);
  canvas.stroke(line_shape({middle, middle + kLength * up}), {.width = 1, .dashes = {5, 4}});
  canvas.letter("plan's N", {.size = 15}, middle + 1.2 * kLength * up - aside);
}

void draw_scale_bar(Canvas& canvas, const PlanFrame& frame, PagePoint left, Length unit, const std::string& name) {
  constexpr double kLongest = 225, kHeight = 7;
  constexpr int kParts = 4;
  const double length = round_down_125(kLongest / (frame.per_metre * unit.si()));
  const double part = frame.per_metre * unit.si() * length / kParts;
  for (int i = 0; i < kParts; ++i) {
    const Shape box = rectangle(left + PagePoint{i * part, 0}, left + PagePoint{(i + 1) * part, kHeight});
    if (i % 2 == 0) canvas.fill(box, kInk);
    canvas.stroke(box, {.width = 1});
  }
  for (const int i : {0, 2, 4})
    canvas.letter(fmt::format("{:g}{}", length * i / kParts, i == 4 ? " " + name : ""), {.size = 14},
                  left + PagePoint{i * part, -12});
}

}  // namespace sightfall::draw
