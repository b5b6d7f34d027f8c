// SPDX-License-Identifier: GPL-3.0-or-later
// Outlines laid out by hand around 47 N 9.5 E, a metre in degrees taken from the ellipsoid's radii of curvature.
#include "import/footprints.h"

#include <fmt/format.h>
#include <gmock/gmock.h>

#include <atomic>
#include <cmath>

#include "import/test_files.h"

namespace sightfall::import {
namespace {

using namespace sightfall::units;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;

constexpr double kLatitude = 47, kLongitude = 9.5;

/// A plan point as the text of a longitude and a latitude; good to a millimetre within some hundred metres.
std::string place(geom::PlanPoint p) {
  constexpr double kSemiMajor = 6378137, kEccentricity2 = 0.00669437999014;
  const double sine = std::sin((kLatitude * deg).si()), w = 1 - kEccentricity2 * sine * sine;
  const double east = kSemiMajor / std::sqrt(w) * std::cos((kLatitude * deg).si());
  const double north = kSemiMajor * (1 - kEccentricity2) / std::pow(w, 1.5);
  return fmt::format("[{:.12f},{:.12f}]", kLongitude + (p.x / east * rad).in(deg),
                     kLatitude + (p.y / north * rad).in(deg));
}

std::string ring(const geom::Ring& points) {
  std::string text = "[";
  for (const geom::PlanPoint p : points) text += place(p) + ",";
  return text + place(points.front()) + "]";
}

geom::Ring rectangle(double x, double y, double width, double depth) {
  return {{x, y}, {x + width, y}, {x + width, y + depth}, {x, y + depth}};
}

std::string building(const std::string& properties, const geom::Ring& outer) {
  return feature(properties, "Polygon", "[" + ring(outer) + "]");
}

class Footprints : public testing::Test {
 protected:
  Footprints() {
    anchor.latitude = kLatitude * deg;
    anchor.longitude = kLongitude * deg;
  }

  Result<FootprintImport> import_features(const std::vector<std::string>& features,
                                          const FootprintOptions& options = {}) {
    return import_footprints(folder.write("town.geojson", geojson(features)), anchor, options, {});
  }
  std::string refused(const std::vector<std::string>& features, const FootprintOptions& options = {}) {
    const auto done = import_features(features, options);
    return done ? "" : to_line(done.error());
  }

