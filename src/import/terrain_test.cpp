// SPDX-License-Identifier: GPL-3.0-or-later
#include "import/terrain.h"

#include <gmock/gmock.h>

#include <atomic>
#include <cmath>

#include "import/test_files.h"

namespace sightfall::import {
namespace {

using namespace sightfall::units;
using testing::HasSubstr;

/// Centred on 47 N 9.5 E: the site frame of an anchor there.
constexpr const char* kLocal = "+proj=tmerc +lat_0=47 +lon_0=9.5 +k=1 +datum=WGS84 +units=m";

constexpr double kCell = 10;

/// 21 x 11 cells of 10 m whose middle cell is centred on 47 N 9.5 E.
RasterSpec around_origin() {
  RasterSpec spec;
  spec.columns = 21;
  spec.rows = 11;
  spec.map_from_corner = {-105, kCell, 0, 55, 0, -kCell};
  spec.crs = kLocal;
  return spec;
}

double x_of(int column) { return (column - 10) * kCell; }
double y_of(int row) { return (5 - row) * kCell; }

double at(const site::Terrain& terrain, int column, int row) {
  return terrain.heights[static_cast<size_t>(row) * static_cast<size_t>(terrain.columns) + static_cast<size_t>(column)];
}

class TerrainFile : public testing::Test {
 protected:
  TerrainFile() {
    anchor->latitude = 47 * deg;
    anchor->longitude = 9.5 * deg;
  }
  Result<TerrainImport> import_raster(const RasterSpec& spec, const TerrainOptions& options = {}) {
    write_raster(folder.path("ground.tif"), spec);
    return import_terrain(folder.path("ground.tif"), anchor, options, {});
  }
  std::string refused(const RasterSpec& spec, const TerrainOptions& options = {}) {
    const auto done = import_raster(spec, options);
    return done ? "" : to_line(done.error());
  }

