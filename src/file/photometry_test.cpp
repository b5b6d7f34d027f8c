// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/photometry.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "light/lamp_file.h"

namespace sightfall::file {
namespace {

namespace fs = std::filesystem;

constexpr const char* kLamp =
    "IESNA:LM-63-2002\n[TEST] invented\nTILT=NONE\n1 1000 1 3 1 1 2 0 0 0\n1 1 50\n0 45 90\n0\n300 200 0\n";

std::string with_lamps(const std::string& files) {
  std::string lamps;
  size_t number = 0;
  for (size_t from = 0; from < files.size(); ++number) {
    const size_t to = std::min(files.find(' ', from), files.size());
    lamps += (number > 0 ? "," : "") + (R"({"name": "lamp )" + std::to_string(number)) +
             R"(", "at": [0, 0], "height_m": 5, "photometry": ")" + files.substr(from, to - from) + "\"}";
    from = to + 1;
  }
  return R"({"sightfall": 1, "name": "t", "site": {"lamps": [)" + lamps +
         R"(]}, "conditions": [{"name": "night", "leaves": "on", "light": "dark night"}]})";
}

/// A folder of its own for a document, removed at the end.
class Photometry : public testing::Test {
 protected:
  Photometry() : folder_{fs::temp_directory_path() / ("sightfall_photometry_" + std::to_string(::getpid()))} {
    fs::create_directories(folder_ / "site" / "lamps");
  }
  ~Photometry() override { fs::remove_all(folder_); }

  void write(const std::string& name, const std::string& text) const {
    std::ofstream(folder_ / name, std::ios::binary) << text;
  }

  Checked<need::Project> load(const std::string& files) const {
    write("site/t.sightfall.json", with_lamps(files));
    return load_project((folder_ / "site" / "t.sightfall.json").string());
  }

  /// The one error of a document whose lamp names this file.
  std::string error_of(const std::string& file) const {
    const auto project = load(file);
    if (project || project.error().size() != 1) return "not one error";
    EXPECT_EQ(project.error()[0].where.object, "site.lamps[0] \"lamp 0\"");
    EXPECT_EQ(project.error()[0].where.field, "photometry");
    return project.error()[0].text;
  }

  bool told(const std::string& file, const std::string& what) const {
    return error_of(file).find(what) != std::string::npos;
  }

  const fs::path folder_;
};

TEST_F(Photometry, IsReadBesideTheDocumentOnceForEachFile) {
  write("site/a.ies", kLamp);
  write("site/lamps/b.ies", kLamp);
  const auto project = load("a.ies lamps/b.ies a.ies");
  ASSERT_TRUE(project.has_value()) << to_line(project.error().front());
  ASSERT_EQ(project->photometry.size(), 2U);
  EXPECT_EQ(project->photometry[0].name, "a.ies");
  EXPECT_EQ(project->photometry[1].name, "lamps/b.ies");
  EXPECT_EQ(project->photometry[0].candela.at({}, {}), 300.0 * units::cd);
}

TEST_F(Photometry, StaysInTheFolder) {
  write("outside.ies", kLamp);
  fs::create_symlink(folder_ / "outside.ies", folder_ / "site" / "link.ies");
  const std::string absolute = (folder_ / "outside.ies").string();
  for (const std::string& name : {std::string("../outside.ies"), std::string("lamps/../../outside.ies"), absolute})
    EXPECT_TRUE(told(name, "allowed is a file in the document's folder or below it")) << error_of(name);
  EXPECT_TRUE(told("link.ies", "leads out of the document's folder")) << error_of("link.ies");
}

TEST_F(Photometry, WhatCannotBeReadIsToldWithItsFile) {
  EXPECT_TRUE(told("none.ies", "none.ies: cannot be opened")) << error_of("none.ies");
  EXPECT_TRUE(told("lamps", "is a folder")) << error_of("lamps");
  write("site/huge.ies", "");
  fs::resize_file(folder_ / "site" / "huge.ies", uintmax_t{1} << 30);
  EXPECT_TRUE(told("huge.ies", "huge.ies: has 1073741824 bytes; at most")) << error_of("huge.ies");
}

TEST_F(Photometry, WhatIsNoLampIsToldWithItsFileAndLine) {
  const std::string text = kLamp;
  write("site/short.ies", text.substr(0, text.size() - 10));
  write("site/lying.ies",
        "IESNA:LM-63-2002\nTILT=NONE\n1 1000 1 2000000000 1 1 2 0 0 0\n1 1 50\n0 45 90\n0\n300 200 0\n");
  write("site/words.ies", "nothing of a lamp\n");
  for (const char* name : {"short.ies", "lying.ies", "words.ies"}) EXPECT_TRUE(told(name, name)) << error_of(name);
  EXPECT_TRUE(told("lying.ies", "line 3")) << error_of("lying.ies");
}

TEST_F(Photometry, AllFilesTogetherHaveALimit) {
  const std::string padded = kLamp + std::string(light::kLargestLampFile - std::string(kLamp).size(), ' ');
  const LampFiles large = [&](const std::string&) { return Result<std::string>(padded); };
  EXPECT_TRUE(parse_project(with_lamps("1 2 3 4"), "t", large).has_value());
  const auto project = parse_project(with_lamps("1 2 3 4 5"), "t", large);
  ASSERT_FALSE(project.has_value());
  EXPECT_EQ(project.error().front().kind, ErrorKind::kTooLarge);
}

TEST_F(Photometry, ATextWithoutAFolderCannotNameAFile) {
  const auto project = parse_project(with_lamps("a.ies"), "t");
  ASSERT_FALSE(project.has_value());
  EXPECT_NE(project.error().front().text.find("without a folder"), std::string::npos);
}

TEST_F(Photometry, ADocumentIsNotSavedWhereItsFilesAreNot) {
  write("site/a.ies", kLamp);
  const auto project = load("a.ies");
  ASSERT_TRUE(project.has_value());
  EXPECT_TRUE(save_project((folder_ / "site" / "again.sightfall.json").string(), *project).has_value());
  const Result<void> elsewhere = save_project((folder_ / "t.sightfall.json").string(), *project);
  ASSERT_FALSE(elsewhere.has_value());
  EXPECT_EQ(elsewhere.error().kind, ErrorKind::kMissingFile);
  EXPECT_FALSE(fs::exists(folder_ / "t.sightfall.json"));
}

}  // namespace
}  // namespace sightfall::file
