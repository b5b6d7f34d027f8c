// SPDX-License-Identifier: GPL-3.0-or-later
// Shapefiles in archives: good ones, those that lack something, and those that mean harm. The parts are written by the
// map's library itself; archives are put together by hand, but for one that the library packs.
#include "import/shape_archive.h"

#include <cpl_vsi.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>

#include "import/footprints.h"
#include "import/limits.h"
#include "import/test_files.h"
#include "import/test_zip.h"

namespace sightfall::import {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;

class ShapeArchives : public ::testing::Test {
 protected:
  /// A rectangle of 20 m x 10 m of the grid, 8 m high, in zone 32; its parts under this name.
  std::vector<ZipPart> parts(const std::string& called = "town", int epsg = 32632) const {
    const std::string file = folder.path(called + ".shp");
    if (!std::filesystem::exists(file))
      write_layer("ESRI Shapefile", file, called, epsg,
                  {{"POLYGON((500000 5205000,500020 5205000,500020 5205010,500000 5205010,500000 5205000))", "8"}});
    std::vector<ZipPart> found;
    for (const char* ending : {".shp", ".shx", ".dbf", ".prj"}) {
      std::ifstream stream(folder.path(called + ending), std::ios::binary);
      if (stream) found.push_back({called + ending, std::string(std::istreambuf_iterator<char>(stream), {})});
    }
    return found;
  }
  Result<FootprintImport> read(const std::string& bytes, const FootprintOptions& options = {}) const {
    return import_footprints(folder.write("packed.zip", bytes), {}, options, {});
  }
  std::string why_not(const std::string& bytes, const FootprintOptions& options = {}) const {
    const auto done = read(bytes, options);
    EXPECT_FALSE(done);
    return done ? "" : to_line(done.error());
  }
  static std::vector<ZipPart> without(std::vector<ZipPart> all, const std::string& name) {
    std::erase_if(all, [&](const ZipPart& part) { return part.name == name; });
    return all;
  }
  /// Nothing that was unpacked stays.
  void TearDown() override { EXPECT_EQ(VSIReadDir("/vsimem/"), nullptr); }

