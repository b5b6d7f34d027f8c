// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/history.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "file/golden_test.h"

namespace sightfall::file {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;

class HistoryTest : public testing::Test {
 protected:
  HistoryTest() {
    folder_ = fs::path(testing::TempDir()) /
              ("history_" + std::string(testing::UnitTest::GetInstance()->current_test_info()->name()));
    fs::remove_all(folder_);
    fs::create_directories(folder_);
  }
  ~HistoryTest() override { fs::remove_all(folder_); }

  std::string path() const { return (folder_ / "a.sightfall.history").string(); }

  static History opened(const std::string& path) {
    Result<History> history = History::open(path);
    EXPECT_TRUE(history.has_value()) << (history ? "" : to_line(history.error()));
    return std::move(*history);
  }

  static KeptEdit edit(const std::string& words) { return {0, 0, words, "2026-05-01T12:00:00Z", "[1]", "[2]", false}; }

  static std::vector<std::string> told(const History& history, size_t most = 100) {
    std::vector<std::string> lines;
    const std::vector<KeptEdit> edits = history.newest(most).value();
    for (const KeptEdit& one : edits)
      lines.push_back(std::to_string(one.revision) + " " + one.words + (one.undone ? " (undone)" : ""));
    return lines;
  }

  fs::path folder_;
};

using Lines = std::vector<std::string>;

TEST_F(HistoryTest, StandsBesideTheDocument) {
  EXPECT_EQ(history_path("/a/b.sightfall.json"), "/a/b.sightfall.history");
  EXPECT_EQ(history_path("plain"), "plain.history");
}

TEST_F(HistoryTest, KeepsEditsAndWhereUndoStandsFromOneProgramToTheNext) {
  {
    History history = opened(path());
    EXPECT_FALSE(history.head().value().has_value());
    ASSERT_TRUE(history.begin("zero", "found").has_value());
    EXPECT_EQ(history.add(edit("first"), "one").value(), 2);
    EXPECT_EQ(history.add(edit("second"), "two").value(), 3);
    EXPECT_EQ(history.undone("one").value(), 4);
  }
  {
    History history = opened(path());
    const HistoryHead head = history.head().value().value();
    EXPECT_EQ(head.revision, 4);
    EXPECT_EQ(head.document, "one");
    EXPECT_EQ(head.saved, fingerprint("found"));
    EXPECT_EQ(head.saved_revision, 1);
    EXPECT_EQ(told(history), (Lines{"3 second (undone)", "2 first"}));
    EXPECT_EQ(history.to_redo().value()->words, "second");
    const KeptEdit back = history.to_undo().value().value();
    EXPECT_EQ(back.words, "first");
    EXPECT_EQ(back.when, "2026-05-01T12:00:00Z");
    EXPECT_EQ(back.changes, "[1]");
    EXPECT_EQ(back.inverse, "[2]");
    EXPECT_EQ(history.redone("two").value(), 5);
    EXPECT_FALSE(history.to_redo().value().has_value());
    EXPECT_EQ(history.undone("one").value(), 6);
    EXPECT_EQ(history.undone("zero").value(), 7);
    EXPECT_FALSE(history.to_undo().value().has_value());
  }
  History history = opened(path());
  EXPECT_EQ(history.add(edit("other"), "else").value(), 8);
  EXPECT_EQ(told(history), Lines{"8 other"}) << "what was undone gives way to what is new";
  EXPECT_EQ(told(history, 0), Lines{});
}

TEST_F(HistoryTest, KeepsTheNewestEditsAndUndoEndsWithThem) {
  constexpr int64_t kMost = 3;
  Result<History> history = History::open(path(), kMost);
  ASSERT_TRUE(history->begin("0", "found").has_value());
  for (const char* words : {"one", "two", "three", "four", "five"}) ASSERT_TRUE(history->add(edit(words), words));
  EXPECT_EQ(told(*history), (Lines{"6 five", "5 four", "4 three"}));
  for (const char* words : {"five", "four", "three"}) {
    EXPECT_EQ(history->to_undo().value()->words, words);
    ASSERT_TRUE(history->undone("before"));
  }
  EXPECT_FALSE(history->to_undo().value().has_value());
  EXPECT_EQ(history->to_redo().value()->words, "three");
  // An edit in place of those undone drops nothing else.
  ASSERT_TRUE(history->redone("three"));
  ASSERT_TRUE(history->add(edit("other"), "other"));
  EXPECT_EQ(told(*history), (Lines{"11 other", "4 three"}));
}

TEST_F(HistoryTest, KeepsAsManyEditsAsThereIsRoomFor) {
  constexpr int64_t kPages = int64_t{1} << 20;
  const auto large = [](const std::string& words) {
    KeptEdit made = edit(words);
    made.changes = std::string(size_t{300} << 10, 'x');
    return made;
  };
  History history = History::open(path(), kMostEdits, kPages).value();
  ASSERT_TRUE(history.begin("0", "found").has_value());
  for (int i = 1; i <= 40; ++i) ASSERT_TRUE(history.add(large(std::to_string(i)), "document"));
  EXPECT_EQ(told(history), (Lines{"41 40", "40 39", "39 38"}));
  // The room of what went is used again.
  EXPECT_LT(fs::file_size(path()), 3 * static_cast<uintmax_t>(kPages));
  KeptEdit huge = edit("huge");
  huge.inverse = std::string(size_t{2} << 20, 'x');
  ASSERT_TRUE(history.add(huge, "document"));
  EXPECT_EQ(told(history), (Lines{"42 huge"})) << "the newest stays, whatever its size";
  EXPECT_EQ(history.to_undo().value()->words, "huge");
}

TEST_F(HistoryTest, KnowsWhatTheFileHolds) {
  History history = opened(path());
  ASSERT_TRUE(history.begin("zero", "found").has_value());
  ASSERT_TRUE(history.add(edit("first"), "one").has_value());
  ASSERT_TRUE(history.about_to_save(fingerprint("one")).has_value());
  EXPECT_EQ(history.head().value()->saving, fingerprint("one"));
  EXPECT_EQ(history.head().value()->saved, fingerprint("found"));
  ASSERT_TRUE(history.saved(fingerprint("one"), 2).has_value());
  EXPECT_EQ(history.head().value()->saved, fingerprint("one"));
  EXPECT_EQ(history.head().value()->saved_revision, 2);
  EXPECT_NE(fingerprint("one"), fingerprint("two"));
  EXPECT_NE(fingerprint(""), fingerprint(std::string_view("\0", 1)));
}

TEST_F(HistoryTest, ASecondProgramIsToldThatTheFirstHasIt) {
  History first = opened(path());
  ASSERT_TRUE(first.begin("zero", "found").has_value());
  const Result<History> second = History::open(path());
  ASSERT_FALSE(second.has_value());
  EXPECT_THAT(to_line(second.error()), HasSubstr("a.sightfall.history: another program has this site open"));
  EXPECT_TRUE(first.add(edit("still"), "one").has_value());
}

TEST_F(HistoryTest, AFileOfAnotherKindIsNamedAndLeftAlone) {
  const std::string text(3000, 'x');
  std::ofstream(path()) << text;
  const Result<History> history = History::open(path());
  ASSERT_FALSE(history.has_value());
  EXPECT_THAT(to_line(history.error()), HasSubstr("a.sightfall.history: is no history of Sightfall"));
  EXPECT_THAT(to_line(history.error()), HasSubstr("ove this file away"));
  EXPECT_EQ(text_of(path()), text);
}

TEST_F(HistoryTest, ADamagedHistoryIsNamedAndLeftAlone) {
  {
    History history = opened(path());
    ASSERT_TRUE(history.begin(std::string(20000, 'd'), "found").has_value());
    for (int i = 0; i < 50; ++i) ASSERT_TRUE(history.add(edit(std::string(900, 'e')), "one").has_value());
  }
  std::string bytes = text_of(path());
  ASSERT_GT(bytes.size(), 20000U);
  for (size_t i = 4096; i < bytes.size(); ++i) bytes[i] = static_cast<char>(i * 7);
  std::ofstream(path(), std::ios::binary) << bytes;
  const Result<History> history = History::open(path());
  ASSERT_FALSE(history.has_value());
  EXPECT_THAT(to_line(history.error()), HasSubstr("damaged"));
  EXPECT_EQ(text_of(path()), bytes);
}

TEST_F(HistoryTest, AnEmptyFileIsAHistoryThatWasBegunAndNoMore) {
  std::ofstream(path()).close();
  History history = opened(path());
  EXPECT_FALSE(history.head().value().has_value());
  EXPECT_TRUE(history.begin("zero", "found").has_value());
}

TEST_F(HistoryTest, AFolderThatCannotBeWrittenIsTold) {
  const Result<History> history = History::open((folder_ / "nowhere" / "a.sightfall.history").string());
  ASSERT_FALSE(history.has_value());
  EXPECT_THAT(to_line(history.error()), HasSubstr("the history cannot be kept"));
}

}  // namespace
}  // namespace sightfall::file
