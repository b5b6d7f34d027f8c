// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/texture.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

#include "geom/vec.h"

namespace sightfall::walk {
namespace {

using geom::Vec2;

double smooth(double t) {
  const double x = std::clamp(t, 0.0, 1.0);
  return x * x * (3 - 2 * x);
}

/// Values in [-1, 1) of the cells of a block of 2 x 2, which sum to nothing, so that the mean over an area is nothing
/// but for its rim: two pairs of opposites, paired by the block's hash and valued by it.
class Block {
 public:
  /// `column_hash` is that of the block's column, mixed(column).
  Block(uint64_t column_hash, int64_t row, uint64_t salt) {
    constexpr uint64_t kPairings = 3, kBits = 0xFFFFFF;  // 24 bits a value, apart from those that pair
    constexpr double kLargest = 0x1p23;
    const uint64_t hash = mixed(column_hash + static_cast<uint64_t>(row) + salt);
    partner_ = 1 + (hash >> 56U) % kPairings;
    const auto value = [](uint64_t bits) { return static_cast<double>(bits & kBits) / kLargest - 1; };
    values_ = {value(hash), value(hash >> 24U)};
  }
  /// Of the cell in that column and row of the grid.
  double at(int64_t column, int64_t row) const {
    const uint64_t corner = static_cast<uint64_t>(column & 1) + 2 * static_cast<uint64_t>(row & 1);
    const uint64_t other = corner ^ partner_, first = std::min(corner, other);
    const double value = values_[first == 0 ? 0 : 1];  // one pair holds corner 0
    return corner == first ? value : -value;
  }

