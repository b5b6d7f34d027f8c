// SPDX-License-Identifier: GPL-3.0-or-later
#include "video/test_scene.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <fstream>
#include <iterator>
#include <random>

namespace sightfall::video {
namespace {

/// Normal values, to be read from a place that differs from frame to frame.
const std::vector<float>& normal_values() {
  static const std::vector<float> values = [] {
    std::mt19937 chance(20261126);
    std::normal_distribution<float> normal;
    std::vector<float> made(1 << 18);
    std::generate(made.begin(), made.end(), [&] { return normal(chance); });
    return made;
  }();
  return values;
}

bool in_box(int column, int row, int frame) {
  const int left = 10 + 2 * frame;
  return column >= left && column < left + 24 && row >= 20 && row < 60;
}

}  // namespace

Picture picture_of(const Scene& scene, int frame) {
  Picture picture{scene.columns, scene.rows, {}};
  const std::vector<float>& noise = normal_values();
  std::mt19937 chance(static_cast<unsigned>(frame));
  size_t place = chance();
  for (int row = 0; row < scene.rows; ++row)
    for (int column = 0; column < scene.columns; ++column) {
      const double ground =
          110 + 25 * std::sin(column * 0.11) * std::cos(row * 0.07) + 6 * std::sin(column * 0.9 + row);
      const double shade = (in_box(column, row, frame) ? 190 : ground) +
                           scene.sigma * static_cast<double>(noise[place++ % noise.size()]);
      for (const int tint : {12, 0, -12})
        picture.rgb.push_back(static_cast<uint8_t>(std::clamp(std::lround(shade + (scene.grey ? 0 : tint)), 0L, 255L)));
    }
  return picture;
}

std::vector<Picture> clip_of(const Scene& scene, int frames) {
  std::vector<Picture> clip;
  for (int frame = 0; frame < frames; ++frame) clip.push_back(picture_of(scene, frame));
  return clip;
}

double psnr(const Picture& a, const Picture& b) {
  EXPECT_EQ(a.rgb.size(), b.rgb.size());
  double sum = 0;
  for (size_t i = 0; i < std::min(a.rgb.size(), b.rgb.size()); ++i) {
    const double difference = static_cast<double>(a.rgb[i]) - b.rgb[i];
    sum += difference * difference;
  }
  return 10 * std::log10(255 * 255 * static_cast<double>(a.rgb.size()) / sum);
}

std::string scratch(const std::string& name) {
  const auto* test = testing::UnitTest::GetInstance()->current_test_info();
  return testing::TempDir() + "sightfall_" + std::to_string(getpid()) + "_" + test->test_suite_name() + "_" +
         test->name() + "_" + name;
}

std::vector<uint8_t> bytes_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

void write_bytes(const std::string& path, const std::vector<uint8_t>& bytes) {
  std::ofstream file(path, std::ios::binary);
  std::copy(bytes.begin(), bytes.end(), std::ostreambuf_iterator<char>(file));
}

}  // namespace sightfall::video
