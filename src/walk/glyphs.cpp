// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/glyphs.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <vector>

#include "base/check.h"

namespace sightfall::walk {
namespace {

using geom::Vec2;

/// A point of a stroke's middle line in millimetres, and how the line goes on from it: straight, or along an arc whose
/// sweep has this tangent of a quarter, positive when it turns clockwise as seen. Sweeps are at most half a turn.
struct Knot {
  Vec2 at;
  double bulge = 0;
};
using Stroke = std::vector<Knot>;

constexpr double kQuarter = 0.41421356237309503;   // tan(90 / 4 degrees)
constexpr double kHalfTurn = 1;                    // tan(180 / 4 degrees)
constexpr double kTerminal = 0.26794919243112270;  // tan(60 / 4 degrees): where an open bowl begins and ends
constexpr double kBowl = 0.63707026080749;         // tan(130 / 4 degrees): the bowl of a 5, half of it
constexpr double kBowlToDiagonal =
    0.15391481491483869;  // tan(35 / 4 degrees): where the bowl of a 2 becomes its diagonal

struct Letterform {
  char character;
  std::vector<Stroke> strokes;
};

// Middle lines run in a box of 33 x 69 mm; half a stroke all round makes it 44 x 80 mm. What is alike is drawn apart: B
// and D have a straight back with corners, G a square foot, 0 is a narrow ring, 8 has a waist, 5 a corner where S has a
// bowl, and 6 and 9 have straight tails.
const std::vector<Letterform> kLetterforms = {
    {'0',
     {{{{3, 13.5}, kQuarter},
       {{16.5, 0}, kQuarter},
       {{30, 13.5}},
       {{30, 55.5}, kQuarter},
       {{16.5, 69}, kQuarter},
       {{3, 55.5}},
       {{3, 13.5}}}}},
    {'1', {{{{6, 14}}, {{20, 0}}, {{20, 69}}}}},
    {'2',
     {{{{2.21, 8.25}, kTerminal},
       {{16.5, 0}, kQuarter},
       {{33, 16.5}, kBowlToDiagonal},
       {{30.02, 25.96}},
       {{0, 69}},
       {{33, 69}}}}},
    {'3',
     {{{{0.56, 8.625}, kTerminal},
       {{15.5, 0}, kQuarter},
       {{32.75, 17.25}, kQuarter},
       {{15.5, 34.5}, kQuarter},
       {{32.75, 51.75}, kQuarter},
       {{15.5, 69}, kTerminal},
       {{0.56, 60.375}}}}},
    {'4', {{{{24, 69}}, {{24, 0}}, {{0, 48}}, {{33, 48}}}}},
    {'5', {{{{30, 0}}, {{3.5, 0}}, {{1.97, 34.56}, kBowl}, {{34, 49.5}, kBowl}, {{1.97, 64.44}}}}},
    {'6', {{{{16.5, 34}, kHalfTurn}, {{16.5, 69}, kHalfTurn}, {{16.5, 34}}}, {{{24, 0}}, {{1.04, 43.29}}}}},
    {'7', {{{{0, 0}}, {{33, 0}}, {{5, 69}}}}},
    {'8',
     {{{{16.5, 0}, kHalfTurn}, {{16.5, 32.5}, kHalfTurn}, {{16.5, 0}}},
      {{{16.5, 32.5}, kHalfTurn}, {{16.5, 69}, kHalfTurn}, {{16.5, 32.5}}}}},
    {'9', {{{{16.5, 0}, kHalfTurn}, {{16.5, 35}, kHalfTurn}, {{16.5, 0}}}, {{{9, 69}}, {{31.96, 25.71}}}}},
    {'A', {{{{0, 69}}, {{16.5, 0}}, {{33, 69}}}, {{{5.26, 47}}, {{27.74, 47}}}}},
    {'B',
     {{{{0, 69}}, {{0, 0}}, {{15, 0}, kHalfTurn}, {{15, 32}}, {{0, 32}}},
      {{{14.5, 32}, kHalfTurn}, {{14.5, 69}}, {{0, 69}}}}},
    {'C',
     {{{{30.79, 8.25}, -kTerminal},
       {{16.5, 0}, -kQuarter},
       {{0, 16.5}},
       {{0, 52.5}, -kQuarter},
       {{16.5, 69}, -kTerminal},
       {{30.79, 60.75}}}}},
    {'D', {{{{0, 0}}, {{14, 0}, kQuarter}, {{33, 19}}, {{33, 50}, kQuarter}, {{14, 69}}, {{0, 69}}, {{0, 0}}}}},
    {'E', {{{{31, 0}}, {{0, 0}}, {{0, 69}}, {{31, 69}}}, {{{0, 33}}, {{26, 33}}}}},
    {'F', {{{{31, 0}}, {{0, 0}}, {{0, 69}}}, {{{0, 34}}, {{26, 34}}}}},
    {'G',
     {{{{30.79, 8.25}, -kTerminal},
       {{16.5, 0}, -kQuarter},
       {{0, 16.5}},
       {{0, 52.5}, -kQuarter},
       {{16.5, 69}},
       {{33, 69}},
       {{33, 39}},
       {{18, 39}}}}},
    {'H', {{{{0, 0}}, {{0, 69}}}, {{{33, 0}}, {{33, 69}}}, {{{0, 34.5}}, {{33, 34.5}}}}},
    {'J', {{{{29, 0}}, {{29, 54.5}, kQuarter}, {{14.5, 69}, kQuarter}, {{0, 54.5}}}}},
    {'K', {{{{0, 0}}, {{0, 69}}}, {{{33, 0}}, {{0, 42}}}, {{{11, 28}}, {{33, 69}}}}},
    {'L', {{{{0, 0}}, {{0, 69}}, {{31, 69}}}}},
    {'M', {{{{0, 69}}, {{0, 0}}, {{16.5, 42}}, {{33, 0}}, {{33, 69}}}}},
    {'N', {{{{0, 69}}, {{0, 0}}, {{33, 69}}, {{33, 0}}}}},
    {'P', {{{{0, 69}}, {{0, 0}}, {{14.5, 0}, kHalfTurn}, {{14.5, 37}}, {{0, 37}}}}},
    {'R', {{{{0, 69}}, {{0, 0}}, {{14.5, 0}, kHalfTurn}, {{14.5, 37}}, {{0, 37}}}, {{{14.5, 37}}, {{33, 69}}}}},
    {'S',
     {{{{31.44, 8.625}, -kTerminal},
       {{16.5, 0}, -kQuarter},
       {{-0.75, 17.25}, -kQuarter},
       {{16.5, 34.5}, kQuarter},
       {{33.75, 51.75}, kQuarter},
       {{16.5, 69}, kTerminal},
       {{1.56, 60.375}}}}},
    {'T', {{{{0, 0}}, {{33, 0}}}, {{{16.5, 0}}, {{16.5, 69}}}}},
    {'U', {{{{0, 0}}, {{0, 52.5}, -kQuarter}, {{16.5, 69}, -kQuarter}, {{33, 52.5}}, {{33, 0}}}}},
    {'V', {{{{0, 0}}, {{16.5, 69}}, {{33, 0}}}}},
    {'W', {{{{-1, 0}}, {{7, 69}}, {{16.5, 18}}, {{26, 69}}, {{34, 0}}}}},
    {'X', {{{{0, 0}}, {{33, 69}}}, {{{33, 0}}, {{0, 69}}}}},
    {'Y', {{{{0, 0}}, {{16.5, 36}}, {{33, 0}}}, {{{16.5, 36}}, {{16.5, 69}}}}},
    {'Z', {{{{0, 0}}, {{33, 0}}, {{0, 69}}, {{33, 69}}}}},
};

const std::vector<Stroke>* strokes_of(char character) {
  const auto found = std::find_if(kLetterforms.begin(), kLetterforms.end(),
                                  [&](const Letterform& form) { return form.character == character; });
  return found == kLetterforms.end() ? nullptr : &found->strokes;
}

double to_line(Vec2 p, Vec2 a, Vec2 b) {
  const Vec2 along = b - a;
  const double share = std::clamp(dot(p - a, along) / dot(along, along), 0.0, 1.0);
  return norm(p - (a + share * along));
}

double to_arc(Vec2 p, Vec2 a, Vec2 b, double bulge) {
  const Vec2 chord = b - a;
  const Vec2 centre = 0.5 * (a + b) + ((1 - bulge * bulge) / (4 * bulge)) * Vec2{-chord.y, chord.x};
  const Vec2 from = a - centre, upto = b - centre, q = p - centre;
  const double turn = bulge > 0 ? 1 : -1;
  if (turn * cross(from, q) >= 0 && turn * cross(q, upto) >= 0) return std::abs(norm(q) - norm(from));
  return std::min(norm(p - a), norm(p - b));
}

double to_stroke(Vec2 p, const Stroke& stroke) {
  double nearest = std::numeric_limits<double>::max();
  for (size_t i = 1; i < stroke.size(); ++i) {
    const Knot& from = stroke[i - 1];
    const Vec2 upto = stroke[i].at;
    nearest = std::min(nearest, from.bulge == 0 ? to_line(p, from.at, upto) : to_arc(p, from.at, upto, from.bulge));
  }
  return nearest;
}

}  // namespace

bool has_glyph(char character) { return strokes_of(character) != nullptr; }

double ink_distance(char character, Vec2 at) {
  constexpr double kMillimetres = 1000;
  const std::vector<Stroke>* strokes = strokes_of(character);
  CHECK_EQ(strokes != nullptr, true);
  const double half = kStroke.si() / 2;
  const Vec2 p = kMillimetres * (at - Vec2{half, half});
  double nearest = std::numeric_limits<double>::max();
  for (const Stroke& stroke : *strokes) nearest = std::min(nearest, to_stroke(p, stroke));
  return nearest / kMillimetres - half;
}

}  // namespace sightfall::walk
