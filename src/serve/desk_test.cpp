// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/desk.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <thread>
#include <vector>

#include "file/history.h"
#include "file/project.h"
#include "serve/test_desk.h"

namespace sightfall::serve {
namespace {

namespace fs = std::filesystem;
using file::List;
using file::Member;
using file::Object;
using file::Value;
using ::testing::HasSubstr;

std::string text_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

using testing::at;
using testing::Ear;
using testing::tree;

class DeskTest : public ::testing::Test {
 protected:
  DeskTest() {
    folder_ = fs::path(::testing::TempDir()) /
              ("desk_" + std::string(::testing::UnitTest::GetInstance()->current_test_info()->name()));
    fs::remove_all(folder_);
    fs::create_directories(folder_);
    folder_ = fs::canonical(folder_);
  }
  ~DeskTest() override { fs::remove_all(folder_); }

  fs::path path() const { return folder_ / "a.sightfall.json"; }
  std::string make() const { return R"({"new": {"name": "yard", "as": "a.sightfall.json"}})"; }

  /// A desk with a new site open.
  std::unique_ptr<Desk> desk() const {
    auto made = std::make_unique<Desk>(folder_.string());
    const Reply reply = made->open(tree(make()));
    EXPECT_EQ(reply.status, 200) << file::print_json(reply.body);
    return made;
  }

  /// A desk with the site open that is there.
  std::unique_ptr<Desk> again() const {
    auto made = std::make_unique<Desk>(folder_.string());
    const Reply reply = made->open(tree(R"({"file": "a.sightfall.json"})"));
    EXPECT_EQ(reply.status, 200) << file::print_json(reply.body);
    return made;
  }

  static Reply put_mount(Desk& desk, const std::string& name, double x = 0) {
    return desk.edit(tree(R"({"words": "put in )" + name + R"(", "changes": [{"at": ["site", "mounts", ")" + name +
                          R"("], "was": null, "now": {"name": ")" + name + R"(", "at": [)" + std::to_string(x) +
                          R"(, 0], "height_m": 3}}]})"),
                     "tab");
  }

  static std::vector<std::string> mounts(const Value& document) {
    std::vector<std::string> names;
    const Value& list = at(document, {"site", "mounts"});
    if (!list.null())
      for (const Value& mount : list.get<List>()) names.push_back(at(mount, {"name"}).get<std::string>());
    return names;
  }

  static void wait_until(const std::function<bool()>& done) {
    const auto end = std::chrono::steady_clock::now() + testing::kLongest;
    while (!done() && std::chrono::steady_clock::now() < end) std::this_thread::sleep_for(std::chrono::milliseconds(5));
    EXPECT_TRUE(done());
  }

  fs::path folder_;
};

using Names = std::vector<std::string>;

TEST_F(DeskTest, NothingIsOpenAtFirst) {
  Desk desk(folder_.string());
  EXPECT_EQ(at(desk.start().body, {"open"}), Value{false});
  EXPECT_EQ(at(desk.start().body, {"folder"}), Value{folder_.string()});
  EXPECT_EQ(desk.site().status, 409);
  EXPECT_EQ(desk.undo("").status, 409);
  EXPECT_EQ(desk.history().status, 409);
  EXPECT_EQ(desk.snapshot().project, nullptr);
}

TEST_F(DeskTest, ANewSiteHasADayAndADarkNight) {
  const auto site = desk();
  const Value body = site->site().body;
  EXPECT_EQ(at(body, {"file"}), Value{"a.sightfall.json"});
  EXPECT_EQ(at(body, {"document", "name"}), Value{"yard"});
  EXPECT_EQ(at(body, {"document", "conditions", "0", "name"}), Value{"day"});
  EXPECT_EQ(at(body, {"document", "conditions", "1", "light"}), Value{"dark night"});
  EXPECT_EQ(at(body, {"undo"}), Value{});
  EXPECT_EQ(at(site->start().body, {"documents", "0", "name"}), Value{"yard"});
  EXPECT_TRUE(file::load_project(path().string()).has_value());
}

TEST_F(DeskTest, TheDemoComesWithItsLamps) {
  Desk desk(folder_.string());
  EXPECT_EQ(desk.open(tree(R"({"demo": true, "as": "demo.sightfall.json"})")).status, 200);
  EXPECT_TRUE(file::load_project((folder_ / "demo.sightfall.json").string()).has_value());
  EXPECT_EQ(desk.open(tree(R"({"demo": true, "as": "demo.sightfall.json"})")).status, 400) << "it is there already";
}

TEST_F(DeskTest, NamesThatLeadElsewhereAreRefused) {
  std::ofstream(folder_.parent_path() / "outside.sightfall.json") << "{}";
  fs::create_symlink(folder_.parent_path() / "outside.sightfall.json", folder_ / "link.sightfall.json");
  Desk desk(folder_.string());
  for (const char* name :
       {"../outside.sightfall.json", "/etc/passwd", "link.sightfall.json", "", ".sightfall.json", ".a.sightfall.json",
        "a\\b.sightfall.json", "a/b.sightfall.json", "none.sightfall.json", "a.json", "\\u0000a.sightfall.json"}) {
    EXPECT_EQ(desk.open(tree(R"({"file": ")" +
                             std::string(name[0] == 'a' && name[1] == '\\' ? "a\\\\b.sightfall.json" : name) + "\"}"))
                  .status,
              400)
        << name;
  }
  EXPECT_EQ(desk.open(tree(R"({"new": {"name": "x", "as": "../x.sightfall.json"}})")).status, 400);
  EXPECT_EQ(desk.open(tree(R"({"new": {"name": "x", "as": "link.sightfall.json"}})")).status, 400);
  EXPECT_EQ(desk.open(tree(R"({"new": {"name": "", "as": "x.sightfall.json"}})")).status, 400);
  EXPECT_EQ(desk.open(tree("[]")).status, 400);
  EXPECT_FALSE(fs::exists(folder_ / "x.sightfall.json"));
  EXPECT_EQ(at(desk.start().body, {"documents"}), Value{List{}});
  fs::remove(folder_.parent_path() / "outside.sightfall.json");
}

