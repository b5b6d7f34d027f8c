// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/atomic.h"

#include <gtest/gtest.h>
#include <sys/inotify.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <csignal>
#include <cstring>
#include <filesystem>
#include <fstream>

#include "file/golden_test.h"
#include "file/project.h"

namespace sightfall::file {
namespace {

namespace fs = std::filesystem;

/// A folder of its own for each test.
class Atomic : public testing::Test {
 protected:
  void SetUp() override {
    std::string pattern = (fs::temp_directory_path() / "sightfall_test_XXXXXX").string();
    ASSERT_NE(::mkdtemp(pattern.data()), nullptr);
    folder_ = pattern;
    path_ = folder_ / "site.json";
  }
  void TearDown() override { fs::remove_all(folder_); }

  std::string write(std::string_view text) {
    const auto result = write_atomically(path_.string(), text);
    return result ? "" : to_line(result.error());
  }
  std::vector<std::string> names() const {
    std::vector<std::string> all;
    for (const auto& entry : fs::directory_iterator(folder_)) all.push_back(entry.path().filename().string());
    std::sort(all.begin(), all.end());
    return all;
  }

  fs::path folder_, path_;
};

using Names = std::vector<std::string>;

TEST_F(Atomic, WritesANewFileAndReplacesAnOldOne) {
  EXPECT_EQ(write("one"), "");
  EXPECT_EQ(text_of(path_), "one");
  EXPECT_EQ(write("two"), "");
  EXPECT_EQ(text_of(path_), "two");
  EXPECT_EQ(names(), Names{"site.json"});
}

TEST_F(Atomic, KeepsTheRightsOfTheOldFile) {
  write("one");
  ASSERT_EQ(::chmod(path_.c_str(), 0640), 0);
  write("two");
  struct stat facts {};
  ASSERT_EQ(::stat(path_.c_str(), &facts), 0);
  EXPECT_EQ(facts.st_mode & 0777, 0640U);
}

TEST_F(Atomic, ReplacesWhatALinkLeadsToAndNotTheLink) {
  write("one");
  fs::create_symlink("site.json", folder_ / "link");
  ASSERT_TRUE(write_atomically((folder_ / "link").string(), "two").has_value());
  EXPECT_TRUE(fs::is_symlink(folder_ / "link"));
  EXPECT_EQ(text_of(path_), "two");
}

/// What happened to names in the folder, in order, as `+name` (came) and `-name` (went).
Names events_of(int notifier) {
  Names events;
  std::array<char, 16384> buffer{};
  const ssize_t length = ::read(notifier, buffer.data(), buffer.size());
  for (ssize_t at = 0; at < length;) {
    inotify_event event{};
    std::memcpy(&event, buffer.data() + at, sizeof event);
    const std::string name = buffer.data() + at + sizeof event;
    events.push_back(((event.mask & (IN_DELETE | IN_MOVED_FROM)) != 0 ? "-" : "+") + name);
    at += static_cast<ssize_t>(sizeof event + event.len);
  }
  return events;
}

TEST_F(Atomic, KeepsWhatItReplacesUntilTheNewIsInPlace) {
  write("one");
  const int notifier = ::inotify_init1(IN_NONBLOCK);
  ASSERT_GE(::inotify_add_watch(notifier, folder_.c_str(), IN_CREATE | IN_DELETE | IN_MOVED_TO | IN_MOVED_FROM), 0);
  write("two");
  Names events = events_of(notifier);
  ::close(notifier);
  ASSERT_EQ(events.size(), 5U);
  EXPECT_TRUE(events[0].starts_with("+.site.json.")) << events[0];
  events.erase(events.begin());
  EXPECT_EQ(events[0], "+site.json~");
  EXPECT_TRUE(events[1].starts_with("-.site.json.")) << events[1];
  EXPECT_EQ(events[2], "+site.json");
  EXPECT_EQ(events[3], "-site.json~");
}

TEST_F(Atomic, LeavesABackupOfSomebodyElseAlone) {
  std::ofstream(folder_ / "site.json~") << "an editor's";
  write("one");
  EXPECT_EQ(write("two"), "");
  EXPECT_EQ(text_of(folder_ / "site.json~"), "an editor's");
  EXPECT_EQ(names(), (Names{"site.json", "site.json~"}));
}

/// Runs in a child, where a limit or another user can be set without harm; whether it returned true.
template <class Body>
bool in_child(Body body) {
  const pid_t child = ::fork();
  if (child == 0) ::_exit(body() ? 0 : 1);
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

TEST_F(Atomic, AFullDiskLeavesTheOldFileAndSaysSo) {
  write("one");
  const bool told = in_child([&] {
    std::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{1000, 1000};
    ::setrlimit(RLIMIT_FSIZE, &limit);
    const auto result = write_atomically(path_.string(), std::string(100'000, 'x'));
    return !result && result.error().kind == ErrorKind::kWrite && result.error().where.file == path_.string();
  });
  EXPECT_TRUE(told);
  EXPECT_EQ(text_of(path_), "one");
  EXPECT_EQ(names(), Names{"site.json"});
}

/// Whoever may not give a file a second name, because it is another's, still keeps a copy of it.
TEST_F(Atomic, KeepsACopyOfAnothersFile) {
  if (::geteuid() != 0) GTEST_SKIP() << "only root can become somebody else";
  write("one");
  const int notifier = ::inotify_init1(IN_NONBLOCK);
  ASSERT_GE(::inotify_add_watch(notifier, folder_.c_str(), IN_CREATE), 0);
  EXPECT_TRUE(in_child([&] {
    constexpr uid_t kNobody = 65534;
    return ::chmod(folder_.c_str(), 0777) == 0 && ::seteuid(kNobody) == 0 && write("two").empty();
  }));
  const Names events = events_of(notifier);
  ::close(notifier);
  EXPECT_NE(std::find(events.begin(), events.end(), "+site.json~"), events.end());
  EXPECT_EQ(text_of(path_), "two");
  EXPECT_EQ(names(), Names{"site.json"});
}

TEST_F(Atomic, AFolderThatCannotBeWrittenLeavesTheOldFileAndSaysSo) {
  write("one");
  const bool told = in_child([&] {
    ::chmod(folder_.c_str(), 0555);
    constexpr uid_t kNobody = 65534;
    if (::geteuid() == 0 && ::seteuid(kNobody) != 0) return false;  // nothing is forbidden to root
    return write("two").find("cannot write in this folder") != std::string::npos;
  });
  ::chmod(folder_.c_str(), 0755);
  EXPECT_TRUE(told);
  EXPECT_EQ(text_of(path_), "one");
}

TEST_F(Atomic, RefusesWhatIsNoRegularFile) {
  fs::create_directory(path_);
  EXPECT_NE(write("one").find("no regular file"), std::string::npos);
  const auto device = write_atomically("/dev/full", "one");
  ASSERT_FALSE(device.has_value());
  EXPECT_TRUE(fs::is_character_file("/dev/full"));
  path_ = folder_ / "no such folder" / "site.json";
  EXPECT_NE(write("one").find("cannot write in this folder"), std::string::npos);
}

TEST_F(Atomic, ReadsRegularFilesOnly) {
  write("one");
  EXPECT_EQ(read_whole(path_.string(), 3).value(), "one");
  EXPECT_EQ(read_whole(path_.string(), 2).error().kind, ErrorKind::kTooLarge);
  EXPECT_EQ(read_whole((folder_ / "none").string(), 9).error().kind, ErrorKind::kMissingFile);
  EXPECT_NE(read_whole(folder_.string(), 9).error().text.find("is a folder"), std::string::npos);
  const fs::path pipe = folder_ / "pipe";
  ASSERT_EQ(::mkfifo(pipe.c_str(), 0600), 0);
  EXPECT_NE(read_whole(pipe.string(), 9).error().text.find("no regular file"), std::string::npos);
}

TEST_F(Atomic, SaysWhenAFileMayNotBeRead) {
  write("one");
  EXPECT_TRUE(in_child([&] {
    ::chmod(path_.c_str(), 0);
    constexpr uid_t kNobody = 65534;
    if (::geteuid() == 0 && ::seteuid(kNobody) != 0) return false;
    const auto text = read_whole(path_.string(), 9);
    return !text && text.error().kind == ErrorKind::kMissingFile;
  }));
}

TEST_F(Atomic, ALargeFileIsRefusedBeforeItIsRead) {
  std::ofstream(path_) << "{";
  fs::resize_file(path_, size_t{1} << 30);
  const auto start = std::chrono::steady_clock::now();
  const auto project = load_project(path_.string());
  EXPECT_LT(std::chrono::steady_clock::now() - start, std::chrono::milliseconds(200));
  ASSERT_FALSE(project.has_value());
  EXPECT_EQ(project.error().front().kind, ErrorKind::kTooLarge);
}

/// The example with every field; its lamp's file is put beside where it will be saved.
need::Project full_example(const fs::path& folder) {
  const fs::path examples = source_folder() / "schema" / "examples";
  fs::copy_file(examples / "street.ies", folder / "street.ies");
  return *load_project((examples / "full.sightfall.json").string());
}

TEST_F(Atomic, AProjectIsSavedAndLoaded) {
  const need::Project project = full_example(folder_);
  ASSERT_TRUE(save_project(path_.string(), project).has_value());
  EXPECT_EQ(text_of(path_), to_text(project));
  EXPECT_EQ(to_text(*load_project(path_.string())), to_text(project));
}

TEST_F(Atomic, AProjectThatCouldNotBeLoadedIsNotSaved) {
  need::Project project = full_example(folder_);
  ASSERT_TRUE(save_project(path_.string(), project).has_value());
  const std::string before = text_of(path_);
  project.site.mounts[0].at.x = std::nan("");
  const auto refused = save_project(path_.string(), project);
  ASSERT_FALSE(refused.has_value());
  EXPECT_EQ(refused.error().where.object, "site.mounts[0] \"barn corner\"");
  project.site.mounts[0].at.x = 0;
  project.cameras[0].mount = "not there";
  EXPECT_EQ(save_project(path_.string(), project).error().kind, ErrorKind::kReference);
  EXPECT_EQ(text_of(path_), before);
}

}  // namespace
}  // namespace sightfall::file
