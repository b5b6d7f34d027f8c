// SPDX-License-Identifier: GPL-3.0-or-later
// Maps over sockets to the whole program, which reads them as a process of its own.
#include "serve/map_import.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <random>
#include <thread>

#include "file/edit_tree.h"
#include "file/golden_test.h"
#include "import/test_zip.h"
#include "serve/test_client.h"
#include "serve/test_desk.h"
#include "serve/workbench.h"

namespace sightfall::serve {
namespace {

namespace fs = std::filesystem;
using namespace std::chrono_literals;
using file::List;
using file::Object;
using file::Value;
using testing::Answer;
using testing::ask;
using testing::at;
using testing::Client;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using testing::request_text;
using testing::tree;

constexpr const char* kTab = "X-Sightfall-Tab: mine\r\n";

/// A square house of some 10 m at a place in degrees.
std::string house(double longitude, double latitude, const std::string& properties) {
  const double e = longitude + 0.00015, n = latitude + 0.00009;
  return fmt::format(R"({{"type":"Feature","properties":{{{}}},"geometry":{{"type":"Polygon","coordinates":)"
                     "[[[{},{}],[{},{}],[{},{}],[{},{}],[{},{}]]]}}}}",
                     properties, longitude, latitude, e, latitude, e, n, longitude, n, longitude, latitude);
}

std::string town(const std::vector<std::string>& houses, const std::string& more = "") {
  return R"({"type":"FeatureCollection",)" + more + R"("features":[)" + fmt::format("{}", fmt::join(houses, ",")) +
         "]}";
}

/// One with a height, one without.
std::string two_houses() { return town({house(2.5, 53.5, R"("height":7.5)"), house(2.5003, 53.5, R"("storeys":2)")}); }

/// Heights that rise by 1 m a column from 20 m, cells of 10 m, in zone 31 north.
std::string slope(int columns, int rows) {
  std::string text = fmt::format(
      "ncols {}\nnrows {}\nxllcorner 466800\nyllcorner 5927900\ncellsize 10\nNODATA_value -9999\n", columns, rows);
  for (int row = 0; row < rows; ++row)
    for (int column = 0; column < columns; ++column)
      text += fmt::format("{}{}", 20 + column, column + 1 < columns ? " " : "\n");
  return text;
}

size_t scratch_folders() {
  size_t count = 0;
  for (const auto& entry : fs::directory_iterator(fs::temp_directory_path()))
    count += entry.path().filename().string().starts_with("sightfall-import-") ? 1 : 0;
  return count;
}

/// A workbench on an empty site. What stands for the program that reads maps can be a script of the test's own.
class MapImportTest : public ::testing::Test {
 protected:
  MapImportTest()
      : folder_{fs::path(::testing::TempDir()) /
                ("maps_" + std::string(::testing::UnitTest::GetInstance()->current_test_info()->name()))} {
    fs::remove_all(folder_);
    fs::create_directories(folder_);
    folder_ = fs::canonical(folder_);
    // Its scratch folders are counted, so they are not among those of tests that run beside this one.
    fs::create_directories(folder_ / "scratch");
    ::setenv("TMPDIR", (folder_ / "scratch").c_str(), 1);
    start(SIGHTFALL_PROGRAM);
  }
  ~MapImportTest() override {
    end();
    fs::remove_all(folder_);
  }

  void start(const std::string& program) {
    write_site("{}");
    WorkbenchOptions options;
    options.site = (folder_ / "a.sightfall.json").string();
    options.port = 0;
    options.program = program;
    auto opened = Workbench::open(options);
    if (!opened) throw std::runtime_error(to_line(opened.error().front()));
    workbench_ = std::move(*opened);
    thread_ = std::thread([this] { workbench_->run(); });
  }
  void end() {
    if (workbench_ == nullptr) return;
    workbench_->stop();
    thread_.join();
    workbench_.reset();
  }
  /// The same with a script in the program's place.
  void start_script(const std::string& text) {
    end();
    const fs::path script = folder_ / "script";
    std::ofstream(script) << "#!/bin/sh\n" << text << "\n";
    fs::permissions(script, fs::perms::owner_all);
    start(script.string());
  }
  void write_site(const std::string& site) const {
    fs::remove(folder_ / "a.sightfall.history");
    std::ofstream(folder_ / "a.sightfall.json") << R"({"sightfall": 1, "name": "a", "site": )" << site
                                                << R"(, "conditions": [{"name": "day", "leaves": "on"}]})";
  }

