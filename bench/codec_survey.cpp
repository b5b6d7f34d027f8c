// SPDX-License-Identifier: GPL-3.0-or-later
// What codecs leave of bars, measured: the raw lines from which tools/make_codec_table makes data/codec.json.
//   Scene    grey, still texture with twice the contrast for four times the size; patches of sine bars that move 1.7 px
//            across and 0.6 px down a frame, a walk's pace; white noise, new in each frame
//   Survive  `survive CODEC QP NOISE AMPLITUDE` and for each frequency the amplitude in phase that is left over what it
//            was, and the deviation of the rest, grey levels, over frames 4 to 19
//   Rate     `rate CODEC QUALITY QP NOISE BITS`: mean bits a pixel of 50 frames of 1280 x 720 with one moving figure
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <numbers>
#include <numeric>
#include <random>
#include <vector>

#include "video/encode.h"

namespace {

using namespace sightfall;
using namespace sightfall::video;
using namespace sightfall::units;

constexpr std::array kFrequencies{0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.42};  // cycles a pixel
constexpr std::array kAmplitudes{2.0, 4.0, 8.0, 16.0, 32.0, 64.0};               // grey levels
constexpr std::array kNoises{0.0, 1.0, 2.0, 4.0, 8.0, 16.0};
constexpr std::array kQualities{16.0, 20.0, 24.0, 28.0, 32.0, 36.0, 40.0, 44.0, 48.0};
constexpr double kAcross = 1.7, kDown = 0.6;  // px a frame
constexpr double kMiddle = 128;

const std::vector<float>& normal_values() {
  static const std::vector<float> values = [] {
    std::mt19937 chance(1);
    std::normal_distribution<float> normal;
    std::vector<float> made((1 << 22) + 7);
    std::generate(made.begin(), made.end(), [&] { return normal(chance); });
    return made;
  }();
  return values;
}

struct Ground {
  int columns, rows;
  std::vector<float> level;
};

Ground ground(int columns, int rows) {
  constexpr float kMean = 110, kFinest = 1.6F;
  Ground made{columns, rows, std::vector<float>(static_cast<size_t>(columns) * static_cast<size_t>(rows), kMean)};
  std::mt19937 chance(5);
  for (int size = 2; size <= 128; size *= 2) {
    const int across = columns / size + 3, down = rows / size + 3;
    std::vector<float> knots(static_cast<size_t>(across) * static_cast<size_t>(down));
    std::normal_distribution<float> normal;
    std::generate(knots.begin(), knots.end(), [&] { return normal(chance); });
    const float strength = kFinest * std::sqrt(static_cast<float>(size) / 2);
    for (int y = 0; y < rows; ++y)
      for (int x = 0; x < columns; ++x) {
        const float u = static_cast<float>(x % size) / static_cast<float>(size),
                    v = static_cast<float>(y % size) / static_cast<float>(size);
        const auto knot = [&](int right, int below) {
          return knots[static_cast<size_t>((y / size + below) * across + x / size + right)];
        };
        made.level[static_cast<size_t>(y * columns + x)] +=
            strength *
            ((1 - u) * ((1 - v) * knot(0, 0) + v * knot(0, 1)) + u * ((1 - v) * knot(1, 0) + v * knot(1, 1)));
      }
  }
  return made;
}

struct Patch {
  double left, top;
  int width, height;
  double frequency, amplitude;