TEST_F(DeskTest, EditsAreMadeUndoneAndMadeAgain) {
  const auto site = desk();
  Ear ear;
  site->subscribe(ear);
  EXPECT_EQ(at(ear.wait("hello"), {"revision"}), Value{1});
  const Reply made = put_mount(*site, "pole");
  ASSERT_EQ(made.status, 200) << file::print_json(made.body);
  EXPECT_EQ(at(made.body, {"revision"}), Value{2});
  EXPECT_EQ(at(made.body, {"undo"}), Value{"put in pole"});
  EXPECT_EQ(at(made.body, {"redo"}), Value{});
  const Value told = ear.wait("edit");
  EXPECT_EQ(at(told, {"tab"}), Value{"tab"});
  EXPECT_EQ(at(told, {"changes", "0", "now", "height_m"}), Value{3});
  EXPECT_EQ(mounts(at(site->site().body, {"document"})), Names{"pole"});
  const Reply undone = site->undo("other");
  EXPECT_EQ(at(undone.body, {"redo"}), Value{"put in pole"});
  EXPECT_EQ(at(undone.body, {"changes", "0", "now"}), Value{});
  EXPECT_EQ(mounts(*site->snapshot().document), Names{});
  EXPECT_EQ(site->undo("other").status, 409);
  EXPECT_EQ(site->redo("other").status, 200);
  EXPECT_EQ(mounts(*site->snapshot().document), Names{"pole"});
  EXPECT_EQ(site->snapshot().project->site.mounts.at(0).name, "pole");
  const Value history = site->history().body;
  EXPECT_EQ(at(history, {"edits", "0", "words"}), Value{"put in pole"});
  EXPECT_EQ(at(history, {"edits", "0", "undone"}), Value{false});
  site->unsubscribe(ear);
}

TEST_F(DeskTest, WhatIsClosedIsOnDiskAndTakesNoMoreEdits) {
  const auto site = desk();
  ASSERT_EQ(put_mount(*site, "pole").status, 200);
  ASSERT_TRUE(site->close().has_value());
  EXPECT_THAT(text_of(path()), HasSubstr("pole"));
  EXPECT_FALSE(fs::exists(folder_ / "a.sightfall.history-wal")) << "the history is one file again";
  EXPECT_EQ(put_mount(*site, "late").status, 409);
  EXPECT_EQ(site->snapshot().project, nullptr);
  EXPECT_TRUE(site->close().has_value());
  EXPECT_EQ(mounts(*again()->snapshot().document), Names{"pole"});
}

