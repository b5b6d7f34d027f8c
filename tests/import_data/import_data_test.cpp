// SPDX-License-Identifier: GPL-3.0-or-later
// Imports of open data whose counts, areas and heights are known.
//   Data     the folder named by SIGHTFALL_DATA: buildings/delft_buildings_wgs84.geojson (160 roofs of Dutch open
//            geodata, 8654.0 m2 on the Dutch map grid), buildings/vaduz_buildings.geojson and
//            buildings/liechtenstein-2013-08-03.osm.pbf (OpenStreetMap contributors, ODbL; no heights), and
//            terrain/olinda_dem_utm25s.tif (111 x 111 cells of 90 m, -1 to 88 m)
#include <gmock/gmock.h>

#include <cstdlib>
#include <filesystem>
#include <string>

#include "import/footprints.h"
#include "import/terrain.h"

namespace sightfall::import {
namespace {

using namespace sightfall::units;
using testing::HasSubstr;

/// Areas of the same outlines by the ellipsoid's radii of curvature at each (a script of a dozen lines, apart from this
/// program and its libraries). The Dutch map grid is at 0.99994 of true scale in Delft, so 8654.05 m2 on it are 8655.1.
constexpr double kDelftOnMap = 8654.0, kDelftTrue = 8655.03, kVaduzTrue = 1'186'252.1;

class ImportData : public testing::Test {
 protected:
  void SetUp() override {
    const char* folder = std::getenv("SIGHTFALL_DATA");  // NOLINT(concurrency-mt-unsafe): one thread
    if (folder == nullptr || !std::filesystem::is_directory(folder))
      GTEST_SKIP() << "SIGHTFALL_DATA names no folder with the open data for this check";
    folder_ = folder;
  }
  std::string file(const std::string& name) const { return folder_ + "/" + name; }

 private:
  std::string folder_;
};

TEST_F(ImportData, roofs_of_a_town_keep_their_count_heights_and_area) {
  const auto done = import_footprints(file("buildings/delft_buildings_wgs84.geojson"), {}, {}, {});
  ASSERT_TRUE(done) << to_line(done.error());
  EXPECT_EQ(done->read, 160U);
  EXPECT_EQ(done->kept, 160U);
  EXPECT_EQ(done->solids.size(), 160U) << "each roof's triangles make one outline again";
  EXPECT_EQ(done->repaired.size() + done->dropped.size() + done->height_given, 0U);
  EXPECT_NEAR(done->lowest_height.in(m), 0.73, 1e-9);
  EXPECT_NEAR(done->highest_height.in(m), 8.29, 1e-9);
  EXPECT_NEAR(done->area.in(m2), kDelftTrue, 0.1);
  EXPECT_NEAR(done->area.in(m2) / kDelftOnMap, 1, 2e-4);
}

TEST_F(ImportData, a_town_without_heights_asks_for_one) {
  const std::string town = file("buildings/vaduz_buildings.geojson");
  const auto refused = import_footprints(town, {}, {}, {});
  ASSERT_FALSE(refused);
  EXPECT_THAT(to_line(refused.error()), HasSubstr("3723 of 3723 outlines state no height: give --height METRES"));

  FootprintOptions options;
  options.height = 7 * m;
  const auto done = import_footprints(town, {}, options, {});
  ASSERT_TRUE(done) << to_line(done.error());
  EXPECT_EQ(done->kept, 3723U);
  EXPECT_EQ(done->height_given, 3723U);
  EXPECT_NEAR(done->area.in(m2), kVaduzTrue, 2);
}

TEST_F(ImportData, the_same_town_from_the_openstreetmap_file) {
  FootprintOptions options;
  options.height = 7 * m;
  const auto done = import_footprints(file("buildings/liechtenstein-2013-08-03.osm.pbf"), {}, options, {});
  ASSERT_TRUE(done) << to_line(done.error());
  EXPECT_EQ(done->kept, 3723U);
  EXPECT_NEAR(done->area.in(m2), kVaduzTrue, 2);
}

TEST_F(ImportData, a_height_raster_keeps_its_cells_and_its_extremes) {
  const auto done = import_terrain(file("terrain/olinda_dem_utm25s.tif"), {}, {}, {});
  ASSERT_TRUE(done) << to_line(done.error());
  EXPECT_EQ(done->raster_columns, 111);
  EXPECT_EQ(done->raster_rows, 111);
  EXPECT_EQ(done->terrain.columns, 111);
  EXPECT_EQ(done->terrain.rows, 111);
  EXPECT_NEAR(done->terrain.step.in(m), 90, 0.05) << "90 m on the map, which is not quite at true scale there";
  EXPECT_EQ(done->lowest_read, -1 * m);
  EXPECT_EQ(done->highest_read, 88 * m);
  EXPECT_NEAR(done->lowest.in(m), -1, 0.05);
  EXPECT_NEAR(done->highest.in(m), 88, 0.05);
}

TEST_F(ImportData, the_same_raster_in_a_site_that_has_its_anchor_already) {
  const auto own = import_terrain(file("terrain/olinda_dem_utm25s.tif"), {}, {}, {});
  ASSERT_TRUE(own);
  site::Anchor north_up = own->anchor;
  north_up.turn = Angle{};
  const auto done = import_terrain(file("terrain/olinda_dem_utm25s.tif"), north_up, {}, {});
  ASSERT_TRUE(done) << to_line(done.error());
  EXPECT_GE(done->terrain.columns, 109) << "a quarter of a degree costs a row at each edge";
  EXPECT_GE(done->terrain.rows, 109);
  EXPECT_GE(done->lowest, -1 * m);
  EXPECT_LE(done->highest, 88 * m) << "what lies between cells is never higher than they are";
}

}  // namespace
}  // namespace sightfall::import