  static std::string target(const std::string& kind, const std::string& name, const std::string& more) {
    return "/api/import/" + kind + "?name=" + name + "&words=from+a+map" + more;
  }
  Answer send(const std::string& kind, const std::string& name, const std::string& bytes,
              const std::string& more = "") const {
    return ask(workbench_->port(), "POST", target(kind, name, more), kTab, bytes);
  }
  Answer footprints(const std::string& bytes, const std::string& more = "") const {
    return send("footprints", "houses.geojson", bytes, more);
  }
  Answer terrain(const std::string& bytes, const std::string& more = "&crs=EPSG:32631") const {
    return send("terrain", "slope.asc", bytes, more);
  }
  /// The only error of an answer that refuses, and that nothing was changed.
  Value refusal(const Answer& answer, int status = 400) const {
    EXPECT_EQ(answer.status, status) << answer.body;
    EXPECT_EQ(at(site(), {"revision"}), Value{1});
    EXPECT_EQ(at(tree(answer.body), {"errors", "1"}), Value{}) << answer.body;
    return at(tree(answer.body), {"errors", "0"});
  }
  std::string why(const Answer& answer) const { return file::member_text(refusal(answer), "text"); }
  Value site() const { return tree(ask(workbench_->port(), "GET", "/api/site").body); }
  std::vector<std::string> names() const {
    std::vector<std::string> found;
    const Value whole = site();
    const Value& solids = at(whole, {"document", "site", "solids"});
    if (const auto* list = solids.as<List>())
      for (const Value& solid : *list) found.push_back(file::member_text(solid, "name"));
    return found;
  }

