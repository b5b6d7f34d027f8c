// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/pattern.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "base/check.h"
#include "walk/glyphs.h"
#include "walk/smooth.h"
#include "walk/texture.h"

namespace sightfall::walk {
namespace {

using geom::Vec2;

constexpr double kGap = 0.011;  // m between characters: a stroke, from memory
constexpr double kPitch = kCharacterWidth.si() + kGap;

char drawn(std::string_view from, uint64_t number) {
  constexpr int kHigh = 32;  // the upper half of the bits, scaled to the alphabet: even to one part in 1e8
  return from[((number >> kHigh) * from.size()) >> kHigh];
}

/// From bright to dark within the blur of print, so that the edge is where the distance is nothing.
double inked(double distance) {
  constexpr double kPrintBlur = 0.0002;  // m either side
  return std::clamp(distance / kPrintBlur, -1.0, 1.0);
}

struct Ellipse {
  Vec2 centre, radii;  // m
};

/// How much of an ellipse with a soft rim of this width lies here, 0 to 1.
double cover(Vec2 p, const Ellipse& ellipse, double rim) {
  const double out = std::hypot((p.x - ellipse.centre.x) / ellipse.radii.x, (p.y - ellipse.centre.y) / ellipse.radii.y);
  return smooth((1 - out) * std::min(ellipse.radii.x, ellipse.radii.y) / rim + 0.5);
}

/// Paints one layer after another over what is there.
class Paint {
 public:
  Paint(Vec2 at, double value) : at_{at}, value_{value} {}
  void over(double value, double share) { value_ += share * (value - value_); }
  void over(double value, const Ellipse& ellipse, double rim) { over(value, cover(at_, ellipse, rim)); }
  double value() const { return value_; }

