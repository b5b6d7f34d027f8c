// SPDX-License-Identifier: GPL-3.0-or-later
#include "faces.h"

#include <algorithm>
#include <cmath>

#include "face_finder.h"
#include "walk/pattern.h"
#include "walk/texture.h"

namespace sightfall::reading {
namespace {

constexpr Length kWide{0.5}, kHigh{0.5};           // of the scene
constexpr double kMiddle = 0.25, kFaceTop = 0.12;  // m: of the face, and from the scene's top to it

/// A number in [-1, 1] that a seed decides.
double drawn(uint64_t seed, uint64_t which) {
  constexpr double kScale = 1.0 / 4503599627370496.0;  // 2^-52
  return static_cast<double>(walk::mixed(8 * seed + which) >> 11) * kScale - 1;
}

/// The head and what is about it, in metres right of the face's middle and below its top.
double head_at(double x, double y) {
  constexpr double kHair = -0.85, kSkin = 0, kCloth = -0.55, kBehind = -0.3;
  const double half = walk::kFaceWidth.si() / 2, height = walk::kFaceHeight.si();
  if (std::abs(x) < half && y >= 0 && y < height) {
    const double value = walk::face_at(x / (2 * half) + 0.5, y / height);
    const bool jaw = std::hypot(x / 0.073, (y - 0.105) / 0.107) > 1 && y > 0.105;  // beside the jaw there is no face
    if (!jaw) return value;
  }
  if (std::hypot(x / 0.088, (y - 0.085) / 0.110) < 1) return kHair;
  if (y > 0.255) return std::abs(x) < 0.06 + 1.6 * (y - 0.255) ? kCloth : kBehind;
  if (std::abs(x) < 0.055 && y > 0.15) return kSkin;
  return kBehind;
}

bool is_face(const Piece& found, const Piece& truth) {
  const double across = found.left + found.width / 2 - truth.left - truth.width / 2;
  const double down = found.top + found.height / 2 - truth.top - truth.height / 2;
  constexpr double kNear = 0.35, kLarger = 1.7;  // of the face's width
  return std::hypot(across, down) < kNear * truth.width && found.width < kLarger * truth.width &&
         found.width > truth.width / kLarger;
}

Photograph photographed(const Level& level, uint64_t seed) {
  constexpr double kTilt = 0.14, kWider = 0.08, kSided = 0.15, kCentre = 0.115;
  const double tilt = kTilt * drawn(seed, 0), wider = 1 + kWider * drawn(seed, 1), sided = kSided * drawn(seed, 2);
  const double across = std::cos(tilt), down = std::sin(tilt);
  const Flat scene{kWide, kHigh, [&](double u, double v) {
                     const double x = u * kWide.si() - kMiddle, y = v * kHigh.si() - kFaceTop - kCentre;
                     const double value = head_at((x * across + y * down) / wider, y * across - x * down + kCentre);
                     return std::clamp(value + sided * x / kMiddle, -1.0, 1.0);
                   }};
  constexpr Length kAround{0.05};
  return photograph(level.setting, scene, kAround, seed, level.finish);
}

/// The whole photograph at `metre` points a metre.
Grey at_scale(const Photograph& p, double metre) {
  const double scale = metre / p.density;
  return resized(p, {0, 0, static_cast<double>(p.columns), static_cast<double>(p.rows)},
                 static_cast<int>(p.columns * scale), static_cast<int>(p.rows * scale));
}

}  // namespace

Look find_face(const Level& level, uint64_t seed) {
  thread_local FaceFinder finder;
  const Photograph picture = photographed(level, seed);
  constexpr double kMetre = 400;  // points: a face is enlarged or made smaller to 64, by one rule for every cause
  Grey seen = at_scale(picture, kMetre);
  constexpr double kLost = 0.02;
  stretch(seen, kLost);
  constexpr double kSquare = 0.16, kBelowTop = 0.035;  // m: what the cascade calls a face, and where it begins
  const auto at = [&](double first, double metres) { return first / picture.density * kMetre + metres * kMetre; };
  const Piece truth{at(picture.left, kMiddle - kSquare / 2), at(picture.top, kFaceTop + kBelowTop), kSquare * kMetre,
                    kSquare * kMetre};
  Look look{{0}, 0};
  for (const Piece& found : finder.find(seen)) {
    if (is_face(found, truth))
      look.right[0] = 1;
    else
      ++look.false_alarms;
  }
  return look;
}

Grey shown_face(const Level& level, uint64_t seed) {
  const Photograph p = photographed(level, seed);
  constexpr int kShown = 110;  // points
  return resized(p, {p.left, p.top, kWide.si() * p.density, kHigh.si() * p.density}, kShown, kShown);
}

}  // namespace sightfall::reading