  TestFolder folder;
  std::optional<site::Anchor> anchor = site::Anchor{};
};

TEST_F(TerrainFile, a_raster_along_the_site_frame_keeps_its_own_cells) {
  RasterSpec spec = around_origin();
  spec.height = [](int column, int row) { return (column * 7 + row * 13) % 17; };
  const auto done = import_raster(spec);
  ASSERT_TRUE(done) << to_line(done.error());
  const site::Terrain& terrain = done->terrain;
  ASSERT_EQ(terrain.columns, 21);
  ASSERT_EQ(terrain.rows, 11);
  EXPECT_NEAR(terrain.step.in(m), kCell, 1e-6);
  EXPECT_NEAR(terrain.south_west.x, -100, 1e-3);
  EXPECT_NEAR(terrain.south_west.y, -50, 1e-3);
  for (int row = 0; row < 11; ++row)
    for (int column = 0; column < 21; ++column)
      ASSERT_DOUBLE_EQ(at(terrain, column, row), spec.height(column, 10 - row)) << "row 0 lies in the south";
}

TEST_F(TerrainFile, heights_are_above_the_anchors) {
  anchor->height = 450 * m;
  RasterSpec spec = around_origin();
  spec.height = [](int, int) { return 452.25; };
  const auto done = import_raster(spec);
  ASSERT_TRUE(done) << to_line(done.error());
  EXPECT_DOUBLE_EQ(at(done->terrain, 3, 3), 2.25);
  EXPECT_EQ(done->lowest, 452.25 * m);
}

TEST_F(TerrainFile, a_new_anchor_lies_in_the_middle_at_the_lowest_height) {
  anchor.reset();
  RasterSpec spec = around_origin();
  spec.height = [](int column, int) { return 450.75 + column; };
  const auto done = import_raster(spec);
  ASSERT_TRUE(done) << to_line(done.error());
  EXPECT_TRUE(done->new_anchor);
  EXPECT_NEAR(done->anchor.latitude.in(deg), 47, 1e-6);
  EXPECT_NEAR(done->anchor.longitude.in(deg), 9.5, 1e-6);
  EXPECT_EQ(done->anchor.height, 450 * m);
  EXPECT_DOUBLE_EQ(at(done->terrain, 0, 0), 0.75);
}

TEST_F(TerrainFile, a_new_sites_frame_lies_along_the_raster) {
  anchor.reset();
  RasterSpec spec = around_origin();
  spec.crs = "EPSG:32632";  // 3 degrees east of 9 E at 60 N, the map's north is 2.6 degrees clockwise of true north
  spec.map_from_corner = {666'000, kCell, 0, 6'655'000, 0, -kCell};
  spec.height = [](int column, int row) { return (column * 7 + row * 13) % 17; };
  const auto done = import_raster(spec);
  ASSERT_TRUE(done) << to_line(done.error());
  EXPECT_EQ(done->terrain.columns, 21);
  EXPECT_EQ(done->terrain.rows, 11);
  const double longitude = done->anchor.longitude.in(deg)-9;
  const double convergence = longitude * std::sin(done->anchor.latitude.si());
  EXPECT_GT(convergence, 2);
  EXPECT_NEAR(done->anchor.turn.in(deg), -convergence, 0.01);
  for (int row = 0; row < 11; ++row)
    for (int column = 0; column < 21; ++column)
      ASSERT_NEAR(at(done->terrain, column, row), spec.height(column, 10 - row), 0.02);
}

TEST_F(TerrainFile, a_plane_stays_a_plane_in_a_turned_frame) {
  anchor->turn = 30 * deg;
  RasterSpec spec = around_origin();
  spec.height = [](int column, int row) { return 100 + 0.1 * x_of(column) - 0.2 * y_of(row); };
  TerrainOptions options;
  options.step = 7 * m;
  const auto done = import_raster(spec, options);
  ASSERT_TRUE(done) << to_line(done.error());
  const site::Terrain& terrain = done->terrain;
  EXPECT_GT(terrain.columns * terrain.rows, 60) << "the largest rectangle within the turned raster";
  const double c = std::cos((30 * deg).si()), s = std::sin((30 * deg).si());
  for (int row = 0; row < terrain.rows; ++row)
    for (int column = 0; column < terrain.columns; ++column) {
      const double x = terrain.south_west.x + column * 7, y = terrain.south_west.y + row * 7;
      const double east = x * c - y * s, north = y * c + x * s;
      ASSERT_NEAR(at(terrain, column, row), 100 + 0.1 * east - 0.2 * north, 2e-3);
      ASSERT_LE(std::abs(east), 100.3);
      ASSERT_LE(std::abs(north), 50.3);
    }
}

TEST_F(TerrainFile, a_coarser_step_takes_means) {
  RasterSpec spec = around_origin();
  spec.columns = spec.rows = 40;
  spec.map_from_corner = {-200, kCell, 0, 200, 0, -kCell};
  spec.height = [](int column, int row) { return (column + row) % 2 == 0 ? 4.0 : 8.0; };
  TerrainOptions options;
  options.step = 40 * m;
  const auto done = import_raster(spec, options);
  ASSERT_TRUE(done) << to_line(done.error());
  EXPECT_EQ(done->averaged, 4);
  for (const double height : done->terrain.heights) EXPECT_DOUBLE_EQ(height, 6);
  EXPECT_EQ(done->highest_read, 8 * m);
}

TEST_F(TerrainFile, a_plane_stays_a_plane_when_means_do_not_fit_the_raster) {
  RasterSpec spec = around_origin();
  spec.height = [](int column, int row) { return 100 + 0.1 * x_of(column) - 0.2 * y_of(row); };
  for (const double step : {20.0, 30.0, 37.0}) {
    TerrainOptions options;
    options.step = step * m;
    const auto done = import_raster(spec, options);
    ASSERT_TRUE(done) << to_line(done.error());
    const site::Terrain& terrain = done->terrain;
    for (int row = 0; row < terrain.rows; ++row)
      for (int column = 0; column < terrain.columns; ++column) {
        const double x = terrain.south_west.x + column * step, y = terrain.south_west.y + row * step;
        ASSERT_NEAR(at(terrain, column, row), 100 + 0.1 * x - 0.2 * y, 0.05) << step << ": " << column << ", " << row;
      }
  }
}

TEST_F(TerrainFile, a_distance_makes_a_square_around_the_origin) {
  TerrainOptions options;
  options.most_distance = 45 * m;
  const auto done = import_raster(around_origin(), options);
  ASSERT_TRUE(done) << to_line(done.error());
  EXPECT_EQ(done->terrain.columns, 9);
  EXPECT_EQ(done->terrain.rows, 9);
  EXPECT_NEAR(done->terrain.south_west.x, -40, 1e-3);
  options.most_distance = 80 * m;
  EXPECT_THAT(refused(around_origin(), options),
              HasSubstr("102 of 289 points have no height: 102 lie beyond the raster"));
}

TEST_F(TerrainFile, holes_are_counted_and_filled_only_when_asked) {
  RasterSpec spec = around_origin();
  spec.has_no_data = true;
  spec.height = [](int column, int row) { return column == 3 && row < 2 ? -9999.0 : 12.0; };
  EXPECT_THAT(refused(spec), HasSubstr("2 of 231 points have no height"));
  TerrainOptions options;
  options.fill = 5 * m;
  const auto done = import_raster(spec, options);
  ASSERT_TRUE(done) << to_line(done.error());
  EXPECT_EQ(done->filled, 2U);
  EXPECT_DOUBLE_EQ(at(done->terrain, 3, 10), 5);
  EXPECT_DOUBLE_EQ(at(done->terrain, 3, 8), 12);
}

TEST_F(TerrainFile, marks_for_no_data_that_are_not_declared_are_no_heights) {
  for (const double mark : {-9999.0, -32768.0, 1e30, std::nan("")}) {
    RasterSpec spec = around_origin();
    spec.height = [mark](int column, int row) { return column == 3 && row == 4 ? mark : 12.0; };
    EXPECT_THAT(refused(spec), HasSubstr("1 of 231 points have no height")) << mark;
  }
}

TEST_F(TerrainFile, feet_become_metres_and_other_units_are_refused) {
  RasterSpec spec = around_origin();
  spec.height = [](int, int) { return 100.0; };
  spec.unit = "ft";
  const auto done = import_raster(spec);
  ASSERT_TRUE(done) << to_line(done.error());
  EXPECT_DOUBLE_EQ(at(done->terrain, 0, 0), 30.48);
  EXPECT_TRUE(done->unit_stated);
  spec.unit = "furlong";
  EXPECT_THAT(refused(spec), HasSubstr("its heights are in \"furlong\"; metres and feet are known"));
}

TEST_F(TerrainFile, rasters_that_hold_no_heights_are_told) {
  RasterSpec spec = around_origin();
  spec.bands = 3;
  EXPECT_THAT(refused(spec), HasSubstr("it has 3 bands; a height raster has one"));
  spec = around_origin();
  spec.type = "CFloat32";
  EXPECT_THAT(refused(spec), HasSubstr("complex numbers"));
  spec = around_origin();
  spec.crs = "";
  EXPECT_THAT(refused(spec), HasSubstr("does not say which map projection"));
  TerrainOptions options;
  options.crs = "EPSG:2056";
  EXPECT_THAT(refused(spec, options), HasSubstr("ground.tif"));
}

TEST_F(TerrainFile, files_that_are_none_are_told) {
  const auto text = [&](const std::string& file) { return to_line(import_terrain(file, anchor, {}, {}).error()); };
  EXPECT_THAT(text(folder.path("missing.tif")), HasSubstr("there is no such file"));
  EXPECT_THAT(text(folder.write("words.tif", "not a raster at all")), HasSubstr("no raster that is read here"));
  EXPECT_THAT(text(folder.write("cut.tif", std::string("II*\0\x08\0\0\0\xff\xff", 10))), HasSubstr("no raster"));
}

TEST_F(TerrainFile, a_raster_elsewhere_is_told) {
  anchor->latitude = 40 * deg;
  EXPECT_THAT(refused(around_origin()), HasSubstr("farther than 20000 m from the site's origin"));
  TerrainOptions options;
  options.most_distance = 50 * m;
  EXPECT_THAT(refused(around_origin(), options), HasSubstr("does not reach the site at 40.000000 N 9.500000 E"));
}

TEST_F(TerrainFile, more_points_than_are_taken_are_told_before_anything_is_read) {
  RasterSpec spec = around_origin();
  TerrainOptions options;
  options.step = 10 * mm;
  EXPECT_THAT(refused(spec, options), HasSubstr("at most 4000000 points are taken"));
  options.step = Length{std::nan("")};
  EXPECT_THAT(refused(spec, options), HasSubstr("allowed is 0.01 to 20000 m"));
  options.step = 500 * m;
  EXPECT_THAT(refused(spec, options), HasSubstr("leaves less than 2 x 2 points"));
}

TEST_F(TerrainFile, it_tells_its_progress_and_stops_when_asked) {
  write_raster(folder.path("ground.tif"), around_origin());
  std::vector<double> shares;
  Progress progress;
  progress.tell = [&](double share, std::string_view) { shares.push_back(share); };
  ASSERT_TRUE(import_terrain(folder.path("ground.tif"), anchor, {}, progress));
  EXPECT_FALSE(shares.empty());
  EXPECT_TRUE(std::is_sorted(shares.begin(), shares.end()));
  const std::atomic<bool> stop = true;
  progress.stop = &stop;
  EXPECT_FALSE(import_terrain(folder.path("ground.tif"), anchor, {}, progress));
}

}  // namespace
}  // namespace sightfall::import
