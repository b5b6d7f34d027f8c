// SPDX-License-Identifier: GPL-3.0-or-later
#include "crop.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>

namespace sightfall::reading {
namespace {

/// Which points of a line make one of the new line, and with what weight.
struct Mixture {
  int first = 0;
  std::vector<double> weights;
};

using Kernel = std::function<double(double)>;

/// `count` points spread evenly over a stretch of a line, through a kernel that is 0 beyond `reach`.
std::vector<Mixture> mixtures(double from, double length, int count, const Kernel& kernel, double reach) {
  std::vector<Mixture> all(static_cast<size_t>(count));
  for (int i = 0; i < count; ++i) {
    Mixture& mixture = all[static_cast<size_t>(i)];
    const double centre = from + (i + 0.5) * length / count - 0.5;  // in points, 0 at the middle of the first
    mixture.first = static_cast<int>(std::ceil(centre - reach));
    double sum = 0;
    for (int p = mixture.first; p <= centre + reach; ++p) {
      mixture.weights.push_back(kernel(p - centre));
      sum += mixture.weights.back();
    }
    for (double& weight : mixture.weights) weight /= sum;
  }
  return all;
}

/// Beyond its edges a picture goes on as at the edge.
size_t inside(int i, int count) { return static_cast<size_t>(std::clamp(i, 0, count - 1)); }

Grey mixed(const uint8_t* levels, int columns, int rows, const std::vector<Mixture>& across,
           const std::vector<Mixture>& down) {
  const size_t wide = across.size();
  std::vector<double> lines(static_cast<size_t>(rows) * wide);
  for (int row = 0; row < rows; ++row)
    for (size_t column = 0; column < wide; ++column) {
      double& sum = lines[static_cast<size_t>(row) * wide + column];
      int p = across[column].first;
      for (const double weight : across[column].weights)
        sum += weight * levels[static_cast<size_t>(row) * static_cast<size_t>(columns) + inside(p++, columns)];
    }
  Grey result{static_cast<int>(wide), static_cast<int>(down.size())};
  for (size_t row = 0; row < down.size(); ++row)
    for (size_t column = 0; column < wide; ++column) {
      double sum = 0;
      int p = down[row].first;
      for (const double weight : down[row].weights) sum += weight * lines[inside(p++, rows) * wide + column];
      result.at[row * wide + column] = static_cast<uint8_t>(std::lround(std::clamp(sum, 0.0, 255.0)));
    }
  return result;
}

double sinc(double x) { return x == 0 ? 1 : std::sin(std::numbers::pi * x) / (std::numbers::pi * x); }

}  // namespace

Grey resized(const Photograph& photograph, const Piece& piece, int columns, int rows) {
  constexpr double kLobes = 3;
  const auto along = [&](double from, double length, int count) {
    const double wide = std::max(length / count, 1.0);
    const Kernel lanczos = [=](double x) { return sinc(x / wide) * sinc(x / wide / kLobes); };
    return mixtures(from, length, count, lanczos, kLobes * wide);
  };
  return mixed(photograph.grey.data(), photograph.columns, photograph.rows, along(piece.left, piece.width, columns),
               along(piece.top, piece.height, rows));
}

Grey smoothed(const Grey& grey, double sigma) {
  if (sigma <= 0) return grey;
  const Kernel gaussian = [=](double x) { return std::exp(-x * x / (2 * sigma * sigma)); };
  const auto along = [&](int count) { return mixtures(0, count, count, gaussian, 3 * sigma); };
  return mixed(grey.at.data(), grey.columns, grey.rows, along(grey.columns), along(grey.rows));
}

void stretch(Grey& grey, double share) {
  std::vector<uint8_t> sorted = grey.at;
  std::sort(sorted.begin(), sorted.end());
  const auto quantile = [&](double q) {
    return sorted[static_cast<size_t>(q * static_cast<double>(sorted.size() - 1))];
  };
  const double dark = quantile(share), bright = quantile(1 - share);
  if (bright <= dark) return;
  for (uint8_t& level : grey.at)
    level = static_cast<uint8_t>(std::lround(std::clamp((level - dark) / (bright - dark) * 255, 0.0, 255.0)));
}

}  // namespace sightfall::reading
