// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/project.h"

#include <gtest/gtest.h>

#include <chrono>
#include <random>

#include "file/golden_test.h"
#include "file/photometry.h"

namespace sightfall::file {
namespace {

using namespace units;

std::filesystem::path full_example() { return source_folder() / "schema" / "examples" / "full.sightfall.json"; }

need::Project parsed(const std::string& text) {
  auto project = parse_project(text, "t", lamp_files_beside(full_example().string()));
  EXPECT_TRUE(project.has_value()) << to_line(project.error().front()) << "\n" << text;
  return project ? *project : need::Project{};
}

std::string document(const std::string& site, const std::string& rest = "") {
  return R"({"sightfall": 1, "name": "t", "site": {)" + site + R"(}, "conditions": [{"name": "day", "leaves": "on"}])" +
         rest + "}";
}

Errors errors_of(const std::string& text) {
  const auto project = parse_project(text, "t");
  return project ? Errors{} : project.error();
}

TEST(Project, QuantitiesAreReadInTheirUnits) {
  const need::Project p = parsed(text_of(full_example()));
  EXPECT_EQ(p.site.anchor->turn, -3.25 * deg);
  EXPECT_EQ(p.site.mounts[0].heading_to, 240.0 * deg);
  EXPECT_EQ(p.site.places[2].speed, 2.8 * (m / s));
  EXPECT_EQ(p.cameras[0].focal, 8.5 * mm);
  EXPECT_EQ(p.cameras[0].shutter, 0.002 * s);
  EXPECT_EQ(p.needs[0].facing_heading, 10.0 * deg);
  EXPECT_EQ(p.needs[0].detector_height, 60.0 * px);
  const camera::Sheet& sheet = p.catalogue[0];
  EXPECT_EQ(sheet.focal, (camera::Ends<Length>{2.8 * mm, 12.0 * mm}));
  EXPECT_EQ(sheet.readout, 22.5 * ms);
  EXPECT_EQ(sheet.infrared->wavelength, 850.0 * nm);
  EXPECT_EQ(sheet.mass, 0.85 * kg);
  EXPECT_EQ(p.settings.level_tables[0].levels[2].least, 260.0 * (px / m));
}

TEST(Project, DefaultsAreThoseOfTheDescription) {
  const need::Project p = parsed(document(
      R"("solids": [{"kind": "wall", "name": "w", "line": [[0,0],[1,0]], "height_m": 2},
                    {"kind": "vehicle", "name": "v", "at": [0,0]},
                    {"kind": "roof", "name": "r", "outline": [[0,0],[1,0],[1,1]], "height_m": 2}],
         "veils": [{"kind": "mesh", "name": "m", "line": [[0,0],[1,0]], "height_m": 2, "passes": 0.7}],
         "mounts": [{"name": "p", "at": [0,0], "height_m": 3}],
         "places": [{"kind": "zone", "name": "z", "outline": [[0,0],[1,0],[1,1]]}])",
      R"(, "needs": [{"name": "n", "subject": "face", "place": "z", "level": "discern"}],
         "catalogue": [{"name": "s", "pixels": [1920, 1080], "focal_mm": 4, "view_deg": 80}],
         "cameras": [{"name": "c", "sheet": "s", "mount": "p", "heading_deg": 0}])"));
  EXPECT_EQ(p.site.solids[0].thickness, 0.1 * m);
  EXPECT_EQ(p.site.solids[0].base, std::nullopt);
  EXPECT_EQ(p.site.solids[1].size_along, 4.5 * m);
  EXPECT_EQ(p.site.solids[1].size_across, 1.8 * m);
  EXPECT_EQ(p.site.solids[1].height, 1.5 * m);
  EXPECT_EQ(p.site.solids[2].thickness, 0.2 * m);
  EXPECT_EQ(p.site.veils[0].summer, 0.7);
  EXPECT_EQ(p.site.veils[0].winter, 0.7);
  EXPECT_EQ(p.needs[0].share, 0.95);
  EXPECT_EQ(p.needs[0].facing, need::Facing::kCamera);
  EXPECT_EQ(p.cameras[0].focal, std::nullopt);
  EXPECT_EQ(p.catalogue[0].iris, camera::Iris::kFixed);
  EXPECT_EQ(p.catalogue[0].f_number, std::nullopt);
  EXPECT_FALSE(p.catalogue[0].infrared.has_value());
  EXPECT_EQ(p.settings.sample_spacing, 1.0 * m);
  EXPECT_TRUE(p.site.terrain.flat());
}

TEST(Project, AnEmptyInfraredIsNotNone) {
  const need::Project p = parsed(text_of(full_example()));
  EXPECT_TRUE(p.catalogue[1].infrared.has_value());
  EXPECT_TRUE(parsed(to_text(p)).catalogue[1].infrared.has_value());
}

TEST(Project, NumbersComeBackToTheLastBit) {
  constexpr unsigned kSeed = 11;
  std::mt19937_64 random(kSeed);
  std::uniform_real_distribution<double> degrees(-180, 180), metres(0.1, 5000);
  need::Project p = parsed(text_of(full_example()));
  for (int i = 0; i < 200; ++i) {
    p.cameras[1].heading = degrees(random) * deg;
    p.catalogue[0].infrared->wavelength = (600 + metres(random) / 10) * nm;
    p.site.boundary[0] = {-metres(random), -metres(random)};
    const need::Project again = parsed(to_text(p));
    EXPECT_EQ(again.cameras[1].heading, p.cameras[1].heading) << "seed " << kSeed;
    EXPECT_EQ(again.catalogue[0].infrared->wavelength, p.catalogue[0].infrared->wavelength) << "seed " << kSeed;
    EXPECT_EQ(again.site.boundary[0], p.site.boundary[0]) << "seed " << kSeed;
  }
}

TEST(Project, FieldsThatHoldTheirDefaultAreLeftOut) {
  const std::string text =
      to_text(parsed(document(R"("mounts": [{"name": "p", "at": [0,0], "height_m": 3, "sway_deg": 0}])",
                              R"(, "needs": [], "settings": {"units": "metres"})")));
  EXPECT_EQ(text.find("sway"), std::string::npos) << text;
  EXPECT_EQ(text.find("needs"), std::string::npos) << text;
  EXPECT_EQ(text.find("settings"), std::string::npos) << text;
}

TEST(Project, HowOftenAMountSwaysWantsHowFarOrAPole) {
  const auto errors = [](const std::string& more) {
    return errors_of(document(R"("mounts": [{"name": "p", "at": [0,0], "height_m": 3)" + more + "}]"));
  };
  const Errors alone = errors(R"(, "sway_hz": 2)");
  ASSERT_EQ(alone.size(), 1U);
  EXPECT_EQ(alone[0].where.field, "sway_hz");
  EXPECT_EQ(alone[0].text, "found 2; allowed only with sway_deg, or on a pole");
  EXPECT_TRUE(errors(R"(, "sway_hz": 2, "sway_deg": 0.1)").empty());
  EXPECT_TRUE(errors(R"(, "sway_deg": 0.1)").empty());
  EXPECT_TRUE(errors(R"(, "sway_hz": 2, "pole": {"outer_mm": 60, "wall_mm": 3, "height_m": 5})").empty());
}

TEST(Project, OnlyReplacedAssumptionsAreWritten) {
  need::Project p = parsed(document(""));
  EXPECT_EQ(p.settings.typical.glare.value, default_typical().glare.value);
  EXPECT_EQ(to_text(p).find("typical"), std::string::npos);
  p.settings.typical.glare.value.high = 0.05;
  p.settings.typical.glare.source = "measured";
  const std::string text = to_text(p);
  EXPECT_NE(text.find("glare"), std::string::npos) << text;
  EXPECT_EQ(text.find("contrast"), std::string::npos) << text;
  const need::Project again = parsed(text);
  EXPECT_EQ(again.settings.typical.glare.value, p.settings.typical.glare.value);
  EXPECT_EQ(again.settings.typical.glare.source, "measured");
  EXPECT_EQ(again.settings.typical.glare.unit, default_typical().glare.unit);
}

TEST(Project, ErrorsSayFileObjectAndField) {
  const Errors errors = errors_of(document(R"("mounts": [{"name": "p", "at": [0,0], "height_m": 3},
                                                         {"name": "pole", "at": [0,0], "height_m": 99}])"));
  ASSERT_EQ(errors.size(), 1U);
  EXPECT_EQ(errors[0].kind, ErrorKind::kField);
  EXPECT_EQ(errors[0].where.file, "t");
  EXPECT_EQ(errors[0].where.object, "site.mounts[1] \"pole\"");
  EXPECT_EQ(errors[0].where.field, "height_m");
}

TEST(Project, VeryManyErrorsEndWithHowManyMore) {
  std::string heights = "0";
  for (int i = 1; i < 3000; ++i) heights += ",\"x\"";
  const Errors errors =
      errors_of(document(R"("terrain": {"kind": "grid", "south_west": [0,0], "step_m": 1, "columns": 3,
                                              "rows": 1000, "heights_m": [)" +
                         heights + "]}"));
  ASSERT_EQ(errors.size(), 1001U);
  EXPECT_EQ(errors.back().text, "and 1999 more errors");
}

/// Whether a camera with this heading is allowed on a mount with these headings.
bool heading_allowed(const std::string& headings, const std::string& heading) {
  return errors_of(
             document(R"("mounts": [{"name": "p", "at": [0,0], "height_m": 3, "headings_deg": )" + headings + "}]",
                      R"(, "catalogue": [{"name": "s", "pixels": [1920, 1080], "focal_mm": 4, "view_deg": 80}],
                               "cameras": [{"name": "c", "sheet": "s", "mount": "p", "heading_deg": )" +
                          heading + "}]"))
      .empty();
}

TEST(Project, HeadingsOfAMountRunClockwiseThroughNorth) {
  for (const char* heading : {"300", "0", "360", "-60", "60", "-300", "59.9999999"})
    EXPECT_TRUE(heading_allowed("[300, 60]", heading)) << heading;
  for (const char* heading : {"61", "180", "299", "-61", "-299"})
    EXPECT_FALSE(heading_allowed("[300, 60]", heading)) << heading;
  for (const char* heading : {"0", "123", "-90", "360"}) EXPECT_TRUE(heading_allowed("[0, 360]", heading)) << heading;
  EXPECT_TRUE(heading_allowed("[90, 90]", "90"));
  EXPECT_FALSE(heading_allowed("[90, 90]", "91"));
  EXPECT_TRUE(heading_allowed("[-90, 90]", "0"));
  EXPECT_FALSE(heading_allowed("[-90, 90]", "180"));
}

std::string grid(int columns, int rows) {
  std::string text = R"("terrain": {"kind": "grid", "south_west": [0,0], "step_m": 1, "columns": )" +
                     std::to_string(columns) + R"(, "rows": )" + std::to_string(rows) + R"(, "heights_m": [)";
  for (int i = 0; i < columns * rows; ++i) text += "1,";
  text.back() = ']';
  return text + "}";
}

TEST(Project, AGridHoldsFourMillionHeights) {
  EXPECT_EQ(parsed(document(grid(2000, 2000))).site.terrain.heights.size(), 4'000'000U);
  EXPECT_FALSE(parse_project(document(grid(2000, 2001)), "t").has_value());
}

std::string mount(const std::string& name) { return R"({"name": ")" + name + R"(", "at": [0,0], "height_m": 3},)"; }

std::string camera_on(const std::string& mount) {
  return R"({"name": ")" + mount + R"(", "sheet": "s", "mount": ")" + mount + R"(", "heading_deg": 0},)";
}

TEST(Project, ALargeDocumentWithManyNamesIsReadQuickly) {
  std::string mounts = R"("mounts": [)", cameras = R"(, "cameras": [)";
  for (int i = 0; i < 20000; ++i) {
    mounts += mount(std::to_string(i));
    cameras += camera_on(std::to_string(i));
  }
  mounts.back() = ']';
  cameras.back() = ']';
  const auto start = std::chrono::steady_clock::now();
  parsed(document(
      mounts, R"(, "catalogue": [{"name": "s", "pixels": [1920, 1080], "focal_mm": 4, "view_deg": 80}])" + cameras));
  EXPECT_LT(std::chrono::steady_clock::now() - start,
            std::chrono::seconds(20));  // comparing all with all takes minutes
}

TEST(Sheet, IsReadAndWrittenLikeTheOneInACatalogue) {
  const need::Project p = parsed(text_of(full_example()));
  const auto sheet = parse_sheet(to_text(p.catalogue[0]), "t");
  ASSERT_TRUE(sheet.has_value());
  EXPECT_EQ(to_text(*sheet), to_text(p.catalogue[0]));
}

}  // namespace
}  // namespace sightfall::file
