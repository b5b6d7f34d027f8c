// SPDX-License-Identifier: GPL-3.0-or-later
#include "video/test_scene.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <fstream>
#include <iterator>
#include <map>
#include <random>
#include <utility>

namespace sightfall::video {
namespace {

constexpr size_t kValues = 1 << 18;

/// Normal values, to be read from a place that differs from frame to frame.
const std::vector<float>& normal_values() {
  static const std::vector<float> values = [] {
    std::mt19937 chance(20261126);
    std::normal_distribution<float> normal;
    std::vector<float> made(kValues);
    std::generate(made.begin(), made.end(), [&] { return normal(chance); });
    return made;
  }();
  return values;
}

/// The same in every frame, and slow to compute.
const std::vector<double>& ground_of(int columns, int rows) {
  static std::map<std::pair<int, int>, std::vector<double>> grounds;
  std::vector<double>& ground = grounds[{columns, rows}];
  if (ground.empty())
    for (int row = 0; row < rows; ++row)
      for (int column = 0; column < columns; ++column)
        ground.push_back(110 + 25 * std::sin(column * 0.11) * std::cos(row * 0.07) + 6 * std::sin(column * 0.9 + row));
  return ground;
}

bool in_box(int column, int row, int frame) {
  const int left = 10 + 2 * frame;
  return column >= left && column < left + 24 && row >= 20 && row < 60;
}

}  // namespace

Picture picture_of(const Scene& scene, int frame) {
  Picture picture{scene.columns, scene.rows, {}};
  const std::vector<double>& ground = ground_of(scene.columns, scene.rows);
  picture.rgb.resize(3 * ground.size());
  const float* noise = normal_values().data();
  const size_t begin = std::mt19937(static_cast<unsigned>(frame))(), columns = static_cast<size_t>(scene.columns);
  const double tint = scene.grey ? 0 : 12;
  uint8_t* rgb = picture.rgb.data();
  for (size_t i = 0; i < ground.size(); ++i) {
    const bool box = in_box(static_cast<int>(i % columns), static_cast<int>(i / columns), frame);
    const double shade = (box ? 190 : ground[i]) + scene.sigma * static_cast<double>(noise[(begin + i) % kValues]);
    for (const double level : {shade + tint, shade, shade - tint})
      *rgb++ = static_cast<uint8_t>(std::clamp(level + 0.5, 0.0, 255.0));
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
  std::string file = std::string(test->test_suite_name()) + "_" + test->name() + "_" + name;
  std::replace(file.begin(), file.end(), '/', '-');  // of a test with parameters
  return testing::TempDir() + "sightfall_" + std::to_string(getpid()) + "_" + file;
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
