// SPDX-License-Identifier: GPL-3.0-or-later
// Terrain line of sight against three raster viewsheds, every cell that differs explained.
//   Data     the folder named by SIGHTFALL_DATA: terrain/olinda_dem_utm25s.tif (111 x 111 cells of 90 m, from Debian's
//            r-cran-stars, Apache-2.0) and terrain/viewshed_obs1..3.tif, made from it by GDAL 3.6.2
//            `gdal_viewshed -md 0 -tz 1.6 -cc 0 -om NORMAL` (255: seen; no curvature)
//   Method   Our ground has the cells' heights at the cells' middles. Three further computations, none with rays:
//            triangles  the exact clearance of each line over the very triangles: ours must agree on every cell whose
//                       clearance is more than kOnTheLine
//            lines      the same over crossings of rows and columns only, heights linear between neighbours
//            sweep      the raster program's own rule (raster_sweep.h): must reproduce its picture cell for cell
//   Classes  of a cell that differs between us and the raster program, by what explains it:
//            on the line   the line touches the ground within kOnTheLine: either answer is right
//            in the cell   rows and columns say what the raster says; a triangle's diagonal edge within a cell decides
//            in the sweep  rows and columns say what we say: the sweep took its heights from neighbouring cells, not
//                          from the ground along the line
#include <gdal_priv.h>
#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <memory>
#include <ostream>
#include <string>
#include <vector>

#include "raster_sweep.h"
#include "sight_profile.h"
#include "site/ground.h"
#include "site/scene.h"

namespace sightfall::outside {
namespace {

using namespace units;

constexpr double kTargetHeight = 1.6;
/// m: more than single precision loses in heights and places on a site 10 km wide (2.5e-4 m in plan on slopes up to 1).
constexpr double kOnTheLine = 2e-3;

/// A raster's first band, row 0 in the north as it is stored.
struct Raster {
  int columns = 0, rows = 0;
  std::array<double, 6> place{};  // GDAL's affine transform
  std::vector<double> values;
};

Raster read_raster(const std::string& path) {
  GDALAllRegister();
  const auto close = [](GDALDataset* d) { GDALClose(d); };
  const std::unique_ptr<GDALDataset, decltype(close)> file{
      static_cast<GDALDataset*>(GDALOpen(path.c_str(), GA_ReadOnly)), close};
  if (!file) {
    ADD_FAILURE() << "cannot read " << path;
    return {};
  }
  Raster raster{file->GetRasterXSize(), file->GetRasterYSize(), {}, {}};
  file->GetGeoTransform(raster.place.data());
  raster.values.resize(static_cast<size_t>(raster.columns) * static_cast<size_t>(raster.rows));
  EXPECT_EQ(file->GetRasterBand(1)->RasterIO(GF_Read, 0, 0, raster.columns, raster.rows, raster.values.data(),
                                             raster.columns, raster.rows, GDT_Float64, 0, 0),
            CE_None);
  return raster;
}

/// Index of a cell of our grid (row 0 in the south) in a raster.
size_t stored(const Raster& raster, int column, int row) {
  return static_cast<size_t>(raster.rows - 1 - row) * static_cast<size_t>(raster.columns) + static_cast<size_t>(column);
}

site::Terrain terrain_of(const Raster& raster) {
  const double step = raster.place[1];
  // The site's origin is the grid's middle, so that single precision holds as well as it can.
  site::Terrain terrain{
      {-step * (raster.columns - 1) / 2, -step * (raster.rows - 1) / 2}, Length{step}, raster.columns, raster.rows, {}};
  for (int r = 0; r < raster.rows; ++r)
    for (int c = 0; c < raster.columns; ++c) terrain.heights.push_back(raster.values[stored(raster, c, r)]);
  return terrain;
}

struct Observed {
  const char* file;
  double x, y, height;
  int seen;  ///< cells that the raster shows as seen
};

/// What the test framework prints of a case.
void PrintTo(const Observed& observed, std::ostream* out) {
  *out << observed.file << ", observer " << observed.height << " m up";
}

Observer cell_of(const Raster& raster, const Observed& observed) {
  const int column = static_cast<int>(std::floor((observed.x - raster.place[0]) / raster.place[1]));
  const int stored_row = static_cast<int>(std::floor((observed.y - raster.place[3]) / raster.place[5]));
  return {column, raster.rows - 1 - stored_row, observed.height};
}

struct Count {
  int seen_by_us = 0, seen_by_raster = 0, agree = 0, on_the_line = 0, in_the_cell = 0, in_the_sweep = 0;
  int sweep_differs = 0, unexplained = 0;
};

class Viewshed : public testing::TestWithParam<Observed> {
 protected:
  void SetUp() override {
    const char* folder = std::getenv("SIGHTFALL_DATA");
    if (folder == nullptr || !std::filesystem::is_directory(folder))
      GTEST_SKIP() << "SIGHTFALL_DATA names no folder with the open data for this check";
    dem_ = read_raster(std::string{folder} + "/terrain/olinda_dem_utm25s.tif");
    reference_ = read_raster(std::string{folder} + "/terrain/" + GetParam().file);
    ASSERT_EQ(dem_.columns, 111);
    ASSERT_EQ(dem_.rows, 111);
    ASSERT_EQ(reference_.values.size(), dem_.values.size());
    site_.terrain = terrain_of(dem_);
    observer_ = cell_of(dem_, GetParam());
  }

