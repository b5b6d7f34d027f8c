// SPDX-License-Identifier: GPL-3.0-or-later
// Our projection and its inverse against a reference library's, from the table that tools/make_projection_golden wrote.
#include "camera/projection.h"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

namespace sightfall::camera {
namespace {

using namespace units;

std::vector<std::string> fields_of(const std::string& line) {
  std::vector<std::string> fields;
  std::istringstream text{line};
  for (std::string field; std::getline(text, field, ',');) fields.push_back(field);
  return fields;
}

struct Row {
  std::string lens;
  std::vector<double> numbers;
};

struct Golden {
  std::map<std::string, Projector> lenses;
  std::vector<Row> project, ray;
  std::string about;
};

std::vector<double> numbers_from(const std::vector<std::string>& fields, size_t first) {
  std::vector<double> numbers;
  for (size_t i = first; i < fields.size(); ++i) numbers.push_back(std::stod(fields[i]));
  return numbers;
}

Projector projector_from(const std::vector<std::string>& fields) {
  const std::vector<double> n = numbers_from(fields, 3);
  Projector p{.mapping = fields[2] == "fisheye" ? Mapping::kFisheye : Mapping::kBrown,
              .columns = static_cast<int>(n[0]),
              .rows = static_cast<int>(n[1]),
              .focal_px = n[2]};
  std::copy_n(n.begin() + 3, p.k.size(), p.k.begin());
  p.largest = monotone_to(p, 89.0 * deg);
  return p;
}

Golden read_golden() {
  Golden golden;
  std::ifstream file{std::string{SIGHTFALL_SOURCE_DIR} + "/tests/outside/projection_golden.csv"};
  for (std::string line; std::getline(file, line);) {
    const auto fields = fields_of(line);
    if (line.front() == '#')
      golden.about += line;
    else if (fields[0] == "lens")
      golden.lenses[fields[1]] = projector_from(fields);
    else
      (fields[0] == "project" ? golden.project : golden.ray).push_back({fields[1], numbers_from(fields, 2)});
  }
  return golden;
}

const Golden& golden() {
  static const Golden kGolden = read_golden();
  return kGolden;
}

TEST(ProjectionGolden, SaysWhatMadeIt) {
  EXPECT_NE(golden().about.find("OpenCV 4."), std::string::npos);
  EXPECT_EQ(golden().lenses.size(), 7U);
  EXPECT_EQ(golden().project.size(), 7U * 150);
  EXPECT_EQ(golden().ray.size(), 7U * 60);
}

// cv::projectPoints and cv::fisheye::projectPoints of OpenCV 4.6.0.
TEST(Projection, AgreesWithTheReferenceToAMillionthOfAPixel) {
  std::map<std::string, double> worst;
  for (const auto& [lens, n] : golden().project) {
    const auto at = image_point(golden().lenses.at(lens), {n[0], n[1], n[2]});
    ASSERT_TRUE(at) << lens << ' ' << n[0] << ' ' << n[1] << ' ' << n[2];
    const double off = std::hypot(at->u - n[3], at->v - n[4]);
    EXPECT_LT(off, 1e-6) << lens;
    worst[lens] = std::max(worst[lens], off);
  }
  for (const auto& [lens, off] : worst) RecordProperty("px off, " + lens, std::to_string(off));
}

// cv::undistortPoints (200 steps or 1e-14) and cv::fisheye::undistortPoints, whose own loop stops at 1e-8 rad or after
// ten steps: there our ray is held to that, and beyond it to the pixel that both started from.
TEST(Rays, AgreeWithTheReference) {
  for (const auto& [lens, n] : golden().ray) {
    const Projector& p = golden().lenses.at(lens);
    const auto ray = ray_camera(p, {n[0], n[1]});
    ASSERT_TRUE(ray) << lens << ' ' << n[0] << ' ' << n[1];
    const double x = ray->x / ray->z, y = ray->y / ray->z, grows = 1 + n[2] * n[2] + n[3] * n[3];
    const double close = p.mapping == Mapping::kFisheye ? 2e-8 * grows : 1e-9;
    EXPECT_LT(std::hypot(x - n[2], y - n[3]), close) << lens << ' ' << n[0] << ' ' << n[1];
  }
}

}  // namespace
}  // namespace sightfall::camera