  int first_column(int frame) const { return static_cast<int>(std::lround(left + kAcross * frame)); }
  int first_row(int frame) const { return static_cast<int>(std::lround(top + kDown * frame)); }
  double at(int column, int frame) const {
    return amplitude * std::sin(2 * std::numbers::pi * frequency * (column - left - kAcross * frame));
  }
};

std::vector<Picture> clip_of(const Ground& ground, const std::vector<Patch>& patches, double noise, int frames) {
  const std::vector<float>& normal = normal_values();
  std::vector<Picture> clip;
  for (int frame = 0; frame < frames; ++frame) {
    std::vector<float> level = ground.level;
    for (const Patch& patch : patches)
      for (int y = patch.first_row(frame); y < patch.first_row(frame) + patch.height; ++y)
        for (int x = patch.first_column(frame); x < patch.first_column(frame) + patch.width; ++x)
          level[static_cast<size_t>(y * ground.columns + x)] = static_cast<float>(kMiddle + patch.at(x, frame));
    constexpr size_t kStride = 245489;  // a prime: other values in each frame
    const size_t from = static_cast<size_t>(frame) * kStride;
    Picture picture{ground.columns, ground.rows, std::vector<uint8_t>(3 * level.size())};
    for (size_t i = 0; i < level.size(); ++i) {
      const double noisy =
          static_cast<double>(level[i]) + noise * static_cast<double>(normal[(from + i) % normal.size()]);
      const auto value = static_cast<uint8_t>(std::clamp(std::lround(noisy), 0L, 255L));
      std::fill_n(picture.rgb.begin() + static_cast<ptrdiff_t>(3 * i), 3, value);
    }
    clip.push_back(std::move(picture));
  }
  return clip;
}

Encoded encoded(const std::vector<Picture>& clip, Codec codec, double quality, Back back) {
  auto done = encode(clip, {codec, 25.0 * Hz, FreeQuality{quality}, 50, 1}, back);
  if (!done) {
    std::fprintf(stderr, "%s\n", to_line(done.error()).c_str());
    std::exit(1);
  }
  return std::move(*done);
}

double mean_quantiser(const Encoded& done, size_t from) {
  return std::accumulate(done.quantisers.begin() + static_cast<ptrdiff_t>(from), done.quantisers.end(), 0.0) /
         static_cast<double>(done.quantisers.size() - from);
}

/// What is left of a patch: amplitude in phase over its own, and deviation of the rest.
std::pair<double, double> left_of(const Patch& patch, const Encoded& done, size_t from) {
  constexpr int kEdge = 6;  // px not looked at
  double shape = 0, both = 0, all = 0;
  size_t count = 0;
  for (size_t frame = from; frame < done.pictures.size(); ++frame) {
    const Picture& picture = done.pictures[frame];
    const int t = static_cast<int>(frame);
    const auto each = [&](auto take) {
      for (int y = patch.first_row(t) + kEdge; y < patch.first_row(t) + patch.height - kEdge; ++y)
        for (int x = patch.first_column(t) + kEdge; x < patch.first_column(t) + patch.width - kEdge; ++x)
          take(static_cast<double>(picture.rgb[3 * static_cast<size_t>(y * picture.columns + x) + 1]), patch.at(x, t));
    };
    double sum = 0;
    size_t pixels = 0;
    each([&](double value, double) { sum += value, ++pixels; });
    const double mean = sum / static_cast<double>(pixels);
    each([&](double value, double expected) {
      shape += expected * expected, both += (value - mean) * expected, all += (value - mean) * (value - mean);
    });
    count += pixels;
  }
  const double share = both / shape;
  return {share, std::sqrt(std::max(0.0, all - share * share * shape) / static_cast<double>(count))};
}

void survey_survival(Codec codec) {
  const Ground still = ground(768, 432);
  constexpr int kFrames = 20;
  constexpr size_t kSettled = 4;
  for (const double quality : kQualities)
    for (const double noise : kNoises)
      for (const double amplitude : kAmplitudes) {
        std::vector<Patch> patches;
        for (size_t i = 0; i < kFrequencies.size(); ++i)
          patches.push_back({40.0 + 170 * static_cast<double>(i % 4), 50.0 + 190 * static_cast<double>(i / 4), 72, 56,
                             kFrequencies.at(i), amplitude});
        const Encoded done = encoded(clip_of(still, patches, noise, kFrames), codec, quality, Back::kPicturesToo);
        fmt::print("survive {} {:.2f} {:g} {:g}", name_of(codec), mean_quantiser(done, kSettled), noise, amplitude);
        for (const Patch& patch : patches) {
          const auto [share, rest] = left_of(patch, done, kSettled);
          fmt::print(" {:.3f} {:.2f}", share, rest);
        }
        fmt::print("\n");
      }
}

void survey_rates(Codec codec) {
  constexpr int kFrames = 50;
  const Ground still = ground(1280, 720);
  std::vector<Patch> figure;
  for (size_t i = 0; i < 4; ++i)
    figure.push_back({300.0 + 60 * static_cast<double>(i), 300, 60, 150, kFrequencies.at(i + 2), 20});
  for (const double noise : kNoises) {
    const std::vector<Picture> clip = clip_of(still, figure, noise, kFrames);
    for (const double quality : kQualities) {
      const Encoded done = encoded(clip, codec, quality, Back::kFactsAlone);
      const double pixels = 25.0 * still.columns * still.rows;
      fmt::print("rate {} {:g} {:.2f} {:g} {:.5f}\n", name_of(codec), quality, mean_quantiser(done, 1), noise,
                 done.facts.mean.in(bit / s) / pixels);
    }
  }
}

}  // namespace

int main() {
  for (const Codec codec : {Codec::kH264, Codec::kH265}) {
    survey_rates(codec);
    survey_survival(codec);
  }
}