TEST_F(DeskTest, TheHistorySaysWhetherItIsWhole) {
  const auto site = desk();
  EXPECT_EQ(at(site->history().body, {"earlier"}), Value{false});
  for (size_t i = 0; i <= kMostHistory; ++i) {
    ASSERT_EQ(put_mount(*site, "m" + std::to_string(i)).status, 200);
    if (i + 1 == kMostHistory) {
      EXPECT_EQ(at(site->history().body, {"earlier"}), Value{false});
    }
  }
  EXPECT_EQ(at(site->history().body, {"edits"}).get<List>().size(), kMostHistory);
  EXPECT_EQ(at(site->history().body, {"earlier"}), Value{true});
  EXPECT_EQ(at(site->history().body, {"most_kept"}), Value{file::kMostEdits});
}

TEST_F(DeskTest, WhatIsToldIsAsTheWriterWritesIt) {
  const auto site = desk();
  const Reply made = site->edit(tree(R"({"words": "a mount", "changes": [{"at": ["site", "mounts", "m"], "was": null,
      "now": {"height_m": 3, "at": [0, 0], "sway_deg": 0, "name": "m"}}]})"),
                                "tab");
  EXPECT_EQ(at(made.body, {"changes", "0", "now"}), tree(R"({"name": "m", "at": [0, 0], "height_m": 3})"));
}

TEST_F(DeskTest, ARefusedEditChangesNothingAndSaysAllThatIsWrong) {
  const auto site = desk();
  const Reply wrong = site->edit(tree(R"({"words": "x", "changes": [
      {"at": ["site", "mounts", "m"], "was": null, "now": {"name": "m", "at": [0], "height_m": 900}},
      {"at": ["cameras", "c"], "was": null, "now": {"name": "c", "sheet": "none", "mount": "m", "heading_deg": 0}}]})"),
                                 "tab");
  EXPECT_EQ(wrong.status, 400);
  EXPECT_GE(at(wrong.body, {"errors"}).get<List>().size(), 3U) << file::print_json(wrong.body);
  EXPECT_EQ(at(wrong.body, {"errors", "0", "object"}), Value{"site.mounts[0] \"m\""});
  const Reply conflict =
      site->edit(tree(R"({"words": "x", "changes": [{"at": ["name"], "was": "barn", "now": "b"}]})"), "tab");
  EXPECT_EQ(conflict.status, 409);
  EXPECT_EQ(at(conflict.body, {"conflicts", "0"}),
            tree(R"({"at": ["name"], "was": "barn", "now": "b", "found": "yard"})"));
  for (const char* body : {"5", "{}", R"({"words": "x"})", R"({"words": "", "changes": []})",
                           R"({"words": "a\nb", "changes": [{"at": ["name"], "was": "yard", "now": "b"}]})"})
    EXPECT_EQ(site->edit(tree(body), "tab").status, 400) << body;
  EXPECT_EQ(at(site->site().body, {"revision"}), Value{1});
  EXPECT_EQ(at(site->history().body, {"edits"}), Value{List{}});
}

TEST_F(DeskTest, AnAnswerCanBeAskedForWithChangesOfItsOwn) {
  const auto site = desk();
  const Snapshot now = site->snapshot();
  const auto other = now.with(tree(R"([{"at": ["site", "mounts", "m"], "was": null,
      "now": {"name": "m", "at": [0, 0], "height_m": 3}}])"));
  ASSERT_TRUE(other.has_value());
  EXPECT_EQ(other->project->site.mounts.size(), 1U);
  EXPECT_EQ(other->revision, 1);
  EXPECT_TRUE(site->snapshot().project->site.mounts.empty());
  EXPECT_TRUE(now.with({}).has_value());
  EXPECT_TRUE(now.with(List{}).has_value());
  EXPECT_FALSE(now.with(tree(R"([{"at": ["name"], "was": "barn", "now": "b"}])")).has_value());
  EXPECT_FALSE(now.with(tree(R"([{"at": ["site", "ground"], "now": "cheese"}])")).has_value());
}

TEST_F(DeskTest, TheFileFollowsByItself) {
  const auto site = desk();
  put_mount(*site, "pole");
  const auto start = std::chrono::steady_clock::now();
  wait_until([&] { return text_of(path()).find("pole") != std::string::npos; });
  EXPECT_LT(std::chrono::steady_clock::now() - start, std::chrono::seconds(5));
  EXPECT_EQ(mounts(tree(text_of(path()))), Names{"pole"});
}

TEST_F(DeskTest, UndoOutlivesTheProgram) {
  {
    const auto site = desk();
    put_mount(*site, "one");
    put_mount(*site, "two");
    site->undo("tab");
  }
  EXPECT_EQ(mounts(tree(text_of(path()))), Names{"one"});
  const auto site = again();
  EXPECT_EQ(at(site->site().body, {"undo"}), Value{"put in one"});
  EXPECT_EQ(at(site->site().body, {"redo"}), Value{"put in two"});
  EXPECT_EQ(site->redo("tab").status, 200);
  EXPECT_EQ(site->undo("tab").status, 200);
  EXPECT_EQ(site->undo("tab").status, 200);
  EXPECT_EQ(mounts(*site->snapshot().document), Names{});
}