 private:
  Vec2 at_;
  double value_;
};

// The face, in metres right of its middle (either side alike) and below the rectangle's top. Values were tuned by eye
// and on a frontal face detector.

void paint_eye(Paint& face, Vec2 p) {
  constexpr Vec2 kEye{0.032, 0.085};
  const double bow = 0.0035 * std::pow((p.x - kEye.x) / 0.02, 2);
  const Vec2 bowed{p.x, p.y - bow};
  face.over(-0.25, {{kEye.x, kEye.y - 0.003}, {0.024, 0.013}}, 0.014);                          // socket
  face.over(-0.80, cover(bowed, {{kEye.x + 0.001, kEye.y - 0.0190}, {0.022, 0.0042}}, 0.003));  // brow
  face.over(-0.85, {{kEye.x, kEye.y - 0.0010}, {0.0165, 0.0078}}, 0.002);                       // lids and lashes
  face.over(0.80, {{kEye.x, kEye.y}, {0.0145, 0.0060}}, 0.0015);                                // white
  face.over(-0.90, {{kEye.x - 0.0005, kEye.y - 0.0005}, {0.0062, 0.0062}}, 0.001);              // iris
}

void paint_nose(Paint& face) {
  constexpr double kBase = 0.138;
  face.over(0.0, {{0.010, kBase - 0.012}, {0.010, 0.018}}, 0.010);       // flank
  face.over(0.60, {{0, kBase - 0.030}, {0.006, 0.034}}, 0.006);          // bridge
  face.over(-0.25, {{0, kBase + 0.002}, {0.020, 0.005}}, 0.006);         // shadow below
  face.over(-0.80, {{0.0075, kBase + 0.001}, {0.0042, 0.0026}}, 0.002);  // nostril
}

void paint_mouth(Paint& face, Vec2 p) {
  constexpr double kMouth = 0.165;
  const double smile = -0.002 * std::pow(p.x / 0.025, 2);
  face.over(-0.35, {{0, kMouth}, {0.025, 0.0085}}, 0.004);                             // lips
  face.over(-0.90, cover({p.x, p.y - smile}, {{0, kMouth}, {0.024, 0.0018}}, 0.002));  // between them
  face.over(-0.1, {{0, kMouth + 0.0145}, {0.013, 0.004}}, 0.005);                      // shadow below
}

bool within(const TargetPattern::Patch& patch, double u, double v) {
  return u >= patch.left && u < patch.left + patch.width && v >= patch.top && v < patch.top + patch.height;
}

}  // namespace

std::string random_plate(uint64_t seed) {
  constexpr uint64_t kStep = 16;  // numbers kept for each seed
  const uint64_t first = mixed(seed) * kStep;
  const int length = kLongestPlate - static_cast<int>(mixed(first) & 1U);
  std::string characters;
  for (int i = 0; i < length; ++i)
    characters += drawn(i % 2 == 0 ? kFigures : kLetters, mixed(first + 1 + static_cast<uint64_t>(i)));
  return characters;
}

PlatePattern::PlatePattern(std::string characters) : characters_{std::move(characters)} {
  CHECK_GT(characters_.size(), 0U);
  CHECK_LE(characters_.size(), static_cast<size_t>(kLongestPlate));
  CHECK_EQ(std::all_of(characters_.begin(), characters_.end(), has_glyph), true);
}

double PlatePattern::at(double u, double v) const {
  const Vec2 p{u * kPlateWidth.si(), v * kPlateHeight.si()};
  const double edge = std::min({p.x, kPlateWidth.si() - p.x, p.y, kPlateHeight.si() - p.y});
  const auto count = static_cast<double>(characters_.size());
  const Vec2 first{(kPlateWidth.si() - (count * kPitch - kGap)) / 2, (kPlateHeight - kCharacterHeight).si() / 2};
  const double index = std::clamp(std::floor((p.x - first.x + kGap / 2) / kPitch), 0.0, count - 1);
  const double ink =
      ink_distance(characters_[static_cast<size_t>(index)], {p.x - first.x - index * kPitch, p.y - first.y});
  return inked(std::min(ink, edge - kPlateBorder.si()));
}

double face_at(double u, double v) {
  const Vec2 p{std::abs(u - 0.5) * kFaceWidth.si(), v * kFaceHeight.si()};
  Paint face{p, 0.38 - 0.30 * std::pow(p.x / 0.07, 4)};
  face.over(0.48, {{0.036, 0.122}, {0.016, 0.014}}, 0.016);  // cheek
  paint_eye(face, p);
  paint_nose(face);
  paint_mouth(face, p);
  face.over(0, 1 - cover(p, {{0, 0.105}, {0.071, 0.103}}, 0.014));  // jaw, neck
  if (p.y < 0.12) {
    const double fringe = 1 - cover(p, {{0, 0.105}, {0.066, 0.072}}, 0.010);
    face.over(kHairTone, fringe * smooth((0.12 - p.y) / 0.02));
  }
  return face.value();
}

double bars_at(double across, double frequency) {
  const double cycle = across * frequency;
  return cycle - std::floor(cycle) < 0.5 ? 1 : -1;
}

double sine_bars_at(double across, double frequency) { return std::sin(2 * std::numbers::pi * across * frequency); }

TargetPattern::Patch TargetPattern::bars(int group) {
  constexpr double kPitchOfGroups = 0.19;
  return {0.04 + group * kPitchOfGroups, 0.56, 0.16, 0.36};
}

double TargetPattern::frequency(int group) {
  constexpr double kCoarsest = 25;  // cycles a metre: two cycles in a group 0.08 m wide
  return std::ldexp(kCoarsest, group);
}

double TargetPattern::at(double u, double v) const {
  if (within(kChecker, u, v)) {
    const auto cell = [](double from_edge, double size) { return static_cast<int>(from_edge / size * kCells); };
    const int sum = cell(u - kChecker.left, kChecker.width) + cell(v - kChecker.top, kChecker.height);
    return sum % 2 == 0 ? -1 : 1;
  }
  if (within(kEdge, u, v)) {
    const double right = u - kEdge.left - kEdge.width / 2, down = v - kEdge.top - kEdge.height / 2;
    return right * std::cos(kSlant.si()) + down * std::sin(kSlant.si()) < 0 ? -1 : 1;
  }
  for (int group = 0; group < kGroups; ++group)
    if (within(bars(group), u, v)) return bars_at((u - bars(group).left) * kSide.si(), frequency(group));
  return 0;
}

}  // namespace sightfall::walk
