// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/answers.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <optional>

#include "file/edit.h"
#include "file/edit_tree.h"
#include "file/golden_test.h"
#include "file/loads_answer.h"
#include "file/project.h"
#include "need/map.h"
#include "need/trial.h"
#include "serve/base64.h"

namespace sightfall::serve {
namespace {

using file::List;
using file::Object;
using file::Value;
using testing::HasSubstr;

const Value& member(const Value& value, std::string_view name) {
  static const Value kNothing{"there is no such member"};
  if (const auto* object = value.as<Object>())
    for (const file::Member& one : *object)
      if (one.name == name) return one.value;
  return kNothing;
}
double number(const Value& value, std::string_view name) { return member(value, name).get<double>(); }
const List& items(const Value& value, std::string_view name) { return member(value, name).get<List>(); }

/// An invented yard: a house, a camera on it, a route and a zone before it.
const need::Project& yard() {
  static const need::Project project = [] {
    const auto loaded = file::load_project(std::string(SIGHTFALL_SOURCE_DIR) + "/tests/case/files/yard.sightfall.json");
    EXPECT_TRUE(loaded);
    return *loaded;
  }();
  return project;
}
const std::string& camera() { return yard().cameras.front().name; }
const std::string& condition() { return yard().conditions.front().name; }

Value answer_or_fail(const Checked<Value>& answer) {
  EXPECT_TRUE(answer) << (answer ? "" : to_line(answer.error().front()));
  return answer ? *answer : Value{};
}

TEST(Base64, IsThatOfRfc4648) {  // section 10
  EXPECT_EQ(base64(""), "");
  EXPECT_EQ(base64("f"), "Zg==");
  EXPECT_EQ(base64("fo"), "Zm8=");
  EXPECT_EQ(base64("foo"), "Zm9v");
  EXPECT_EQ(base64("foob"), "Zm9vYg==");
  EXPECT_EQ(base64("fooba"), "Zm9vYmE=");
  EXPECT_EQ(base64("foobar"), "Zm9vYmFy");
  EXPECT_EQ(base64(std::string_view("\xff\xfe\x00", 3)), "//4A");
}

TEST(Asked, AConditionGivenAsAnObjectBecomesAChange) {
  const auto result = asked(Value{Object{{"camera", "eye"},
                                         {"changes", List{Object{{"at", List{"name"}}}}},
                                         {"condition", Object{{"date", "2026-12-15"}, {"time", "18:30"}}}}});
  ASSERT_TRUE(result);
  ASSERT_EQ(result->changes.size(), 2U);
  const Value& change = result->changes[1];
  EXPECT_EQ(member(change, "was"), Value{});
  EXPECT_EQ(member(member(change, "now"), "time"), Value("18:30"));
  EXPECT_EQ(items(change, "at")[1], member(result->request, "condition"));
  EXPECT_EQ(member(result->request, "camera"), Value("eye"));
  EXPECT_FALSE(asked(Value{List{}}));
}

TEST(MapAnswer, IsTheMapOfTheLibrary) {
  const Value answer = answer_or_fail(map_answer(yard(), Value{Object{{"condition", condition()}, {"cells", 3000}}}));
  const auto columns = static_cast<int>(number(answer, "columns")), rows = static_cast<int>(number(answer, "rows"));
  EXPECT_NEAR(columns * rows, 3000, 300);
  EXPECT_EQ(member(answer, "tone").get<std::string>().size(), static_cast<size_t>((columns * rows + 2) / 3 * 4));
  EXPECT_FALSE(items(answer, "contours").empty());
  EXPECT_FALSE(items(answer, "seen").empty());
  // On each contour the library's own map has its density, within what a step of the grid changes.
  const List& corner = items(answer, "south_west");
  const geom::PlanPoint south_west{corner[0].get<double>(), corner[1].get<double>()};
  const double step = number(answer, "step_m");
  const need::DetailMap map =
      need::detail_map(yard(), geom::Box2{south_west, south_west + step * geom::PlanPoint{columns - 1.0, rows - 1.0}},
                       yard().conditions.front(), 3000);
  for (const Value& contour : items(answer, "contours")) {
    int near = 0, all = 0;
    for (const Value& line : items(contour, "lines"))
      for (const Value& point : line.get<List>()) {
        const auto c = static_cast<int>(std::floor((point.get<List>()[0].get<double>() - south_west.x) / step));
        const auto r = static_cast<int>(std::floor((point.get<List>()[1].get<double>() - south_west.y) / step));
        if (c < 1 || r < 1 || c + 2 >= map.columns || r + 2 >= map.rows) continue;
        float low = 1e9F, high = 0;
        for (int i = -1; i < 3; ++i)
          for (int k = -1; k < 3; ++k) {
            low = std::min(low, map.at(c + i, r + k));
            high = std::max(high, map.at(c + i, r + k));
          }
        const auto density = static_cast<float>(number(contour, "density_px_per_m"));
        near += low <= density && density <= high;
        ++all;
      }
    EXPECT_GT(near, 0.95 * all) << number(contour, "density_px_per_m");
  }
}

TEST(MapAnswer, RefusesWhatItDoesNotKnow) {
  const auto line = [](const Value& request) {
    const auto answer = map_answer(yard(), request);
    return answer ? std::string("accepted") : to_line(answer.error().front());
  };
  EXPECT_THAT(line(Value{Object{{"condition", "noon"}}}), HasSubstr("request: condition: found \"noon\""));
  EXPECT_THAT(line(Value{Object{}}), HasSubstr("condition: missing"));
  EXPECT_THAT(line(Value{Object{{"condition", condition()}, {"cells", 1e9}}}), HasSubstr("cells"));
  EXPECT_THAT(line(Value{Object{{"condition", condition()}, {"colour", "red"}}}), HasSubstr("colour"));
  EXPECT_THAT(line(Value{Object{{"condition", condition()}, {"bounds", List{5, 0, 5, 9}}}}), HasSubstr("no area"));
}

TEST(PictureAnswer, ShowsSomebodyWithTheFiguresOfTheVerdict) {
  const Value request{Object{{"camera", camera()}, {"condition", condition()}}};
  const Value answer = answer_or_fail(picture_answer(yard(), request));
  EXPECT_EQ(number(answer, "columns"), 480);
  EXPECT_EQ(member(answer, "png").get<std::string>().substr(0, 8), base64("\x89PNG\r\n").substr(0, 8));
  const Value& figures = member(answer, "figures");
  EXPECT_GT(number(figures, "density_px_per_m"), 0);
  EXPECT_NE(member(answer, "box"), Value{});
  const Value nobody = answer_or_fail(
      picture_answer(yard(), Value{Object{{"camera", camera()}, {"condition", condition()}, {"mover", "none"}}}));
  EXPECT_EQ(member(nobody, "figures"), Value{});
  EXPECT_NE(member(nobody, "png"), member(answer, "png"));
}

TEST(CardAnswer, OfACameraIsThatOfItsSheetAtItsMount) {
  const Value answer = answer_or_fail(card_answer(yard(), Value{Object{{"camera", camera()}}}));
  EXPECT_EQ(number(answer, "mount_height_m"),
            need::the_named(yard().site.mounts, yard().cameras.front().mount).height.si());
  EXPECT_EQ(items(answer, "curve").size(), 60U);
  EXPECT_FALSE(card_answer(yard(), Value{Object{}}));
}

TEST(SceneAnswer, HasEveryBodyAndCamera) {
  const Value answer = answer_or_fail(scene_answer(yard(), Value{Object{}}));
  const site::Site& site = yard().site;
  EXPECT_EQ(items(answer, "bodies").size(), 1 + site.solids.size() + site.veils.size() + site.lamps.size() +
                                                site.places.size() + site.neighbours.size() +
                                                (site.boundary.empty() ? 0 : 1));
  EXPECT_EQ(items(answer, "cameras").size(), yard().cameras.size());
  for (const Value& one : items(answer, "cameras")) EXPECT_EQ(items(one, "corners").size(), 4U);
}

TEST(SceneAnswer, CamerasAloneFollowAChange) {
  need::Project turned = yard();
  turned.cameras.front().heading = turned.cameras.front().heading + 90 * units::deg;
  const Value request{Object{{"parts", "cameras"}}};
  const Value before = answer_or_fail(scene_answer(yard(), request)),
              after = answer_or_fail(scene_answer(turned, request));
  EXPECT_EQ(*file::find_member(before, "bodies"), Value{});
  EXPECT_EQ(items(before, "cameras").size(), yard().cameras.size());
  EXPECT_FALSE(items(before, "cameras")[0] == items(after, "cameras")[0]);
  EXPECT_FALSE(scene_answer(yard(), Value{Object{{"parts", "roofs"}}}));
}

TEST(SectionAnswer, TellsWhatACheckWouldTell) {
  const Value answer =
      answer_or_fail(section_answer(yard(), Value{Object{{"camera", camera()}, {"condition", condition()}}}));
  EXPECT_GT(items(answer, "persons").size(), 5U);
  EXPECT_GT(number(answer, "reach_m"), 2);
  const List& upper = items(answer, "upper");
  const List& lower = items(answer, "lower");
  EXPECT_EQ(upper[0], lower[0]) << "both begin at the eye";
  EXPECT_LE(number(answer, "dead_m"), number(answer, "reach_m"));
}

need::Project by_the_sea() {
  need::Project project = yard();
  site::Anchor anchor;
  anchor.latitude = 53.5 * units::deg, anchor.longitude = 2.5 * units::deg;
  anchor.time_zone = "Europe/London";
  project.site.anchor = anchor;
  return project;
}

TEST(DayAnswer, HasTheSunHighestInTheSouthAtNoon) {
  const Value answer = answer_or_fail(day_answer(by_the_sea(), "2026-06-21"));
  const List& hours = items(answer, "hours");
  ASSERT_EQ(hours.size(), 144U);
  const Value* highest = &hours.front();
  for (const Value& one : hours)
    if (number(one, "sun_altitude_deg") > number(*highest, "sun_altitude_deg")) highest = &one;
  // 90 - latitude + the obliquity of 23.44 degrees.
  EXPECT_NEAR(number(*highest, "sun_altitude_deg"), 90 - 53.5 + 23.44, 0.1);
  EXPECT_NEAR(number(*highest, "sun_heading_deg"), 180, 3);
  EXPECT_EQ(member(*highest, "time"), Value("12:50")) << "summer time, 2.5 degrees east of Greenwich";
  EXPECT_GT(number(*highest, "lux"), 80000);
}

TEST(DayAnswer, LeavesOutTimesThatTheClocksSkip) {
  EXPECT_EQ(items(answer_or_fail(day_answer(by_the_sea(), "2026-03-29")), "hours").size(), 138U);
  EXPECT_FALSE(day_answer(by_the_sea(), "2026-02-30"));
  EXPECT_FALSE(day_answer(by_the_sea(), "yesterday"));
  need::Project nowhere = by_the_sea();
  nowhere.site.anchor.reset();
  EXPECT_FALSE(day_answer(nowhere, "2026-06-21"));
}

/// Cameras, feeds and ways that cables take.
const need::Project& wired() {
  static const need::Project project = [] {
    const auto loaded =
        file::load_project(std::string(SIGHTFALL_SOURCE_DIR) + "/tests/case/files/wired.sightfall.json");
    EXPECT_TRUE(loaded);
    return *loaded;
  }();
  return project;
}

TEST(CablesAnswer, IsThatOfLoads) {
  const Value answer = answer_or_fail(cables_answer(wired(), Value{Object{}}));
  EXPECT_EQ(answer, file::loads_value(loads::loads(wired(), {{}, false, false}).cable));
  EXPECT_EQ(items(answer, "runs").size(), wired().site.runs.size());
  EXPECT_FALSE(cables_answer(wired(), Value{Object{{"run", "C1"}}}));
}

TEST(CablesAnswer, FollowsAChange) {
  need::Project moved = wired();
  site::Mount& mount = moved.site.mounts.front();
  mount.at = mount.at + geom::PlanPoint{1, 0};
  EXPECT_NE(answer_or_fail(cables_answer(moved, Value{Object{}})),
            answer_or_fail(cables_answer(wired(), Value{Object{}})));
}

Value way_asked(const List& line) { return Value{Object{{"line", line}}}; }

TEST(WayAnswer, SaysWhatADrawnWayMustSayOfTheBuilding) {
  // The shed stands from the origin to (8, 5).
  const auto way = [](const List& line) { return answer_or_fail(way_answer(wired(), way_asked(line))); };
  const auto expected = [](Value building, bool indoors, bool through) {
    return Value{Object{{"building", std::move(building)}, {"indoors", indoors}, {"through_buildings", through}}};
  };
  EXPECT_EQ(way({List{-2, -2}, List{12, -2}}), expected({}, false, false));
  EXPECT_EQ(way({List{1, 1}, List{7, 4}}), expected("shed", true, false));
  EXPECT_EQ(way({List{1, 1}, List{1, 12}}), expected("shed", false, true));
  EXPECT_FALSE(way_answer(wired(), way_asked({List{1, 1}})));
  EXPECT_FALSE(way_answer(wired(), Value{Object{}}));
}

/// As it is told a way is taken by the document; without what it is told it is refused.
TEST(WayAnswer, IsTheRuleThatDocumentsAreReadBy) {
  const auto tree = file::parse_json(
      file::text_of(std::string(SIGHTFALL_SOURCE_DIR) + "/tests/case/files/wired.sightfall.json"), "wired");
  ASSERT_TRUE(tree);
  const auto taken = [&](const List& line, const std::optional<std::string>& flag) {
    Object way{{"kind", "wall"}, {"name", "drawn"}, {"line", line}};
    if (flag) way.push_back({*flag, true});
    const auto changed = file::apply_edit(*tree, {{{"site", "ways", "drawn"}, {}, Value{way}, {}}});
    return changed && file::read_project(*changed, "wired");
  };
  const List along{List{-2, 0.2}, List{12, 0.2}}, askew{List{-2, 0.2}, List{12, 0.5}};
  const List within{List{2, 2}, List{-0.2, 2}}, out{List{2, 2}, List{-0.5, 2}};
  for (const List& line : {along, askew, within, out}) {
    const Value told = answer_or_fail(way_answer(wired(), way_asked(line)));
    const bool indoors = member(told, "indoors") == Value{true};
    const bool through = member(told, "through_buildings") == Value{true};
    EXPECT_EQ(taken(line, std::nullopt), !indoors && !through);
    EXPECT_TRUE(taken(line, indoors ? "indoors" : "through_buildings"));
  }
}

Value quick_papers() { return Value{Object{{"date", "2026-12-15"}, {"pictures", false}, {"masks", false}}}; }

TEST(PapersAnswer, AreFilesThatAreWhatTheySay) {
  const Value answer = answer_or_fail(papers_answer(yard(), quick_papers()));
  const auto& files = items(answer, "files");
  ASSERT_GE(files.size(), 14U);
  EXPECT_EQ(member(files.front(), "file"), Value("report.pdf"));
  EXPECT_EQ(member(files.front(), "type"), Value("application/pdf"));
  EXPECT_TRUE(member(files.front(), "content").get<std::string>().starts_with("JVBERi0"));  // %PDF-
}

TEST(PapersAnswer, RefusesWhatIsNoDateAndNoNetwork) {
  EXPECT_FALSE(papers_answer(yard(), Value{Object{{"date", "2026-02-30"}}}));
  EXPECT_FALSE(papers_answer(yard(), Value{Object{{"network", "10.0.0.1/24"}}}));
  EXPECT_FALSE(papers_answer(yard(), Value{Object{{"network", "10.0.0.0/29"}, {"paper", "foolscap"}}}));
}

/// The examples that the page's tests read too; schema/check_wire.py holds them against their schema.
void expect_example(const std::string& kind, Value answer) {
  Object members = answer.get<Object>();
  constexpr size_t kEnough = 32;  // of a picture's text: its file's head
  const auto shorten = [&](file::Member& member) {
    if (member.name == "png" || member.name == "content")
      member.value = member.value.get<std::string>().substr(0, kEnough);
  };
  for (file::Member& member : members) {
    shorten(member);
    if (member.name == "files")
      for (Value& one : std::get<file::List>(member.value.is))
        for (file::Member& part : std::get<Object>(one.is)) shorten(part);
  }
  file::expect_golden(file::source_folder() / "schema" / "examples" / "wire" / ("answer_" + kind + ".json"),
                      file::print_json(Value{std::move(members)}));
}

TEST(WireExamples, AreWhatIsAnswered) {
  const need::Project project = by_the_sea();
  const std::string need = project.needs.front().name;
  const auto of = [](const Checked<Value>& answer) { return answer_or_fail(answer); };
  expect_example("map",
                 of(map_answer(project, Value{Object{{"condition", condition()}, {"cells", 1200}, {"need", need}}})));
  expect_example("picture",
                 of(picture_answer(project, Value{Object{{"camera", camera()}, {"condition", condition()}}})));
  expect_example("section",
                 of(section_answer(project, Value{Object{{"camera", camera()}, {"condition", condition()}}})));
  expect_example("day", of(day_answer(project, "2026-12-15")));
  expect_example("scene", of(scene_answer(project, Value{Object{}})));
  expect_example("cables", of(cables_answer(wired(), Value{Object{}})));
  expect_example("way", of(way_answer(wired(), way_asked({List{1, 1}, List{1, 12}}))));
  expect_example("stock", stock_answer());
  expect_example("papers", of(papers_answer(project, quick_papers())));
}

TEST(StockAnswer, HasSheetsThatADocumentTakes) {
  const Value stock = stock_answer();
  EXPECT_GE(items(stock, "sheets").size(), 20U);
  for (const Value& sheet : items(stock, "sheets"))
    EXPECT_TRUE(file::parse_sheet(file::print_json(sheet), "sheet")) << file::print_json(sheet);
  EXPECT_EQ(items(stock, "subjects").front(), Value("face"));
  EXPECT_FALSE(items(stock, "materials").empty());
  EXPECT_EQ(items(stock, "level_tables").size(), file::standard_level_tables().size());
}

}  // namespace
}  // namespace sightfall::serve