  TestFolder folder;
  site::Anchor anchor;
};

TEST_F(Footprints, a_rectangle_keeps_its_corners_its_area_and_its_height) {
  const auto done = import_features({building(R"("id":"a7","height":8.5)", rectangle(100, -50, 20, 10))});
  ASSERT_TRUE(done) << to_line(done.error());
  ASSERT_EQ(done->solids.size(), 1U);
  const site::Solid& solid = done->solids[0];
  EXPECT_EQ(solid.name, "building a7");
  EXPECT_EQ(solid.kind, site::SolidKind::kBuilding);
  EXPECT_EQ(solid.height, 8.5 * m);
  EXPECT_FALSE(solid.base);
  ASSERT_EQ(solid.outline.outer.size(), 4U);
  for (size_t i = 0; i < 4; ++i) EXPECT_LT(norm(solid.outline.outer[i] - rectangle(100, -50, 20, 10)[i]), 0.002) << i;
  EXPECT_NEAR(done->area.in(m2), 200, 0.05);
  EXPECT_FALSE(done->new_anchor);
}

TEST_F(Footprints, a_turned_site_turns_its_outlines) {
  anchor.turn = 90 * deg;  // true north along x
  const auto done = import_features({building(R"("height":3)", rectangle(0, 100, 20, 10))});
  ASSERT_TRUE(done) << to_line(done.error());
  const geom::PlanPoint corner = done->solids[0].outline.outer[0];
  EXPECT_NEAR(corner.x, 100, 0.002);
  EXPECT_NEAR(corner.y, 0, 0.002);
}

TEST_F(Footprints, a_site_without_an_anchor_gets_one_amid_the_outlines) {
  const std::string file =
      folder.write("town.geojson", geojson({building(R"("height":3)", rectangle(-100, 0, 20, 10)),
                                            building(R"("height":3)", rectangle(100, 0, 20, 10))}));
  const auto done = import_footprints(file, {}, {}, {});
  ASSERT_TRUE(done) << to_line(done.error());
  EXPECT_TRUE(done->new_anchor);
  EXPECT_NEAR(done->anchor.latitude.in(deg), kLatitude, 1e-5);
  EXPECT_NEAR(done->anchor.longitude.in(deg), kLongitude, 1e-5);
  EXPECT_THAT(summary(*done).back(), HasSubstr("47.000000 N 9.500000 E"));
}

TEST_F(Footprints, yards_stay_open_and_parts_apart_become_solids_of_their_own) {
  const std::string yard = "[" + ring(rectangle(0, 0, 20, 20)) + "," + ring(rectangle(5, 5, 10, 10)) + "]";
  const std::string shed = "[" + ring(rectangle(40, 0, 5, 4)) + "]";
  const auto done = import_features({feature(R"("id":7,"height":6)", "MultiPolygon", "[" + yard + "," + shed + "]")});
  ASSERT_TRUE(done) << to_line(done.error());
  ASSERT_EQ(done->solids.size(), 2U);
  EXPECT_EQ(done->kept, 1U);
  EXPECT_EQ(done->solids[0].name, "building 7 part 1");
  EXPECT_EQ(done->solids[0].outline.holes.size() + done->solids[1].outline.holes.size(), 1U);
  EXPECT_NEAR(done->area.in(m2), 400 - 100 + 20, 0.1);
}

TEST_F(Footprints, names_are_unique_also_beside_those_that_the_site_has) {
  FootprintOptions options;
  options.taken_names = {"building 1"};
  const auto done = import_features(
      {building(R"("height":3)", rectangle(0, 0, 5, 5)), building(R"("id":"x","height":3)", rectangle(10, 0, 5, 5)),
       building(R"("id":"x","height":3)", rectangle(20, 0, 5, 5))},
      options);
  ASSERT_TRUE(done) << to_line(done.error());
  std::vector<std::string> names;
  for (const site::Solid& solid : done->solids) names.push_back(solid.name);
  EXPECT_THAT(names, ElementsAre("building 1 (2)", "building x", "building x (2)"));
}

TEST_F(Footprints, a_long_or_odd_id_becomes_a_name_that_fits) {
  const auto done =
      import_features({building(R"("id":"a\n)" + std::string(200, 'e') + R"(","height":3)", rectangle(0, 0, 5, 5))});
  ASSERT_TRUE(done) << to_line(done.error());
  EXPECT_LE(done->solids[0].name.size(), 80U);
  EXPECT_THAT(done->solids[0].name, Not(HasSubstr("\n")));
}

TEST_F(Footprints, missing_heights_are_asked_for_and_counted) {
  const std::vector<std::string> features{building(R"("height":3)", rectangle(0, 0, 5, 5)),
                                          building(R"("height":null)", rectangle(10, 0, 5, 5)),
                                          building(R"("height":"about 8")", rectangle(20, 0, 5, 5))};
  EXPECT_THAT(refused(features), HasSubstr("2 of 3 outlines state no height (such as building 3: height \"about 8\"): "
                                           "give --height METRES for those"));
  FootprintOptions options;
  options.height = 7 * m;
  const auto done = import_features(features, options);
  ASSERT_TRUE(done) << to_line(done.error());
  EXPECT_EQ(done->height_given, 2U);
  EXPECT_EQ(done->solids[0].height, 3 * m);
  EXPECT_EQ(done->solids[1].height, 7 * m);
  EXPECT_EQ(done->misread.size(), 1U);
  EXPECT_EQ(done->lowest_height, 3 * m);
  EXPECT_EQ(done->highest_height, 7 * m);
}

TEST_F(Footprints, storeys_are_no_height) {
  EXPECT_THAT(refused({building(R"("building:levels":"2")", rectangle(0, 0, 5, 5))}), HasSubstr("1 of 1 outlines"));
}

TEST_F(Footprints, heights_come_from_tags_and_from_the_attribute_that_is_named) {
  const auto tagged = import_features({building(R"("other_tags":"\"height\"=>\"8 m\"")", rectangle(0, 0, 5, 5))});
  ASSERT_TRUE(tagged) << to_line(tagged.error());
  EXPECT_EQ(tagged->solids[0].height, 8 * m);

  FootprintOptions options;
  options.height_field = "eaves";
  const auto named = import_features({building(R"("height":9,"eaves":"5.5")", rectangle(0, 0, 5, 5))}, options);
  ASSERT_TRUE(named) << to_line(named.error());
  EXPECT_EQ(named->solids[0].height, 5.5 * m);
  EXPECT_THAT(refused({building(R"("height":9)", rectangle(0, 0, 5, 5))}, options),
              HasSubstr("have no \"eaves\"; they have height"));
}

TEST_F(Footprints, a_base_is_taken_when_its_attribute_is_named) {
  anchor.height = 450 * m;
  FootprintOptions options;
  options.base_field = "base_z";
  const auto done = import_features({building(R"("height":9,"base_z":452.5)", rectangle(0, 0, 5, 5))}, options);
  ASSERT_TRUE(done) << to_line(done.error());
  EXPECT_EQ(done->solids[0].base, 2.5 * m);
}

TEST_F(Footprints, what_is_no_building_is_left_out_and_counted) {
  const auto done = import_features({building(R"("building":"yes","height":3)", rectangle(0, 0, 5, 5)),
                                     building(R"("building":null,"height":3)", rectangle(10, 0, 5, 5)),
                                     feature(R"("building":"yes")", "Point", place({3, 3}))});
  ASSERT_TRUE(done) << to_line(done.error());
  EXPECT_EQ(done->read, 3U);
  EXPECT_EQ(done->kept, 1U);
  EXPECT_EQ(done->not_buildings, 1U);
  EXPECT_EQ(done->not_areas, 1U);
}

TEST_F(Footprints, only_what_is_near_enough_is_kept) {
  const std::vector<std::string> features{building(R"("height":3)", rectangle(-300, -5, 600, 10)),
                                          building("", rectangle(101, 0, 50, 50))};
  FootprintOptions options;
  options.most_distance = 100 * m;
  const auto done = import_features(features, options);
  ASSERT_TRUE(done) << "an outline around the origin is near; a far one needs no height: " << to_line(done.error());
  EXPECT_EQ(done->kept, 1U);
  EXPECT_EQ(done->beyond, 1U);
  anchor.latitude = 48 * deg;
  EXPECT_THAT(refused(features, options), HasSubstr("none of its 2 outlines lies within 100 m of the site's origin"));
}

TEST_F(Footprints, a_crossed_outline_is_repaired_and_an_empty_one_dropped_both_by_name) {
  const auto done = import_features({building(R"("id":"bow","height":3)", {{0, 0}, {4, 4}, {4, 0}, {0, 4}}),
                                     building(R"("id":"line","height":3)", {{0, 0}, {4, 0}, {8, 0}})});
  ASSERT_TRUE(done) << to_line(done.error());
  ASSERT_EQ(done->repaired.size(), 1U);
  EXPECT_EQ(done->repaired[0].name, "building bow");
  ASSERT_EQ(done->dropped.size(), 1U);
  EXPECT_EQ(done->dropped[0].name, "building line");
  EXPECT_NEAR(done->area.in(m2), 8, 0.01);
}

TEST_F(Footprints, other_formats_and_projections_give_the_same_rectangle) {
  // UTM zone 32: 9 E is its central meridian, at 0.9996 of true scale.
  const std::vector<Shape> shapes{
      {"POLYGON((500000 5205000,500020 5205000,500020 5205010,500000 5205010,500000 5205000))", "26 ft"}};
  for (const auto& [driver, name] : {std::pair{"GPKG", "a.gpkg"}, std::pair{"ESRI Shapefile", "a.shp"}}) {
    const std::string file = folder.path(name);
    write_layer(driver, file, "a", 32632, shapes);
    const auto done = import_footprints(file, {}, {}, {});
    ASSERT_TRUE(done) << to_line(done.error());
    EXPECT_NEAR(done->area.in(m2), 200 / (0.9996 * 0.9996), 0.05) << driver;
    EXPECT_NEAR(done->solids[0].height.in(m), 26 * 0.3048, 1e-9) << driver;
  }
}

TEST_F(Footprints, a_file_without_a_projection_asks_for_one) {
  const std::string file = folder.path("a.shp");
  write_layer("ESRI Shapefile", file, "a", 0,
              {{"POLYGON((500000 5205000,500020 5205000,500020 5205010,500000 5205000))", "8"}});
  const auto done = import_footprints(file, {}, {}, {});
  ASSERT_FALSE(done);
  EXPECT_THAT(to_line(done.error()), HasSubstr("does not say which map projection"));
  FootprintOptions options;
  options.crs = "EPSG:32632";
  EXPECT_TRUE(import_footprints(file, {}, options, {}));
}

TEST_F(Footprints, buildings_in_an_openstreetmap_file) {
  const std::string file =
      folder.write("a.osm", R"(<osm version="0.6"><node id="1" lat="47" lon="9.5"/><node id="2" lat="47" lon="9.501"/>
      <node id="3" lat="47.001" lon="9.501"/><way id="9"><nd ref="1"/><nd ref="2"/><nd ref="3"/><nd ref="1"/>
      <tag k="building" v="yes"/><tag k="height" v="8 m"/></way></osm>)");
  const auto done = import_footprints(file, anchor, {}, {});
  ASSERT_TRUE(done) << to_line(done.error());
  EXPECT_EQ(done->solids[0].name, "building 9");
  EXPECT_EQ(done->solids[0].height, 8 * m);
}

TEST_F(Footprints, one_of_several_layers_has_to_be_named) {
  const std::string file = folder.path("a.gpkg");
  const std::vector<Shape> shapes{{"POLYGON((500000 5205000,500020 5205000,500020 5205010,500000 5205000))", "8"}};
  write_layer("GPKG", file, "roofs", 32632, shapes);
  write_layer("GPKG", file, "yards", 32632, shapes);
  FootprintOptions options;
  const auto both = import_footprints(file, {}, options, {});
  ASSERT_FALSE(both);
  EXPECT_THAT(to_line(both.error()), HasSubstr("a.gpkg: it has more than one layer: name one of roofs, yards"));
  options.layer = "barns";
  EXPECT_THAT(import_footprints(file, {}, options, {}).error().text,
              HasSubstr("no layer \"barns\"; it has roofs, yards"));
  options.layer = "roofs";
  EXPECT_TRUE(import_footprints(file, {}, options, {}));
}

TEST_F(Footprints, degrees_that_are_metres_are_told) {
  EXPECT_THAT(
      refused({feature(R"("height":3)", "Polygon", "[[[85000,446000],[85010,446000],[85010,446010],[85000,446000]]]")}),
      HasSubstr("nowhere on the earth"));
}

TEST_F(Footprints, files_that_are_none_are_told) {
  const auto text = [&](const std::string& file) { return to_line(import_footprints(file, anchor, {}, {}).error()); };
  EXPECT_THAT(text(folder.path("missing.geojson")), HasSubstr("there is no such file"));
  EXPECT_THAT(text("/vsicurl/http://localhost/a.geojson"), HasSubstr("there is no such file"));
  EXPECT_THAT(text(folder.path("")), HasSubstr("not a file that can be read"));
  EXPECT_THAT(text(folder.write("empty.geojson", "")), HasSubstr("no map file that is read here"));
  EXPECT_THAT(text(folder.write("words.txt", "a town of forty houses")), HasSubstr("no map file that is read here"));
  EXPECT_THAT(refused({}), HasSubstr("none of its 0 features is a building's outline"));
  const std::string whole = geojson({building(R"("height":3)", rectangle(0, 0, 5, 5))});
  EXPECT_FALSE(import_footprints(folder.write("cut.geojson", whole.substr(0, whole.size() / 2)), anchor, {}, {}));
}

TEST_F(Footprints, requests_out_of_range_are_told) {
  FootprintOptions options;
  options.height = -1 * m;
  EXPECT_THAT(refused({}, options), HasSubstr("a height of -1 m; allowed is above 0, up to 1000 m"));
  options = {};
  options.most_distance = Length{std::nan("")};
  EXPECT_THAT(refused({}, options), HasSubstr("allowed is above 0, up to 20000 m"));
}

TEST_F(Footprints, it_tells_its_progress_and_stops_when_asked) {
  const std::string file = folder.write("town.geojson", geojson({building(R"("height":3)", rectangle(0, 0, 5, 5))}));
  std::vector<double> shares;
  Progress progress;
  progress.tell = [&](double share, std::string_view) { shares.push_back(share); };
  ASSERT_TRUE(import_footprints(file, anchor, {}, progress));
  EXPECT_FALSE(shares.empty());
  EXPECT_TRUE(std::is_sorted(shares.begin(), shares.end()));
  const std::atomic<bool> stop = true;
  progress.stop = &stop;
  const auto stopped = import_footprints(file, anchor, {}, progress);
  ASSERT_FALSE(stopped);
  EXPECT_THAT(stopped.error().text, HasSubstr("stopped"));
}

}  // namespace
}  // namespace sightfall::import