/// What a crash leaves: the history is ahead of the file.
TEST_F(DeskTest, EditsThatHadNotReachedTheFileAreWrittenToIt) {
  std::string before;
  {
    const auto site = desk();
    before = text_of(path());
    put_mount(*site, "one");
    ASSERT_TRUE(site->save().has_value());
  }
  const fs::path history = file::history_path(path().string());
  {
    // As if the file had never been written, and the history did not know of it being written.
    Result<file::History> kept = file::History::open(history.string());
    ASSERT_TRUE(kept.has_value());
    ASSERT_TRUE(kept->saved(file::fingerprint(before), 1).has_value());
  }
  std::ofstream(path(), std::ios::binary) << before;
  const auto site = again();
  EXPECT_EQ(mounts(*site->snapshot().document), Names{"one"});
  EXPECT_EQ(mounts(tree(text_of(path()))), Names{"one"});
  EXPECT_EQ(at(site->site().body, {"undo"}), Value{"put in one"});
}

TEST_F(DeskTest, WhatWasChangedOutsideIsAnEditOfItsOwn) {
  {
    const auto site = desk();
    put_mount(*site, "one");
  }
  std::string text = text_of(path());
  text.replace(text.find("\"one\""), 5, "\"won\"");
  std::ofstream(path(), std::ios::binary) << text;
  const auto site = again();
  EXPECT_EQ(mounts(*site->snapshot().document), Names{"won"});
  EXPECT_EQ(at(site->site().body, {"undo"}), Value{"changed outside"});
  EXPECT_EQ(site->undo("tab").status, 200);
  EXPECT_EQ(mounts(*site->snapshot().document), Names{"one"});
  EXPECT_EQ(site->undo("tab").status, 200);
  EXPECT_EQ(mounts(*site->snapshot().document), Names{});
  EXPECT_EQ(site->redo("tab").status, 200);
  EXPECT_EQ(site->redo("tab").status, 200);
  EXPECT_EQ(mounts(*site->snapshot().document), Names{"won"});
}

TEST_F(DeskTest, WhatIsChangedOutsideWhileItIsOpenIsTakenIn) {
  const auto site = desk();
  put_mount(*site, "one");
  ASSERT_TRUE(site->save().has_value());
  Ear ear;
  site->subscribe(ear);
  std::string text = text_of(path());
  text.replace(text.find("yard"), 4, "barn");
  std::ofstream(path(), std::ios::binary) << text;
  const Value told = ear.wait("edit");
  EXPECT_EQ(at(told, {"words"}), Value{"changed outside"});
  EXPECT_EQ(at(told, {"changes", "0"}), tree(R"({"at": ["name"], "was": "yard", "now": "barn"})"));
  EXPECT_EQ(mounts(*site->snapshot().document), Names{"one"});
  site->unsubscribe(ear);
}

TEST_F(DeskTest, WhatDoesNotGoTogetherIsKeptBeside) {
  const auto site = desk();
  Ear ear;
  site->subscribe(ear);
  // Not a document: it cannot be taken in, and the next save must not take its place unseen.
  std::ofstream(path(), std::ios::binary) << "half a docu";
  put_mount(*site, "one");
  wait_until([&] { return fs::exists(folder_ / "a.outside-1.sightfall.json"); });
  EXPECT_EQ(text_of(folder_ / "a.outside-1.sightfall.json"), "half a docu");
  ASSERT_TRUE(site->save().has_value());
  EXPECT_EQ(mounts(tree(text_of(path()))), Names{"one"});
  EXPECT_THAT(
      at(ear.wait("trouble",
                  [](const Value& told) {
                    return at(told, {"errors", "0", "text"}).get<std::string>().find("outside-1") != std::string::npos;
                  }),
         {"errors", "0", "text"})
          .get<std::string>(),
      HasSubstr("do not go together"));
  site->unsubscribe(ear);
}

TEST_F(DeskTest, ASecondProgramIsToldSo) {
  const auto site = desk();
  Desk other(folder_.string());
  const Reply refused = other.open(tree(R"({"file": "a.sightfall.json"})"));
  EXPECT_EQ(refused.status, 400);
  EXPECT_THAT(file::print_json(refused.body), HasSubstr("another program has this site open"));
  EXPECT_EQ(put_mount(*site, "one").status, 200);
}