  geom::SitePoint above(int column, int row, double height) const {
    const site::Terrain& t = site_.terrain;
    return site::above_ground(t, t.south_west + t.step.si() * geom::PlanPoint{1.0 * column, 1.0 * row}, Length{height});
  }

  std::vector<char> ours(geom::SitePoint eye) const {
    std::vector<float> x, y, z;
    for (int r = 0; r < dem_.rows; ++r)
      for (int c = 0; c < dem_.columns; ++c) {
        const geom::SitePoint target = above(c, r, kTargetHeight);
        x.push_back(static_cast<float>(target.x));
        y.push_back(static_cast<float>(target.y));
        z.push_back(static_cast<float>(target.z));
      }
    std::vector<float> passed(x.size());
    site::Scene{site_, site::Leaves::kOn}.passed_from(eye, {x, y, z}, passed);
    return {passed.begin(), passed.end()};
  }

  Raster dem_, reference_;
  site::Site site_;
  Observer observer_;
};

TEST_P(Viewshed, EveryCellThatDiffersIsExplained) {
  const geom::SitePoint eye = above(observer_.column, observer_.row, observer_.height);
  const std::vector<char> seen = ours(eye), swept = raster_sweep(site_.terrain, observer_, kTargetHeight);
  Count count;
  for (int r = 0; r < dem_.rows; ++r)
    for (int c = 0; c < dem_.columns; ++c) {
      if (c == observer_.column && r == observer_.row) continue;
      const size_t i = static_cast<size_t>(r) * static_cast<size_t>(dem_.columns) + static_cast<size_t>(c);
      const bool us = seen[i] != 0, raster = reference_.values[stored(dem_, c, r)] == 255;
      const geom::SitePoint target = above(c, r, kTargetHeight);
      const double exact = clearance(site_.terrain, Surface::kTriangles, eye, target);
      const double lines = clearance(site_.terrain, Surface::kGridLines, eye, target);
      count.seen_by_us += us;
      count.seen_by_raster += raster;
      count.sweep_differs += (swept[i] != 0) != raster;
      if (std::abs(exact) > kOnTheLine) {
        EXPECT_EQ(us, exact > 0) << "column " << c << " row " << r << " clears by " << exact;
      }
      if (us == raster)
        ++count.agree;
      else if (std::abs(exact) <= kOnTheLine)
        ++count.on_the_line;
      else if ((lines > 0) == raster)
        ++count.in_the_cell;
      else if ((swept[i] != 0) == raster)
        ++count.in_the_sweep;
      else
        ++count.unexplained;
    }
  std::printf(
      "%s: seen %d by us, %d by the raster; %d agree; differing: %d on the line, %d in the cell, %d in the sweep, "
      "%d unexplained; the sweep's rule differs from the raster in %d\n",
      GetParam().file, count.seen_by_us, count.seen_by_raster, count.agree, count.on_the_line, count.in_the_cell,
      count.in_the_sweep, count.unexplained, count.sweep_differs);
  RecordProperty("agree", count.agree);
  RecordProperty("on the line", count.on_the_line);
  RecordProperty("in the cell", count.in_the_cell);
  RecordProperty("in the sweep", count.in_the_sweep);
  EXPECT_EQ(count.seen_by_raster + 1, GetParam().seen) << "the raster is the one that its index describes";
  EXPECT_EQ(count.sweep_differs, 0) << "the raster program's rule is understood";
  EXPECT_EQ(count.unexplained, 0);
}

INSTANTIATE_TEST_SUITE_P(Olinda, Viewshed,
                         testing::Values(Observed{"viewshed_obs1.tif", 289900, 9119800, 2, 89},
                                         Observed{"viewshed_obs2.tif", 293000, 9115000, 10, 2140},
                                         Observed{"viewshed_obs3.tif", 296500, 9113000, 30, 4494}),
                         [](const auto& tested) { return std::string{tested.param.file}.substr(9, 4); });

/// The profile itself, by pencil: a ridge of 5 m along y = 0 on a grid of 10 m.
TEST(SightProfile, ClearsARidgeByPencil) {
  site::Terrain t{{-20, -20}, 10.0 * m, 5, 5, std::vector<double>(25, 0.0)};
  for (size_t c = 0; c < 5; ++c) t.heights[2 * 5 + c] = 5;
  for (const Surface surface : {Surface::kTriangles, Surface::kGridLines}) {
    EXPECT_NEAR(clearance(t, surface, {3, -20, 8}, {3, 20, 8}), 3, 1e-12);
    EXPECT_NEAR(clearance(t, surface, {3, -20, 2}, {3, 20, 6}), -1, 1e-12);
    EXPECT_NEAR(clearance(t, surface, {-20, -20, 8}, {20, 20, 8}), 3, 1e-12) << "along the diagonals";
  }
}

TEST(SightProfile, DiagonalsCountOnTrianglesAlone) {
  // One cell with opposite corners raised: its diagonal from south-west to north-east is a ridge of 4 m.
  const site::Terrain t{{0, 0}, 10.0 * m, 2, 2, {4, 0, 0, 4}};
  EXPECT_NEAR(clearance(t, Surface::kTriangles, {9, 1, 5}, {1, 9, 5}), 1, 1e-12);
  EXPECT_EQ(clearance(t, Surface::kGridLines, {9, 1, 5}, {1, 9, 5}), std::numeric_limits<double>::infinity());
}

}  // namespace
}  // namespace sightfall::outside
