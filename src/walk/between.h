// SPDX-License-Identifier: GPL-3.0-or-later
// Values that change slowly over a tile of points: worked out at a few of them and taken between these elsewhere.
//   Model    bilinear in cells of 16 points, where that holds in the middle of two sides; else in cells of 8, then of
//   4,
//            and where it holds in none of them, at each point by itself
//   Error    at the points tried, kTolerance of each value or the `floor`, whichever is more
//   Checked  between_test.cpp
#pragma once
#include <array>
#include <cstdint>
#include <functional>
#include <span>
#include <vector>

namespace sightfall::walk {

inline constexpr int kTile = 64;  ///< points each way
inline constexpr float kTolerance = 0.003F;

/// A point of a tile by its place in Z order: the bits of column and row in turn, so that any square of 4, 8 or 16 that
/// the interpolation takes is a stretch of such numbers.
using Place = uint16_t;

/// The even bits of a number, moved together.
constexpr int gathered(unsigned bits) {
  bits &= 0x5555U;
  bits = (bits | (bits >> 1U)) & 0x3333U;
  bits = (bits | (bits >> 2U)) & 0x0F0FU;
  return static_cast<int>((bits | (bits >> 4U)) & 0x00FFU);
}
constexpr int column_of(Place place) { return gathered(place); }
constexpr int row_of(Place place) { return gathered(static_cast<unsigned>(place) >> 1U); }

/// What is spread over a tile.
struct Slow {
  /// Puts the values at a point of the tile, which may lie up to kTile beyond its last; false: they have none there.
  std::function<bool(double column, double row, std::span<float> values)> at;
  int count = 0;        ///< of values
  float floor = 0;      ///< what is less does not matter
  bool coarse = false;  ///< whether points within a cell of 4 may share one's values where nothing else holds
};

/// Works out values[v * places.size() + i] at each place; places rise.
class Between {
 public:
  void spread(const Slow& slow, std::span<const Place> places, std::vector<float>& values);

 private:
  static constexpr int kStep = 2, kNodes = kTile / kStep + 1;

  void cell(int column, int row, int size, size_t first, size_t last);
  const float* node(int column, int row);
  bool holds(int column, int row, int size, std::array<const float*, 4>& corners);
  void between(int column, int row, int size, const std::array<const float*, 4>& corners, size_t first, size_t last);
  void one_by_one(size_t first, size_t last);
  void share(size_t first, size_t last);

  const Slow* slow_ = nullptr;
  std::span<const Place> places_;
  float* values_ = nullptr;
  std::array<int, static_cast<size_t>(kNodes) * kNodes> node_of_{};  // 0: not worked out, -1: has none
  std::vector<float> nodes_;
  std::vector<float> here_;
};

}  // namespace sightfall::walk