TEST_F(DeskTest, ABrokenHistoryIsNamedAndTheDocumentLeftAlone) {
  { const auto site = desk(); }
  const std::string before = text_of(path());
  std::ofstream(file::history_path(path().string()), std::ios::binary) << std::string(5000, '?');
  fs::remove(file::history_path(path().string()) + "-wal");
  Desk other(folder_.string());
  const Reply refused = other.open(tree(R"({"file": "a.sightfall.json"})"));
  EXPECT_EQ(refused.status, 400);
  EXPECT_THAT(file::print_json(refused.body), HasSubstr("a.sightfall.history"));
  EXPECT_THAT(file::print_json(refused.body), HasSubstr("move this file away"));
  EXPECT_EQ(text_of(path()), before);
}

TEST_F(DeskTest, AFileThatIsNoDocumentIsToldAndLeavesNothingBeside) {
  std::ofstream(path()) << R"({"sightfall": 1, "name": "x", "site": {"ground": "cheese"}, "conditions": []})";
  Desk desk(folder_.string());
  const Reply refused = desk.open(tree(R"({"file": "a.sightfall.json"})"));
  EXPECT_EQ(refused.status, 400);
  EXPECT_EQ(at(refused.body, {"errors"}).get<List>().size(), 2U) << file::print_json(refused.body);
  EXPECT_EQ(std::distance(fs::directory_iterator(folder_), fs::directory_iterator{}), 1);
}

TEST_F(DeskTest, EachEditIsJudgedAndALaterPageHearsOfIt) {
  fs::copy(fs::path(SIGHTFALL_SOURCE_DIR) / "demo" / "lamps", folder_ / "lamps");
  auto demo = file::load_project((fs::path(SIGHTFALL_SOURCE_DIR) / "demo" / "alder_lane.sightfall.json").string());
  ASSERT_TRUE(demo.has_value());
  demo->needs.resize(1);
  ASSERT_TRUE(file::save_project(path().string(), *demo).has_value());
  Desk desk(folder_.string());
  Ear ear;
  desk.subscribe(ear);
  EXPECT_EQ(at(ear.wait("hello"), {"revision"}), Value{});
  ASSERT_EQ(desk.open(tree(R"({"file": "a.sightfall.json"})")).status, 200);
  EXPECT_EQ(at(ear.wait("opened"), {"file"}), Value{"a.sightfall.json"});
  const Value first = ear.wait("check");
  EXPECT_EQ(at(first, {"stage"}), Value{"verdicts"});
  EXPECT_EQ(at(first, {"answer", "needs"}).get<List>().size(), desk.snapshot().project->needs.size());
  const std::string name = at(desk.site().body, {"document", "name"}).get<std::string>();
  desk.edit(
      Object{{"words", "rename"}, {"changes", List{Object{{"at", List{"name"}}, {"was", name}, {"now", "other"}}}}},
      "tab");
  const Value second = ear.wait("check", [](const Value& told) { return at(told, {"revision"}) == Value{2}; });
  EXPECT_EQ(at(second, {"stage"}), Value{"verdicts"}) << "what was judged before stopped";
  Ear late;
  desk.subscribe(late);
  EXPECT_EQ(at(late.wait("hello"), {"revision"}), Value{2});
  EXPECT_EQ(at(late.wait("check"), {"revision"}), Value{2});
  desk.unsubscribe(late);
  desk.unsubscribe(ear);
}

TEST_F(DeskTest, ManyPagesAtOnceLoseNothing) {
  const auto site = desk();
  constexpr int kThreads = 4, kEach = 15;
  std::vector<std::thread> pages;
  for (int page = 0; page < kThreads; ++page)
    pages.emplace_back([&, page] {
      for (int i = 0; i < kEach; ++i) {
        const Reply made = put_mount(*site, "m" + std::to_string(page) + "-" + std::to_string(i), i);
        EXPECT_EQ(made.status, 200);
        const Snapshot now = site->snapshot();
        EXPECT_EQ(now.project->site.mounts.size(), mounts(*now.document).size());
      }
    });
  for (std::thread& page : pages) page.join();
  EXPECT_EQ(site->snapshot().project->site.mounts.size(), static_cast<size_t>(kThreads * kEach));
  EXPECT_EQ(site->snapshot().revision, 1 + kThreads * kEach);
}

}  // namespace
}  // namespace sightfall::serve