  fs::path folder_;
  std::unique_ptr<Workbench> workbench_;
  std::thread thread_;
};

TEST_F(MapImportTest, FootprintsBecomeOneEditAndOneUndo) {
  const Answer answer = footprints(two_houses(), "&height_m=6");
  ASSERT_EQ(answer.status, 200) << answer.body;
  file::expect_golden(file::source_folder() / "schema/examples/wire/import.json", answer.body);
  EXPECT_THAT(names(), ElementsAre("building 1", "building 2"));
  EXPECT_EQ(at(site(), {"document", "site", "solids", "0", "height_m"}), Value{7.5});
  EXPECT_EQ(at(site(), {"document", "site", "solids", "1", "height_m"}), Value{6});
  EXPECT_EQ(at(site(), {"document", "site", "anchor", "latitude_deg"}), Value{53.5});
  EXPECT_EQ(at(site(), {"undo"}), Value{"from a map"});
  EXPECT_EQ(ask(workbench_->port(), "POST", "/api/undo", kTab, "{}").status, 200);
  EXPECT_THAT(names(), IsEmpty());
  EXPECT_EQ(at(site(), {"document", "site", "anchor"}), Value{});
  EXPECT_EQ(at(site(), {"undo"}), Value{});
}

TEST_F(MapImportTest, WhatIsThereJustSoIsLeftAsItIs) {
  ASSERT_EQ(footprints(two_houses(), "&height_m=6").status, 200);
  const Answer again = footprints(two_houses(), "&height_m=6");
  ASSERT_EQ(again.status, 200) << again.body;
  EXPECT_THAT(again.body, HasSubstr("on the site already, just so, and left as it is: 2"));
  EXPECT_THAT(names(), ElementsAre("building 1", "building 2"));
  EXPECT_EQ(at(site(), {"revision"}), Value{2});
}

/// Nothing is done until a person has chosen; what it is chosen from comes whole.
TEST_F(MapImportTest, WhatIsCalledAlikeIsAConflictToBeSettled) {
  ASSERT_EQ(footprints(two_houses(), "&height_m=6").status, 200);
  const Answer answer = footprints(two_houses(), "&height_m=9");
  EXPECT_EQ(answer.status, 409) << answer.body;
  file::expect_golden(file::source_folder() / "schema/examples/wire/import_conflicts.json", answer.body);
  EXPECT_EQ(at(site(), {"revision"}), Value{2});
  const Value body = tree(answer.body);
  EXPECT_EQ(at(body, {"conflicts", "0", "at", "2"}), Value{"building 2"}) << "the other states its height";
  EXPECT_EQ(at(body, {"conflicts", "0", "found", "height_m"}), Value{6});
  EXPECT_EQ(at(body, {"conflicts", "0", "now", "height_m"}), Value{9});
  EXPECT_EQ(at(body, {"conflicts", "1"}), Value{});
  EXPECT_EQ(at(body, {"changes"}).get<List>().size(), 1U);
  EXPECT_THAT(answer.body, HasSubstr("left as it is: 1"));
  Value chosen = at(body, {"changes"});
  file::set_member(std::get<List>(chosen.is)[0], "was", at(body, {"conflicts", "0", "found"}));
  const Value edit = Object{{"words", "from a map"}, {"changes", chosen}};
  EXPECT_EQ(ask(workbench_->port(), "POST", "/api/edits", kTab, file::print_json(edit)).status, 200);
  EXPECT_EQ(at(site(), {"document", "site", "solids", "1", "height_m"}), Value{9});
  EXPECT_EQ(ask(workbench_->port(), "POST", "/api/undo", kTab, "{}").status, 200);
  EXPECT_EQ(at(site(), {"document", "site", "solids", "1", "height_m"}), Value{6});
}

TEST_F(MapImportTest, HeightsBecomeTheGround) {
  const Answer answer = terrain(slope(40, 40));
  ASSERT_EQ(answer.status, 200) << answer.body;
  EXPECT_THAT(answer.body, HasSubstr("a raster of 40 x 40 cells"));
  const Value ground = at(site(), {"document", "site", "terrain"});
  EXPECT_EQ(file::member_text(ground, "kind"), "grid");
  EXPECT_NEAR(at(ground, {"step_m"}).get<double>(), 10, 0.01) << "the map's scale there";
  EXPECT_EQ(at(site(), {"document", "site", "anchor", "height_m"}), Value{20});
  const Answer other = terrain(slope(40, 40), "&crs=EPSG:32631&within_m=100");
  EXPECT_EQ(other.status, 409) << "another would take its place";
  EXPECT_EQ(at(tree(other.body), {"conflicts", "0", "found"}), ground);
  EXPECT_EQ(at(site(), {"document", "site", "terrain"}), ground);
}

TEST_F(MapImportTest, ASiteWithoutAnAnchorCanBeToldWhereItLies) {
  ASSERT_EQ(footprints(two_houses(), "&height_m=6&latitude_deg=53.501&longitude_deg=2.5").status, 200);
  EXPECT_EQ(at(site(), {"document", "site", "anchor", "latitude_deg"}), Value{53.501});
  // The first house's south side is 0.001 degrees south of the origin: 111.29 m by the ellipsoid at that latitude.
  const Value whole = site();
  EXPECT_NEAR(at(whole, {"document", "site", "solids", "0", "outline", "0", "1"}).get<double>(), -111.29, 0.05);
  ASSERT_EQ(ask(workbench_->port(), "POST", "/api/undo", kTab, "{}").status, 200);
  EXPECT_EQ(at(site(), {"document", "site", "anchor"}), Value{}) << "it was part of the edit";
}

TEST_F(MapImportTest, AnotherPlaceThanTheSiteHasIsAConflict) {
  EXPECT_EQ(file::member_text(refusal(footprints(two_houses(), "&height_m=6&latitude_deg=53.5")), "field"),
            "longitude_deg");
  end();
  write_site(R"({"anchor": {"latitude_deg": 53.5, "longitude_deg": 2.5}})");
  WorkbenchOptions options;
  options.site = (folder_ / "a.sightfall.json").string();
  options.port = 0;
  options.program = SIGHTFALL_PROGRAM;
  workbench_ = std::move(*Workbench::open(options));
  thread_ = std::thread([this] { workbench_->run(); });
  const Answer elsewhere = footprints(two_houses(), "&height_m=6&latitude_deg=53.6&longitude_deg=2.5");
  EXPECT_EQ(elsewhere.status, 409) << elsewhere.body;
  EXPECT_EQ(at(tree(elsewhere.body), {"conflicts", "0", "at", "1"}), Value{"anchor"});
  EXPECT_EQ(at(tree(elsewhere.body), {"conflicts", "0", "found", "latitude_deg"}), Value{53.5});
  EXPECT_EQ(at(tree(elsewhere.body), {"conflicts", "1"}), Value{});
  EXPECT_EQ(at(site(), {"revision"}), Value{1});
  EXPECT_EQ(footprints(two_houses(), "&height_m=6&latitude_deg=53.5&longitude_deg=2.5").status, 200) << "the same";
}

TEST_F(MapImportTest, ErrorsNameTheFileAsItWasSentAndTheField) {
  const Value height = refusal(footprints(two_houses()));
  EXPECT_EQ(file::member_text(height, "text"), "1 of 2 outlines state no height: give height_m for those");
  EXPECT_EQ(file::member_text(height, "file"), "houses.geojson");
  EXPECT_EQ(file::member_text(height, "field"), "height_m");
  EXPECT_THAT(why(footprints(two_houses(), "&height_m=6&crs=EPSG:0")), HasSubstr("names no map projection"));
  EXPECT_THAT(why(footprints(two_houses(), "&height_m=6&layer=streets")), HasSubstr("no layer \"streets\""));
  const Value nowhere = refusal(terrain(slope(40, 40), ""));
  EXPECT_THAT(file::member_text(nowhere, "text"), HasSubstr("does not say which map projection"));
  EXPECT_EQ(file::member_text(nowhere, "field"), "crs");
  const Value far = refusal(footprints(two_houses(), "&height_m=6&within_m=100&latitude_deg=10&longitude_deg=10"));
  EXPECT_THAT(file::member_text(far, "text"), HasSubstr("lies within 100 m of the site's origin"));
}

/// The archive holds a Shapefile that the map's library wrote, of two invented houses: tests/case/README.md.
TEST_F(MapImportTest, AShapefileComesInAnArchive) {
  const std::string packed = file::text_of(file::source_folder() / "tests/case/files/two_houses.zip");
  const Answer answer = send("footprints", "A%20town.zip", packed);
  ASSERT_EQ(answer.status, 200) << answer.body;
  EXPECT_THAT(names(), ElementsAre("building 1", "building 2"));
  EXPECT_EQ(at(site(), {"document", "site", "solids", "0", "height_m"}), Value{7.5});
}

TEST_F(MapImportTest, HostileArchivesAreRefusedByName) {
  const auto refused = [&](const std::string& bytes) {
    const Value error = refusal(send("footprints", "town.zip", bytes));
    EXPECT_EQ(file::member_text(error, "file"), "town.zip");
    return file::member_text(error, "text");
  };
  const size_t before = scratch_folders();
  EXPECT_THAT(refused("no archive"), HasSubstr("no ZIP archive"));
  EXPECT_THAT(refused(import::zip_of({{"town.shp", "x"}})), HasSubstr("is missing: town.shx, town.dbf"));
  EXPECT_THAT(refused(import::zip_of({{"../../town.shp", "x"}})), HasSubstr("leads out of the archive"));
  EXPECT_THAT(refused(import::zip_of({{"/etc/passwd", "x"}})), HasSubstr("\"/etc/passwd\", which leads out"));
  std::vector<import::ZipPart> many;
  for (int i = 0; i < 60'000; ++i) many.push_back({std::to_string(i), ""});
  EXPECT_THAT(refused(import::zip_of(many)), HasSubstr("too many files; allowed: 200"));
  const std::vector<import::ZipPart> liar{
      {"t.shp", std::string(1'000'000, '\0'), 9}, {"t.shx", "x"}, {"t.dbf", "x"}, {"t.prj", "x"}};
  EXPECT_THAT(refused(import::zip_of(liar)), HasSubstr("\"t.shp\" in it is damaged"));
  const Value no_projection =
      refusal(send("footprints", "town.zip", import::zip_of({{"t.shp", "x"}, {"t.shx", "x"}, {"t.dbf", "x"}})));
  EXPECT_EQ(file::member_text(no_projection, "field"), "crs");
  EXPECT_EQ(scratch_folders(), before);
  EXPECT_FALSE(fs::exists(folder_ / "town.shp"));
}

TEST_F(MapImportTest, WhatIsNoMapIsRefused) {
  EXPECT_THAT(why(footprints("")), HasSubstr("is empty"));
  EXPECT_THAT(why(footprints("no map at all")), HasSubstr("no map file that is read here"));
  EXPECT_THAT(why(footprints(two_houses().substr(0, 300))), HasSubstr("no map file that is read here"));
  EXPECT_THAT(why(footprints(R"({"type":"FeatureCollection","features":[]})")), HasSubstr("none of its 0 features"));
  EXPECT_THAT(why(send("terrain", "a.tif", std::string("II*\0\x08\0\0\0", 8))),
              HasSubstr("no raster that is read here"));
  EXPECT_THAT(why(send("terrain", "a.tif", two_houses())), HasSubstr("no raster that is read here"));
  EXPECT_THAT(why(send("footprints", "a.gpkg", "SQLite format 3")), HasSubstr("no map file that is read here"));
  EXPECT_THAT(why(send("footprints", "a.pbf", std::string("\0\0\0\x0D\x0A\x09OSMHeader", 15))),
              Not(HasSubstr(folder_.string())));
}

TEST_F(MapImportTest, MoreThanThePageTakesIsRefused) {
  std::vector<std::string> houses;
  for (int i = 0; i < static_cast<int>(kMostImported) + 1; ++i)
    houses.push_back(house(2.5 + 0.0003 * (i % 80), 53.5 + 0.0002 * std::floor(i / 80.0), R"("height":5)"));
  const Value many = refusal(footprints(town(houses)));
  EXPECT_THAT(file::member_text(many, "text"), HasSubstr("more than the workbench takes at once (5000 buildings"));
  EXPECT_EQ(file::member_text(many, "field"), "within_m");
  EXPECT_EQ(footprints(town(houses), "&within_m=100").status, 200);
}

TEST_F(MapImportTest, ALargerBodyIsRefusedUnread) {
  Client client(workbench_->port());
  client.send("POST " + target("footprints", "a.geojson", "") +
              " HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(workbench_->port()) + "\r\n" + kTab +
              "Content-Length: " + std::to_string(kLargestMap + 1) + "\r\n\r\n");
  EXPECT_EQ(client.read().status, 413);
}

TEST_F(MapImportTest, NobodyElseMayAsk) {
  const auto post = [&](const std::string& headers) {
    return ask(workbench_->port(), "POST", target("footprints", "a.geojson", "&height_m=6"), headers, two_houses())
        .status;
  };
  EXPECT_EQ(post(""), 403) << "a form of a foreign page";
  EXPECT_EQ(post(std::string(kTab) + "Origin: http://evil.example\r\n"), 403);
  EXPECT_EQ(at(site(), {"revision"}), Value{1});
}

TEST_F(MapImportTest, HowFarItIsIsTold) {
  start_script(
      R"(printf '\r\033[K 40 %%  reading outlines' >&2; sleep 1; printf '\r\033[K' >&2; echo 'houses.geojson: bad' >&2; exit 2)");
  Client events(workbench_->port());
  events.follow(workbench_->port());
  EXPECT_THAT(events.read_until("hello"), HasSubstr("hello"));
  EXPECT_EQ(why(footprints(two_houses(), "&id=job7")), "bad");
  EXPECT_THAT(events.read_until("reading"), HasSubstr(R"({"job":"job7","share":0.4,"words":"reading outlines"})"));
}

TEST_F(MapImportTest, WhoGoesAwayStopsIt) {
  const size_t before = scratch_folders();
  const fs::path pid = folder_ / "pid";
  start_script("echo $$ > " + pid.string() + ".new; mv " + pid.string() + ".new " + pid.string() + "; exec sleep 80");
  {
    Client client(workbench_->port());
    client.send(request_text(workbench_->port(), "POST", target("footprints", "a.geojson", ""), kTab, two_houses()));
    while (!fs::exists(pid)) std::this_thread::sleep_for(5ms);
    const Answer second = footprints(two_houses());
    EXPECT_EQ(second.status, 503) << second.body;
    EXPECT_THAT(second.body, HasSubstr("another map is being read"));
  }
  const std::string process = "/proc/" + file::text_of(pid).substr(0, file::text_of(pid).find('\n'));
  const auto end = std::chrono::steady_clock::now() + 20s;
  while ((fs::exists(process) || scratch_folders() > before) && std::chrono::steady_clock::now() < end)
    std::this_thread::sleep_for(10ms);
  EXPECT_FALSE(fs::exists(process));
  EXPECT_EQ(scratch_folders(), before);
  EXPECT_EQ(at(site(), {"revision"}), Value{1});
}

TEST_F(MapImportTest, AReaderThatFailsHarmsNobody) {
  start_script("kill -SEGV $$");
  EXPECT_THAT(why(footprints(two_houses())), HasSubstr("ended in a failure"));
  start_script("exit 0");
  EXPECT_EQ(footprints(two_houses()).status, 200) << "nothing was altered";
  EXPECT_EQ(at(site(), {"revision"}), Value{1});
  // Another document of its reader's in place of the result, or a file whose beginning an error would tell.
  const std::string other = (folder_ / "other.sightfall.json").string();
  std::ofstream(other) << R"({"sightfall": 1, "site": {"solids": [{"name": "secret"}]}})";
  for (const std::string& left : {std::string("echo '{' > site.sightfall.json"), std::string("rm site.sightfall.json"),
                                  "ln -sf " + other + " site.sightfall.json",
                                  std::string("rm site.sightfall.json; mkfifo site.sightfall.json")}) {
    start_script(left);
    EXPECT_THAT(why(footprints(two_houses())), HasSubstr("ended in a failure")) << left;
  }
}

/// Whatever the reader makes of its copy, only ground, solids and anchor come of it, by the rules of the document.
TEST_F(MapImportTest, OnlyWhatAnImportAltersIsTaken) {
  start_script(
      R"(echo '{"sightfall":1,"name":"stolen","site":{"solids":[{"kind":"box","name":"b","at":[0,0],"height_m":1,"across_m":1,"along_m":1}],)"
      R"("mounts":[{"name":"m","at":[0,0],"height_m":3}]},"conditions":[{"name":"night","leaves":"off"}]}' > site.sightfall.json)");
  EXPECT_EQ(footprints(two_houses()).status, 200);
  EXPECT_THAT(names(), ElementsAre("b"));
  EXPECT_EQ(at(site(), {"document", "site", "mounts"}), Value{});
  EXPECT_EQ(at(site(), {"document", "name"}), Value{"a"});
  EXPECT_EQ(at(site(), {"document", "conditions", "0", "name"}), Value{"day"});
  start_script(
      R"(echo '{"sightfall":1,"name":"a","site":{"solids":[{"kind":"box","name":"b","at":[0,0],"height_m":-1,"across_m":1,"along_m":1}]},)"
      R"("conditions":[{"name":"day","leaves":"on"}]}' > site.sightfall.json)");
  EXPECT_THAT(footprints(two_houses()).body, HasSubstr("height_m"));
  EXPECT_EQ(at(site(), {"revision"}), Value{1});
}

/// Bytes changed at random: whatever comes of it, it is an answer, and the server lives.
TEST_F(MapImportTest, DamagedMapsEndInAnEditAQuestionOrAReason) {
  const std::string whole = two_houses(), heights = slope(12, 12);
  std::mt19937 random(11);
  int refused = 0;
  for (int i = 0; i < 12; ++i) {
    std::string bytes = i % 2 == 0 ? whole : heights;
    for (int flips = 0; flips < 3; ++flips) bytes[random() % bytes.size()] = static_cast<char>(random());
    const Answer answer = i % 2 == 0 ? footprints(bytes, "&height_m=6") : terrain(bytes);
    EXPECT_THAT(answer.status, ::testing::AnyOf(200, 400, 409)) << answer.body;
    refused += answer.status == 400 ? 1 : 0;
  }
  EXPECT_GT(refused, 2);
  EXPECT_EQ(ask(workbench_->port(), "GET", "/api/site").status, 200);
}

/// What was worked out for one state of the site is not put into another.
TEST(MapImportDesk, AnEditForAnotherStateIsAConflict) {
  const fs::path folder = fs::path(::testing::TempDir()) / "maps_desk";
  fs::remove_all(folder);
  fs::create_directories(folder);
  {
    Desk desk(folder.string());
    ASSERT_EQ(desk.open(tree(R"({"new": {"name": "a", "as": "a.sightfall.json"}})")).status, 200);
    const std::string path = desk.snapshot().file;
    const Value anchor = tree(R"({"latitude_deg": 1, "longitude_deg": 2})"),
                other = tree(R"({"latitude_deg": 3, "longitude_deg": 2})");
    const auto put = [&](const Value& now) { return file::Changes{{{"site", "anchor"}, {}, now, {}}}; };
    EXPECT_EQ(desk.make(path, "first", put(anchor), "one").status, 200);
    const Reply conflict = desk.make(path, "second", put(other), "two");
    EXPECT_EQ(conflict.status, 409);
    EXPECT_EQ(at(conflict.body, {"conflicts", "0", "found"}), anchor);
    EXPECT_EQ(desk.make((folder / "b.sightfall.json").string(), "third", put(other), "two").status, 409);
  }
  fs::remove_all(folder);
}

}  // namespace
}  // namespace sightfall::serve
