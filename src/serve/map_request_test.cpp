// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/map_request.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace sightfall::serve {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::MatchesRegex;

Checked<MapRequest> read(const std::string& query, MapKind kind = MapKind::kFootprints) {
  const auto target = parse_target("/api/import/map?words=from+a+map&" + query);
  EXPECT_TRUE(target) << query;
  return target ? read_map_request(kind, *target) : tl::make_unexpected(Errors{});
}
Error refusal(const std::string& query, MapKind kind = MapKind::kFootprints) {
  const auto request = read(query, kind);
  EXPECT_FALSE(request) << query;
  return request || request.error().empty() ? Error{} : request.error().front();
}
std::string copy_of(const std::string& name, MapKind kind = MapKind::kFootprints) {
  const auto request = read("name=" + name, kind);
  return request ? request->file : "";
}

TEST(MapRequest, OnlyEndingsOfMapsAreTaken) {
  for (const char* name : {"a.shp", "a.vrt", "a.zip.gz", "a.geojson.gz", "a.csv", "geojson", "", ".", "a.", "a.tif"})
    EXPECT_THAT(refusal("name=" + std::string(name)).text, HasSubstr("allowed: a name that ends in .geojson")) << name;
  EXPECT_EQ(refusal("").where.field, "name");
  EXPECT_THAT(refusal("name=a.shp").text, HasSubstr("a Shapefile is several files"));
  EXPECT_EQ(copy_of("A%20Town.ZIP"), "ATown.zip");
  EXPECT_THAT(refusal("name=a.zip", MapKind::kTerrain).text, HasSubstr("ends in .tif"));
  EXPECT_THAT(refusal("name=a.geojson", MapKind::kTerrain).text, HasSubstr("ends in .tif"));
  EXPECT_EQ(copy_of("A%20Town.GeoJSON"), "ATown.geojson");
  EXPECT_EQ(copy_of("N46E009.hgt", MapKind::kTerrain), "N46E009.hgt") << "says by its name where it lies";
}

/// Names that would lead elsewhere were they taken for paths, for GDAL's network and archive folders, or for options.
TEST(MapRequest, ANameIsNeverAPath) {
  for (const char* name :
       {"../../a.geojson", "/etc/passwd.json", "..%2F..%2Fsite.sightfall.json", "/vsicurl/http://127.0.0.1:1/a.geojson",
        "/vsizip/a.zip/a.geojson", "GPKG:a.gpkg.geojson", "--layer=x.geojson", "-.geojson", "%E2%80%AE.geojson",
        "$(touch%20x).geojson", "a;b%22'.geojson", "site.sightfall.json", ".geojson"})
    EXPECT_THAT(copy_of(name), MatchesRegex("[A-Za-z0-9_][-A-Za-z0-9_]*\\.(geojson|json)")) << name;
  EXPECT_NE(copy_of("site.sightfall.json"), "site.sightfall.json") << "the copy of the document";
  EXPECT_LE(copy_of(std::string(3000, 'a') + ".geojson").size(), 60U);
  EXPECT_FALSE(parse_target("/api/import/map?name=a%00b.geojson"));
  EXPECT_FALSE(parse_target("/api/import/map?name=a%0Ab.geojson"));
}

TEST(MapRequest, ValuesBecomeOptionsOfTheirOwn) {
  EXPECT_THAT(read("name=a.json&height_m=6&within_m=2.5e2&layer=--crs&crs=EPSG:28992")->options,
              ElementsAre("--within=250", "--height=6", "--layer=--crs", "--crs=EPSG:28992"));
  EXPECT_THAT(read("name=a.tif&step_m=0.5&fill_m=-3", MapKind::kTerrain)->options,
              ElementsAre("--step=0.5", "--fill=-3"));
  EXPECT_THAT(read("name=a.json")->options, IsEmpty());
}

TEST(MapRequest, WhatIsNotAllowedIsRefusedByItsField) {
  for (const auto& [query, field] :
       std::vector<std::pair<std::string, std::string>>{{"height_m=2000", "height_m"},
                                                        {"height_m=tall", "height_m"},
                                                        {"height_m=nan", "height_m"},
                                                        {"height_m=", "height_m"},
                                                        {"height_m=6&height_m=7", "height_m"},
                                                        {"within_m=0", "within_m"},
                                                        {"within_m=inf", "within_m"},
                                                        {"step_m=1", "step_m"},
                                                        {"into=b", "into"},
                                                        {"words=twice", "words"},
                                                        {"latitude_deg=91&longitude_deg=0", "latitude_deg"},
                                                        {"latitude_deg=5", "longitude_deg"},
                                                        {"longitude_deg=5", "latitude_deg"}})
    EXPECT_EQ(refusal("name=a.geojson&" + query).where.field, field) << query;
  EXPECT_EQ(refusal("name=a.tif&height_m=6", MapKind::kTerrain).where.field, "height_m");
}

TEST(MapRequest, APlaceIsLatitudeAndLongitude) {
  EXPECT_EQ(read("name=a.json&latitude_deg=48.1&longitude_deg=-11.6")->anchor,
            (file::Value{file::Object{{"latitude_deg", 48.1}, {"longitude_deg", -11.6}}}));
  EXPECT_TRUE(read("name=a.json")->anchor.null());
}

}  // namespace
}  // namespace sightfall::serve
