// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/texture.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

#include "geom/vec.h"
#include "walk/smooth.h"

namespace sightfall::walk {
namespace {

using geom::Vec2;

struct Octave {
  float grain = 1;      // m
  float amplitude = 0;  // of the factor
};

// What many points ask for at once is made of vectors; the copies for processors with wider ones give the same bits
// (CMakeLists.txt). Sanitizers start too late for the pick between them.
#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__) && !defined(__SANITIZE_ADDRESS__)
#define SIGHTFALL_WIDE_VECTORS __attribute__((target_clones("avx512f", "avx2", "default")))
#else
#define SIGHTFALL_WIDE_VECTORS
#endif

/// A value in [-1, 1] of a cell of a grid, by the hash of its block of 2 x 2 cells, whose four sum to nothing (two
/// pairs of opposites, paired and valued by the hash), so that the mean over an area is nothing but for its rim.
inline float cell_value(uint32_t block_hash, int32_t column, int32_t row) {
  constexpr uint32_t kPairings = 3, kBits = 0xFFF;  // 8 bits pair; 12 bits a value
  constexpr float kHalf = 2048;
  const auto corner = static_cast<uint32_t>(column & 1) + 2 * static_cast<uint32_t>(row & 1);
  const uint32_t other = corner ^ (1 + ((block_hash >> 24U) * kPairings >> 8U));
  const uint32_t first = corner < other ? corner : other;
  const uint32_t bits = (first == 0 ? block_hash : block_hash >> 12U) & kBits;  // one pair holds corner 0
  const float value = (static_cast<float>(static_cast<int32_t>(bits)) + 0.5F) / kHalf - 1;
  return corner == first ? value : -value;
}

inline uint32_t row_hash(int32_t row, uint32_t salt) { return mixed32(static_cast<uint32_t>(row >> 1) + salt); }
inline uint32_t block_hash(int32_t column, uint32_t of_row) {
  return mixed32(static_cast<uint32_t>(column >> 1) * 0x9E3779B1U + of_row);
}

inline float lerp(float a, float b, float share) { return a + share * (b - a); }

/// Noise between cell values, smooth across cells of size 1.
inline float noise(float x, float y, uint32_t salt) {
  const float left = std::floor(x), low = std::floor(y);
  const auto column = static_cast<int32_t>(left), row = static_cast<int32_t>(low);
  const float right = smooth(x - left), up = smooth(y - low);
  const uint32_t lower = row_hash(row, salt), upper = row_hash(row + 1, salt);
  return lerp(lerp(cell_value(block_hash(column, lower), column, row),
                   cell_value(block_hash(column + 1, lower), column + 1, row), right),
              lerp(cell_value(block_hash(column, upper), column, row + 1),
                   cell_value(block_hash(column + 1, upper), column + 1, row + 1), right),
              up);
}

/// The axes that an octave's grid lies along, and what tells it from the others.
struct Grid {
  float cosine = 1, sine = 0;
  uint32_t salt = 0;
};

/// Adds an octave, which fades to nothing while a pixel grows from a quarter of its grain to the whole.
SIGHTFALL_WIDE_VECTORS void add_octave(const Octave octave, const Grid grid, size_t count, const float* x,
                                       const float* y, const float* footprint, float* factor) {
  constexpr float kFadeBegins = 0.25F;
  const float scale = 1 / octave.grain;
  for (size_t i = 0; i < count; ++i) {
    const float fade = 1 - smooth((footprint[i] * scale - kFadeBegins) / (1 - kFadeBegins));
    const float along = scale * (grid.cosine * x[i] + grid.sine * y[i]);
    const float across = scale * (grid.cosine * y[i] - grid.sine * x[i]);
    factor[i] += fade * octave.amplitude * noise(along, across, grid.salt);
  }
}

/// Turned from octave to octave, so that no two grids show as one.
Grid grid_of(uint32_t octave) {
  constexpr double kTurn = 2.4;              // rad
  constexpr uint32_t kSpread = 0x632BE5ABU;  // any odd number
  const double turn = kTurn * static_cast<double>(octave);
  return {static_cast<float>(std::cos(turn)), static_cast<float>(std::sin(turn)), octave * kSpread};
}

/// Adds the octaves that any of the points has a pixel fine enough for.
void add_grain(const TexturePlaces& places, std::span<const Octave> octaves, std::span<float> factor) {
  const float finest = *std::min_element(places.footprint.begin(), places.footprint.end());
  uint32_t number = 0;
  for (const Octave& octave : octaves) {
    ++number;
    if (finest >= octave.grain) continue;
    add_octave(octave, grid_of(number), factor.size(), places.x.data(), places.y.data(), places.footprint.data(),
               factor.data());
  }
}

/// A train of pulses along a line, all in metres.
struct Pulses {
  double period = 1, from = 0, width = 0;
};

/// The share of a pixel that lies in pulses.
inline double share(const Pulses& pulses, double at, double footprint) {
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

/// The share of each pixel that is slab, not joint: in each of the two kinds of course what lies in it and along it.
SIGHTFALL_WIDE_VECTORS void slab_shares(const Courses courses, size_t count, const float* x, const float* y,
                                        const float* footprint, float* slab) {
  const double shift = courses.bond ? courses.length / 2 : 0;
  const Pulses even_up{2 * courses.height, courses.joint, courses.height - courses.joint};
  const Pulses odd_up{2 * courses.height, courses.height + courses.joint, courses.height - courses.joint};
  const Pulses even_along{courses.length, courses.joint, courses.length - courses.joint};
  const Pulses odd_along{courses.length, shift + courses.joint, courses.length - courses.joint};
  for (size_t i = 0; i < count; ++i) {
    const double along = x[i], up = y[i], pixel = footprint[i];
    slab[i] = static_cast<float>(share(even_up, up, pixel) * share(even_along, along, pixel) +
                                 share(odd_up, up, pixel) * share(odd_along, along, pixel));
  }
}

/// How much of a pixel's width around `at` lies in cell i of size 1.
double overlap(double at, double width, double cell) {
  return std::max(0.0, std::min(at + width / 2, cell + 1) - std::max(at - width / 2, cell)) / width;
}

double slab_tone(int64_t column, int64_t row) {
  const auto c = static_cast<int32_t>(column), r = static_cast<int32_t>(row);
  return static_cast<double>(cell_value(block_hash(c, row_hash(r, 0)), c, r));
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
      sum += high * overlap(x, pixel.x, static_cast<double>(column)) * slab_tone(column, row);
  }
  return fade * courses.spread * sum;
}

/// The factor of slabs and joints at each place.
void lay(const Courses& courses, const TexturePlaces& places, std::span<float> factor) {
  const double slabs = (1 - courses.joint / courses.length) * (1 - courses.joint / courses.height);
  const double mean = slabs + (1 - slabs) * courses.joint_level;
  slab_shares(courses, factor.size(), places.x.data(), places.y.data(), places.footprint.data(), factor.data());
  for (size_t i = 0; i < factor.size(); ++i) {
    const auto here = static_cast<double>(factor[i]);
    const double of_slab = tone(courses, {static_cast<double>(places.x[i]), static_cast<double>(places.y[i])},
                                static_cast<double>(places.footprint[i]));
    factor[i] = static_cast<float>((here * (1 + of_slab) + (1 - here) * courses.joint_level) / mean);
  }
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

void textures_at(Texture texture, const TexturePlaces& places, std::span<float> factor) {
  static constexpr Courses kSlabs{0.408, 0.408, 0.008, 0.45, 0.10, false};
  static constexpr Courses kBricks{0.225, 0.075, 0.010, 1.35, 0.18, true};
  static constexpr std::array<Octave, 2> kOfSlabs{{{0.006F, 0.06F}, {0.05F, 0.05F}}};
  static constexpr std::array<Octave, 2> kOfBricks{{{0.004F, 0.06F}, {0.02F, 0.06F}}};
  static constexpr std::array<Octave, 4> kGrass{{{0.008F, 0.22F}, {0.035F, 0.22F}, {0.2F, 0.13F}, {1.1F, 0.10F}}};
  static constexpr std::array<Octave, 3> kGravel{{{0.012F, 0.30F}, {0.027F, 0.30F}, {0.25F, 0.07F}}};
  static constexpr std::array<Octave, 4> kPlaster{{{0.003F, 0.06F}, {0.011F, 0.05F}, {0.3F, 0.03F}, {1.3F, 0.03F}}};
  static constexpr std::array<Octave, 4> kAsphalt{{{0.004F, 0.20F}, {0.010F, 0.22F}, {0.3F, 0.05F}, {1.7F, 0.06F}}};
  if (factor.empty()) return;
  std::fill(factor.begin(), factor.end(), 1.0F);
  switch (texture) {
    case Texture::kPlain:
      return;
    case Texture::kPaving:
      lay(kSlabs, places, factor);
      return add_grain(places, kOfSlabs, factor);
    case Texture::kBrick:
      lay(kBricks, places, factor);
      return add_grain(places, kOfBricks, factor);
    case Texture::kGrass:
      return add_grain(places, kGrass, factor);
    case Texture::kGravel:
      return add_grain(places, kGravel, factor);
    case Texture::kPlaster:
      return add_grain(places, kPlaster, factor);
    case Texture::kAsphalt:
      return add_grain(places, kAsphalt, factor);
  }
}

double texture_at(Texture texture, double x, double y, double footprint) {
  const auto across = static_cast<float>(x), down = static_cast<float>(y), pixel = static_cast<float>(footprint);
  float factor = 1;
  textures_at(texture, {{&across, 1}, {&down, 1}, {&pixel, 1}}, {&factor, 1});
  return static_cast<double>(factor);
}

uint64_t mixed(uint64_t number) {
  uint64_t z = number + 0x9E3779B97F4A7C15U;
  z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
  z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
  return z ^ (z >> 31U);
}

}  // namespace sightfall::walk