  const TestFolder folder;
};

// From memory: the check value of this CRC, for the digits 1 to 9, as catalogues of such sums have it.
TEST(Crc32, checks) { EXPECT_EQ(crc_32("123456789"), 0xCBF43926U); }

TEST_F(ShapeArchives, a_shapefile_in_an_archive_is_read_as_one_beside_it) {
  const auto packed = read(zip_of(parts()));
  ASSERT_TRUE(packed) << to_line(packed.error());
  const auto plain = import_footprints(folder.path("town.shp"), {}, {}, {});
  ASSERT_TRUE(plain);
  ASSERT_EQ(packed->solids.size(), 1U);
  EXPECT_EQ(packed->area.in(units::m2), plain->area.in(units::m2));
  EXPECT_EQ(packed->solids[0].height, 8.0 * units::m);
  EXPECT_EQ(packed->layer, "town");
}

TEST_F(ShapeArchives, folders_other_letters_and_what_systems_add_are_no_hindrance) {
  std::vector<ZipPart> all = parts();
  for (ZipPart& part : all) part.name = "maps/2026/" + part.name;
  all[0].name = "maps/2026/Town.SHP";
  all[1].name = "./maps\\2026\\TOWN.Shx";
  all.push_back({"maps/2026/._town.shp", "not a map"});
  all.push_back({"maps/read me.txt", "invented"});
  all.push_back({"maps/2026/", ""});
  const auto done = read(zip_of(all));
  ASSERT_TRUE(done) << to_line(done.error());
  EXPECT_EQ(done->layer, "Town");
}

TEST_F(ShapeArchives, one_that_the_library_packed_with_compression) {
  for (const ZipPart& part : parts()) {
    VSILFILE* into = VSIFOpenL(("/vsizip/" + folder.path("by_library.zip") + "/" + part.name).c_str(), "wb");
    ASSERT_NE(into, nullptr);
    VSIFWriteL(part.bytes.data(), 1, part.bytes.size(), into);
    VSIFCloseL(into);
  }
  const auto done = import_footprints(folder.path("by_library.zip"), {}, {}, {});
  ASSERT_TRUE(done) << to_line(done.error());
  EXPECT_EQ(done->solids.size(), 1U);
}

TEST_F(ShapeArchives, missing_parts_are_told_by_name) {
  EXPECT_THAT(why_not(zip_of(without(parts(), "town.shx"))),
              HasSubstr("beside town.shp is missing: town.shx; a Shapefile is .shp, .shx, .dbf and .prj together"));
  EXPECT_THAT(why_not(zip_of({parts()[0]})), HasSubstr("is missing: town.shx, town.dbf"));
  EXPECT_THAT(why_not(zip_of(without(parts(), "town.prj"))),
              HasSubstr("is missing: town.prj, which says the map projection"));
  FootprintOptions options;
  options.crs = "EPSG:32632";
  EXPECT_TRUE(read(zip_of(without(parts(), "town.prj")), options));
  EXPECT_THAT(why_not(zip_of(without(parts(), "town.shp"))),
              HasSubstr("it holds no outlines: found town.shx, town.dbf, town.prj; allowed"));
  EXPECT_THAT(why_not(zip_of({{"a.geojson", "{}"}})), HasSubstr("found a.geojson"));
  EXPECT_THAT(why_not(zip_of({})), HasSubstr("found nothing"));
}

TEST_F(ShapeArchives, of_several_one_is_named) {
  std::vector<ZipPart> both = parts();
  for (const ZipPart& part : parts("village")) both.push_back(part);
  EXPECT_THAT(why_not(zip_of(both)), HasSubstr("it has more than one layer: name one of "));
  FootprintOptions options;
  options.layer = "village";
  EXPECT_TRUE(read(zip_of(both), options));
  both = parts();
  both.push_back({"elsewhere/TOWN.shp", "x"});
  EXPECT_THAT(why_not(zip_of(both)), HasSubstr("it holds more than one \"TOWN.shp\""));
}

TEST_F(ShapeArchives, names_that_lead_out_are_refused) {
  for (const char* name :
       {"../town.cpg", "a/../../town.cpg", "/etc/town.cpg", "..\\town.cpg", "c:\\town.cpg", "..", "a/.."}) {
    std::vector<ZipPart> all = parts();
    all.push_back({name, "UTF-8"});
    EXPECT_THAT(why_not(zip_of(all)), HasSubstr("leads out of the archive")) << name;
  }
  std::vector<ZipPart> all = parts();
  all.push_back({"town..v2/a..b.txt", "two dots in a name lead nowhere"});
  EXPECT_TRUE(read(zip_of(all)));
  EXPECT_THAT(why_not(zip_of({{"../\x1b[2J.shp", ""}})), AllOf(HasSubstr("\"../?[2J.shp\""), Not(HasSubstr("\x1b"))));
}

TEST_F(ShapeArchives, too_many_files_are_refused) {
  std::vector<ZipPart> all = parts();
  while (all.size() < kMostParts) all.push_back({std::to_string(all.size()) + ".txt", ""});
  EXPECT_TRUE(read(zip_of(all)));
  all.push_back({"one.txt", ""});
  EXPECT_THAT(why_not(zip_of(all)), HasSubstr("it holds too many files; allowed: 200"));
  while (all.size() < 66'000) all.push_back({std::to_string(all.size()) + ".txt", ""});
  EXPECT_THAT(why_not(zip_of(all)), HasSubstr("it holds too many files")) << "more than 65535, which wraps its count";
}

/// 4 MiB of zeros take 4 kB when packed; what the directory says of them may be a lie. The bound is lowered for speed.
TEST_F(ShapeArchives, what_unpacks_to_too_much_is_refused_whatever_it_says) {
  const std::string bomb = folder.path("bomb.zip");
  std::vector<ZipPart> all = without(parts(), "town.dbf");
  all.push_back({"town.dbf", std::string(size_t{4} << 20U, '\0')});
  for (const ZipPart& part : all) {
    VSILFILE* into = VSIFOpenL(("/vsizip/" + bomb + "/" + part.name).c_str(), "wb");
    VSIFWriteL(part.bytes.data(), 1, part.bytes.size(), into);
    VSIFCloseL(into);
  }
  ASSERT_LT(std::filesystem::file_size(bomb), 20'000U);
  EXPECT_TRUE(ShapeArchive::unpack(bomb, false, size_t{5} << 20U));
  const auto large = ShapeArchive::unpack(bomb, false, size_t{3} << 20U);
  ASSERT_FALSE(large);
  EXPECT_EQ(large.error().text, "its parts are larger than 3 MiB when unpacked: cut it down first");
  EXPECT_EQ(kMostUnpacked, size_t{256} << 20U) << "the bound that holds where none is given";

  std::ifstream stream(bomb, std::ios::binary);
  std::string bytes(std::istreambuf_iterator<char>(stream), {});
  bytes.replace(bytes.rfind("PK\1\2") + 24, 4, zip_number(100, 4));
  EXPECT_THAT(why_not(bytes), HasSubstr("\"town.dbf\" in it is damaged"));
}

TEST_F(ShapeArchives, what_is_none_or_damaged_is_refused) {
  const std::string whole = zip_of(parts());
  for (const std::string& bytes : {std::string("no archive"), std::string("PK\5\6"), whole.substr(0, whole.size() / 2),
                                   whole.substr(0, whole.size() - 30)})
    EXPECT_THAT(why_not(bytes), HasSubstr("no ZIP archive that can be read"));
  std::vector<ZipPart> all = parts();
  all[2].says = 5;
  EXPECT_THAT(why_not(zip_of(all)), HasSubstr("\"town.dbf\" in it is damaged"));
  all = parts();
  all[2].says = 5'000'000;
  EXPECT_THAT(why_not(zip_of(all)), HasSubstr("\"town.dbf\" in it is damaged"));
  all = parts();
  all[0].encrypted = true;
  EXPECT_THAT(why_not(zip_of(all)), HasSubstr("\"town.shp\" is encrypted"));
  all = parts();
  all[0].bytes = "no outlines";
  EXPECT_THAT(why_not(zip_of(all)),
              AllOf(HasSubstr("a part of it cannot be read: "), HasSubstr("town.shp"), Not(HasSubstr("/vsimem"))))
      << "a path that nobody can look at";
}

/// Bytes changed at random: an import or an error, and nothing else.
TEST_F(ShapeArchives, damaged_archives_end_in_an_import_or_an_error) {
  const std::string whole = zip_of(parts());
  std::mt19937 random(5);
  int refused = 0;
  for (int i = 0; i < 60; ++i) {
    std::string bytes = whole;
    for (int flips = 0; flips < 4; ++flips) bytes[random() % bytes.size()] = static_cast<char>(random());
    if (!read(bytes)) ++refused;
  }
  EXPECT_GT(refused, 10);
}

}  // namespace
}  // namespace sightfall::import
