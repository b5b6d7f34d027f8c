// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/texture.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <fstream>
#include <set>
#include <string>
#include <vector>

namespace sightfall::walk {
namespace {

constexpr std::array kAll{Texture::kPaving, Texture::kBrick,   Texture::kGrass,
                          Texture::kGravel, Texture::kPlaster, Texture::kAsphalt};

struct Moments {
  double mean = 0, variance = 0, least = 10, most = -10;
};

/// Of a texture over a square, from points of an additive recurrence, which fill it evenly.
Moments moments(Texture texture, double footprint, double side, int points) {
  constexpr double kA = 0.7548776662466927, kB = 0.5698402909980532;  // the plastic number's powers
  double sum = 0, squares = 0;
  Moments result;
  for (int i = 0; i < points; ++i) {
    const double x = std::fmod(0.5 + kA * i, 1.0), y = std::fmod(0.5 + kB * i, 1.0);
    const double value = texture_at(texture, side * (x - 0.4), side * (y - 0.3), footprint);
    sum += value;
    squares += value * value;
    result.least = std::min(result.least, value);
    result.most = std::max(result.most, value);
  }
  result.mean = sum / points;
  result.variance = squares / points - result.mean * result.mean;
  return result;
}

// The sides hold whole slabs and bricks, so that what joints take away is what the rest gains.
TEST(Texture, HasAMeanOfOneAtEveryFootprint) {
  for (const Texture texture : kAll)
    for (const double footprint : {0.0, 0.004, 0.03, 0.2, 1.0}) {
      const Moments of = moments(texture, footprint, texture == Texture::kPaving ? 12.24 : 13.5, 30000);
      EXPECT_NEAR(of.mean, 1, 0.006) << static_cast<int>(texture) << " at " << footprint;
    }
}

TEST(Texture, StaysWithinItsStatedRange) {
  for (const Texture texture : kAll) {
    const Moments of = moments(texture, 0, 10, 30000);
    EXPECT_GT(of.least, 0.3) << static_cast<int>(texture);
    EXPECT_LT(of.most, 1.7) << static_cast<int>(texture);
    EXPECT_GT(of.variance, 0.001) << static_cast<int>(texture) << ": there is something to see";
  }
}

TEST(Texture, FadesAsThePixelGrows) {
  for (const Texture texture : kAll) {
    double before = 1;
    for (const double footprint : {0.0, 0.005, 0.02, 0.08, 0.3, 1.0, 3.0}) {
      const double variance = moments(texture, footprint, 12.24, 4000).variance;
      EXPECT_LE(variance, before * 1.02) << static_cast<int>(texture) << " at " << footprint;
      before = variance;
    }
    EXPECT_LT(before, 1e-5) << static_cast<int>(texture);
    EXPECT_NEAR(texture_at(texture, 3.3, 4.4, 50), 1, 1e-3) << static_cast<int>(texture);
  }
}

/// The mean of a texture over a square pixel by counting.
double counted(Texture texture, double x, double y, double footprint) {
  constexpr int kSteps = 100;
  double sum = 0;
  for (int row = 0; row < kSteps; ++row)
    for (int column = 0; column < kSteps; ++column)
      sum += texture_at(texture, x + ((column + 0.5) / kSteps - 0.5) * footprint,
                        y + ((row + 0.5) / kSteps - 0.5) * footprint, 0);
  return sum / (kSteps * kSteps);
}

// At 0.1 m the grain has faded and nearly averages out of the count, while joints, bond and tones are all there.
TEST(Courses, AreAveragedOverThePixel) {
  constexpr double kFootprint = 0.1, kLeftOfGrain = 0.012, kSeen = 0.05;
  for (const Texture texture : {Texture::kBrick, Texture::kPaving}) {
    double missed = 0, seen = 0;
    int pixels = 0;
    for (double x = -0.31; x < 0.5; x += 0.0777)
      for (double y = -0.24; y < 0.4; y += 0.0931) {
        const double expected = counted(texture, x, y, kFootprint);
        missed += std::pow(texture_at(texture, x, y, kFootprint) - expected, 2);
        seen += std::pow(expected - 1, 2);
        ++pixels;
      }
    EXPECT_LT(std::sqrt(missed / pixels), kLeftOfGrain) << static_cast<int>(texture);
    EXPECT_GT(std::sqrt(seen / pixels), kSeen) << static_cast<int>(texture) << ": much more than may be missed";
  }
}

TEST(Brick, HasItsJointsEveryCourseAndItsBond) {
  // Courses of 75 mm begin with a bed joint of 10 mm; uprights are every 225 mm, shifted by half in the next course.
  const auto is_joint = [](double along, double up) { return texture_at(Texture::kBrick, along, up, 0) > 1.12; };
  for (const double course : {0.0, 0.075, 0.75})
    EXPECT_GT(texture_at(Texture::kBrick, 0.1, course + 0.005, 0), texture_at(Texture::kBrick, 0.1, course + 0.04, 0));
  int right = 0, wrong = 0;
  for (int i = -20; i < 20; ++i) {
    right += is_joint(0.225 * i + 0.005, 0.04) + is_joint(0.225 * i + 0.1175, 0.115);
    wrong += is_joint(0.225 * i + 0.1175, 0.04) + is_joint(0.225 * i + 0.005, 0.115);
  }
  EXPECT_EQ(right, 80);
  EXPECT_LT(wrong, 20) << "a pale brick now and then";
}

// At 0.06 m the grain has faded; the tones of four slabs two by two cancel, but for what pixels at the rim see beyond
// it.
TEST(Paving, TonesOfEveryFourSlabsCancel) {
  constexpr double kFour = 0.816, kFootprint = 0.06, kRim = 0.006;
  constexpr int kSteps = 68;
  double most = 0;
  for (int block = -4; block < 4; ++block) {
    double sum = 0;
    for (int row = 0; row < kSteps; ++row)
      for (int column = 0; column < kSteps; ++column) {
        const double x = (column + 0.5) / kSteps, y = (row + 0.5) / kSteps;
        const double value = texture_at(Texture::kPaving, kFour * (block + x), kFour * (3 + y), kFootprint);
        sum += value;
        most = std::max(most, value);
      }
    EXPECT_NEAR(sum / (kSteps * kSteps), 1, kRim) << block;
  }
  EXPECT_GT(most, 1.08) << "single slabs differ by much more";
}

TEST(Texture, IsNotTheSameFromPlaceToPlace) {
  for (const Texture texture : kAll) {
    std::set<double> values;
    for (int i = 0; i < 100; ++i) values.insert(texture_at(texture, 0.613 * i + 0.2, 0.2, 0.001));
    EXPECT_GT(values.size(), 95U) << static_cast<int>(texture);
  }
}

TEST(Texture, ManyAtOnceAreTheSameAsOneByOne) {
  constexpr size_t kCount = 77;
  std::vector<float> x(kCount), y(kCount), footprint(kCount), factor(kCount);
  for (size_t i = 0; i < kCount; ++i) {
    x[i] = 0.0613F * static_cast<float>(i) - 2;
    y[i] = 3 - 0.0291F * static_cast<float>(i);
    footprint[i] = 0.0004F * static_cast<float>(i % 40);
  }
  for (const Texture texture : kAll) {
    textures_at(texture, {x, y, footprint}, factor);
    for (size_t i = 0; i < kCount; ++i)
      EXPECT_EQ(
          static_cast<double>(factor[i]),
          texture_at(texture, static_cast<double>(x[i]), static_cast<double>(y[i]), static_cast<double>(footprint[i])))
          << static_cast<int>(texture) << " " << i;
  }
}

TEST(Texture, OfMaterialsIsWhatTheyLookLike) {
  EXPECT_EQ(texture_of("asphalt"), Texture::kAsphalt);
  EXPECT_EQ(texture_of("concrete"), Texture::kPaving);
  EXPECT_EQ(texture_of("brick"), Texture::kBrick);
  EXPECT_EQ(texture_of("grass"), Texture::kGrass);
  EXPECT_EQ(texture_of("gravel"), Texture::kGravel);
  EXPECT_EQ(texture_of("render"), Texture::kPlaster);
  EXPECT_EQ(texture_of("glass"), Texture::kPlain);
  EXPECT_EQ(texture_of("no such thing"), Texture::kPlain);
  EXPECT_EQ(texture_at(Texture::kPlain, 1.234, 5.678, 0), 1);
}

// The names are those of the table: every texture is that of some material there.
TEST(Texture, EachBelongsToAMaterialOfTheTable) {
  std::ifstream file(SIGHTFALL_SOURCE_DIR "/data/materials.json");
  std::set<Texture> found;
  const std::string mark = R"({ "name": ")";
  for (std::string line; std::getline(file, line);)
    if (const size_t at = line.find(mark); at != std::string::npos) {
      const size_t from = at + mark.size();
      found.insert(texture_of(line.substr(from, line.find('"', from) - from)));
    }
  EXPECT_EQ(found.size(), kAll.size() + 1);
}

// The generator's first output from 0, as its authors' code gives it (from memory).
TEST(Mixed, IsTheSameOnEveryMachine) { EXPECT_EQ(mixed(0), 0xE220A8397B1DCDAFU); }

}  // namespace
}  // namespace sightfall::walk