 private:
  uint64_t partner_ = 1;
  std::array<double, 2> values_{};
};

uint64_t column_hash(int64_t column) { return mixed(static_cast<uint64_t>(column >> 1)); }

double cell_value(int64_t column, int64_t row, uint64_t salt) {
  return Block{column_hash(column), row >> 1, salt}.at(column, row);
}

/// Noise between cell values, smooth across cells of size 1. Cells of one block are told from one hash.
double noise(Vec2 at, uint64_t salt) {
  const double left = std::floor(at.x), low = std::floor(at.y);
  const auto column = static_cast<int64_t>(left), row = static_cast<int64_t>(low);
  const double right = smooth(at.x - left), up = smooth(at.y - low);
  const bool two_rows = (row & 1) != 0;
  const auto lerp = [](double a, double b, double share) { return a + share * (b - a); };
  const auto upwards = [&](int64_t in_column) {
    const uint64_t hash = column_hash(in_column);
    const Block block{hash, row >> 1, salt};
    const double upper =
        two_rows ? Block{hash, (row + 1) >> 1, salt}.at(in_column, row + 1) : block.at(in_column, row + 1);
    return lerp(block.at(in_column, row), upper, up);
  };
  if ((column & 1) != 0) return lerp(upwards(column), upwards(column + 1), right);
  const uint64_t hash = column_hash(column);
  const Block block{hash, row >> 1, salt};
  const Block above = two_rows ? Block{hash, (row + 1) >> 1, salt} : block;
  return lerp(lerp(block.at(column, row), above.at(column, row + 1), up),
              lerp(block.at(column + 1, row), above.at(column + 1, row + 1), up), right);
}

struct Octave {
  double grain = 1;      // m
  double amplitude = 0;  // of the factor
};

/// The axes that an octave's grid lies along: turned from octave to octave, so that no two grids show as one.
Vec2 axis_of(uint64_t salt) {
  constexpr double kTurn = 2.4;  // rad
  static const auto kAxes = [] {
    std::array<Vec2, 8> axes;
    for (size_t i = 0; i < axes.size(); ++i)
      axes[i] = {std::cos(kTurn * static_cast<double>(i)), std::sin(kTurn * static_cast<double>(i))};
    return axes;
  }();
  return kAxes.at(salt);
}

/// The sum of octaves, each fading to nothing while a pixel grows from a quarter of its grain to the whole.
double grain(Vec2 at, double footprint, std::span<const Octave> octaves) {
  constexpr double kFadeBegins = 0.25;
  double sum = 0;
  uint64_t salt = 0;
  for (const Octave& octave : octaves) {
    ++salt;
    if (footprint >= octave.grain) continue;
    const double fade = 1 - smooth((footprint / octave.grain - kFadeBegins) / (1 - kFadeBegins));
    const Vec2 along = axis_of(salt);
    sum += fade * octave.amplitude * noise((1 / octave.grain) * Vec2{dot(along, at), cross(along, at)}, salt << 32U);
  }
  return sum;
}

/// A train of pulses along a line, all in metres.
struct Pulses {
  double period = 1, from = 0, width = 0;
};

/// The share of a pixel that lies in pulses.
double share(const Pulses& pulses, double at, double footprint) {
  constexpr double kPoint = 1e-6;  // m: the width of what has none
  const double pixel = std::max(footprint, kPoint);
  const auto upto = [&](double x) {
    const double whole = std::floor((x - pulses.from) / pulses.period);
    return whole * pulses.width + std::min(x - pulses.from - whole * pulses.period, pulses.width);
  };
  return (upto(at + pixel / 2) - upto(at - pixel / 2)) / pixel;
}

/// Slabs or bricks in courses: every second course is shifted by half a period.
struct Courses {
  double length = 1, height = 1;  // m, with the joint
  double joint = 0;               // m
  double joint_level = 1;         // of the slab's own
  double spread = 0;              // of the slabs' tones, either way
  bool bond = false;              // whether courses are shifted
};

/// The share of a pixel that is slab, not joint: in each of the two kinds of course what lies in it and along it.
double slab_share(const Courses& courses, Vec2 at, double footprint) {
  double sum = 0;
  for (int odd = 0; odd < 2; ++odd) {
    const Pulses up{2 * courses.height, odd * courses.height + courses.joint, courses.height - courses.joint};
    const double shift = courses.bond && odd == 1 ? courses.length / 2 : 0;
    const Pulses along{courses.length, shift + courses.joint, courses.length - courses.joint};
    sum += share(up, at.y, footprint) * share(along, at.x, footprint);
  }
  return sum;
}

/// How much of a pixel's width around `at` lies in cell i of size 1.
double overlap(double at, double width, double cell) {
  return std::max(0.0, std::min(at + width / 2, cell + 1) - std::max(at - width / 2, cell)) / width;
}

/// The slabs' tones, averaged over a pixel of up to kCellsMost slabs, and faded to nothing there.
double tone(const Courses& courses, Vec2 at, double footprint) {
  constexpr double kPoint = 1e-6, kFadeBegins = 1.5, kCellsMost = 3;
  const Vec2 pixel{std::max(footprint / courses.length, kPoint), std::max(footprint / courses.height, kPoint)};
  const double fade = 1 - smooth((std::max(pixel.x, pixel.y) - kFadeBegins) / (kCellsMost - kFadeBegins));
  if (fade <= 0) return 0;
  const auto first = [](double middle, double width) { return static_cast<int64_t>(std::floor(middle - width / 2)); };
  const auto upto = [](double middle, double width) { return static_cast<int64_t>(std::ceil(middle + width / 2)); };
  const double y = at.y / courses.height;
  double sum = 0;
  for (int64_t row = first(y, pixel.y); row < upto(y, pixel.y); ++row) {
    const double x = at.x / courses.length - (courses.bond && (row & 1) != 0 ? 0.5 : 0);
    const double high = overlap(y, pixel.y, static_cast<double>(row));
    for (int64_t column = first(x, pixel.x); column < upto(x, pixel.x); ++column)
      sum += high * overlap(x, pixel.x, static_cast<double>(column)) * cell_value(column, row, 0);
  }
  return fade * courses.spread * sum;
}

double laid(const Courses& courses, Vec2 at, double footprint) {
  const double slabs = (1 - courses.joint / courses.length) * (1 - courses.joint / courses.height);
  const double mean = slabs + (1 - slabs) * courses.joint_level;
  const double here = slab_share(courses, at, footprint);
  return (here * (1 + tone(courses, at, footprint)) + (1 - here) * courses.joint_level) / mean;
}

}  // namespace

Texture texture_of(std::string_view material) {
  struct Entry {
    std::string_view material;
    Texture texture;
  };
  static constexpr std::array<Entry, 8> kTable{{{"asphalt", Texture::kAsphalt},
                                                {"concrete", Texture::kPaving},
                                                {"gravel", Texture::kGravel},
                                                {"dry soil", Texture::kGravel},
                                                {"grass", Texture::kGrass},
                                                {"foliage", Texture::kGrass},
                                                {"brick", Texture::kBrick},
                                                {"render", Texture::kPlaster}}};
  const auto* found =
      std::find_if(kTable.begin(), kTable.end(), [&](const Entry& entry) { return entry.material == material; });
  return found == kTable.end() ? Texture::kPlain : found->texture;
}

double texture_at(Texture texture, double x, double y, double footprint) {
  switch (texture) {
    case Texture::kPlain:
      break;
    case Texture::kPaving:
      return paving(x, y, footprint);
    case Texture::kBrick:
      return brick(x, y, footprint);
    case Texture::kGrass:
      return grass(x, y, footprint);
    case Texture::kGravel:
      return gravel(x, y, footprint);
    case Texture::kPlaster:
      return plaster(x, y, footprint);
    case Texture::kAsphalt:
      return asphalt(x, y, footprint);
  }
  return 1;
}

double paving(double x, double y, double footprint) {
  static constexpr Courses kSlabs{0.408, 0.408, 0.008, 0.45, 0.10, false};
  static constexpr std::array<Octave, 2> kGrains{{{0.006, 0.06}, {0.05, 0.05}}};
  return laid(kSlabs, {x, y}, footprint) + grain({x, y}, footprint, kGrains);
}

double brick(double along, double up, double footprint) {
  static constexpr Courses kBricks{0.225, 0.075, 0.010, 1.35, 0.18, true};
  static constexpr std::array<Octave, 2> kGrains{{{0.004, 0.06}, {0.02, 0.06}}};
  return laid(kBricks, {along, up}, footprint) + grain({along, up}, footprint, kGrains);
}

double grass(double x, double y, double footprint) {
  static constexpr std::array<Octave, 4> kGrains{{{0.008, 0.22}, {0.035, 0.22}, {0.2, 0.13}, {1.1, 0.10}}};
  return 1 + grain({x, y}, footprint, kGrains);
}

double gravel(double x, double y, double footprint) {
  static constexpr std::array<Octave, 3> kGrains{{{0.012, 0.30}, {0.027, 0.30}, {0.25, 0.07}}};
  return 1 + grain({x, y}, footprint, kGrains);
}

double plaster(double along, double up, double footprint) {
  static constexpr std::array<Octave, 4> kGrains{{{0.003, 0.06}, {0.011, 0.05}, {0.3, 0.03}, {1.3, 0.03}}};
  return 1 + grain({along, up}, footprint, kGrains);
}

double asphalt(double x, double y, double footprint) {
  static constexpr std::array<Octave, 4> kGrains{{{0.004, 0.20}, {0.010, 0.22}, {0.3, 0.05}, {1.7, 0.06}}};
  return 1 + grain({x, y}, footprint, kGrains);
}

uint64_t mixed(uint64_t number) {
  uint64_t z = number + 0x9E3779B97F4A7C15U;
  z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
  z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
  return z ^ (z >> 31U);
}

}  // namespace sightfall::walk
