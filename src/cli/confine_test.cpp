// SPDX-License-Identifier: GPL-3.0-or-later
// Each in a process of its own, since what is given up is given up for good.
#include "cli/confine.h"

#include <fcntl.h>
#include <gtest/gtest.h>
#include <netinet/in.h>
#include <spawn.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <filesystem>
#include <fstream>
#include <functional>

namespace sightfall::cli {
namespace {

namespace fs = std::filesystem;

/// Whether `trial` holds in a process that has confined itself.
bool holds_confined(const Reach& reach, const std::function<bool()>& trial) {
  const pid_t child = ::fork();
  if (child == 0) ::_exit(confine(reach) && trial() ? 0 : 1);
  int status = 1;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

bool can_read(const fs::path& path) { return std::ifstream(path).good(); }
bool can_write(const fs::path& path) { return std::ofstream(path).put('x').flush().good(); }
bool socket_refused(int family, int kind) { return ::socket(family, kind, 0) < 0 && errno == EACCES; }

class ConfineTest : public testing::Test {
 protected:
  ConfineTest() {
    const auto* test = testing::UnitTest::GetInstance()->current_test_info();
    folder_ = fs::path(testing::TempDir()) / ("confine_" + std::string(test->name()));
    fs::remove_all(folder_);
    fs::create_directories(folder_ / "map");
    fs::create_directories(folder_ / "site");
    fs::create_directories(folder_ / "secrets");
    for (const char* name : {"map/town.geojson", "site/a.json", "secrets/key"}) std::ofstream(folder_ / name) << "text";
    reach_ = {{(folder_ / "map").string()}, {(folder_ / "site").string()}};
  }
  ~ConfineTest() override { fs::remove_all(folder_); }

  fs::path folder_;
  Reach reach_;
};

TEST_F(ConfineTest, NoSocketOfAnyKindCanBeMade) {
  ASSERT_GE(::socket(AF_INET, SOCK_STREAM, 0), 0) << "before, it can";
  EXPECT_TRUE(holds_confined(reach_, [] {
    return socket_refused(AF_INET, SOCK_STREAM) && socket_refused(AF_INET6, SOCK_DGRAM) &&
           socket_refused(AF_UNIX, SOCK_STREAM);
  }));
}

TEST_F(ConfineTest, NoOtherProgramCanBeRun) {
  EXPECT_TRUE(holds_confined(reach_, [] {
    char name[] = "/bin/true";
    char* words[] = {name, nullptr};
    char* none[] = {nullptr};
    return ::execve(name, words, none) < 0 && errno == EACCES;
  }));
}

TEST_F(ConfineTest, OnlyTheFoldersNamedCanBeReadAndWritten) {
  ASSERT_TRUE(can_read(folder_ / "secrets/key"));
  ASSERT_TRUE(can_read("/etc/passwd"));
  EXPECT_TRUE(holds_confined(reach_, [this] {
    return can_read(folder_ / "map/town.geojson") && can_read(folder_ / "site/a.json") && can_read("/usr/bin/env") &&
           !can_read(folder_ / "secrets/key") && !can_read("/etc/passwd");
  }));
  EXPECT_TRUE(holds_confined(reach_, [this] {
    return can_write(folder_ / "site/new") &&
           ::rename((folder_ / "site/new").c_str(), (folder_ / "site/a.json").c_str()) == 0 &&
           !can_write(folder_ / "map/new") && !can_write(folder_ / "map/town.geojson") && !can_write(folder_ / "new") &&
           ::truncate((folder_ / "secrets/key").c_str(), 0) != 0;
  }));
}

TEST_F(ConfineTest, ALinkDoesNotLeadOut) {
  fs::create_symlink(folder_ / "secrets/key", folder_ / "map/link");
  EXPECT_TRUE(holds_confined(reach_, [this] { return !can_read(folder_ / "map/link"); }));
}

TEST_F(ConfineTest, AFileIsFoundWhereItStandsAndWhereItsNameLeads) {
  EXPECT_EQ(folders_of("town.geojson").front(), ".");
  fs::create_symlink(folder_ / "secrets/key", folder_ / "map/link");
  const std::vector<std::string> both = folders_of((folder_ / "map/link").string());
  EXPECT_EQ(both.front(), (folder_ / "map").string());
  EXPECT_EQ(both.back(), fs::canonical(folder_ / "secrets").string());
}

}  // namespace
}  // namespace sightfall::cli
