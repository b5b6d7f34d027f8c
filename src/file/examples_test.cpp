// SPDX-License-Identifier: GPL-3.0-or-later
// The examples of schema/: good ones load and are written back as they are, bad ones give exactly the errors beside
// them.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <vector>

#include "file/golden_test.h"
#include "file/project.h"
#include "file/seen_file.h"

namespace sightfall::file {
namespace {

namespace fs = std::filesystem;

std::vector<fs::path> documents(const fs::path& folder, const std::string& ending) {
  std::vector<fs::path> paths;
  for (const fs::directory_entry& entry : fs::directory_iterator(folder))
    if (entry.path().filename().string().ends_with(ending)) paths.push_back(entry.path());
  std::sort(paths.begin(), paths.end());
  EXPECT_FALSE(paths.empty()) << folder;
  return paths;
}

fs::path examples() { return source_folder() / "schema" / "examples"; }

std::string lines_of(const Errors& errors) {
  std::string text;
  for (const Error& error : errors) text += to_line(error) + '\n';
  return text;
}

template <class Document>
void expect_as_it_is(const fs::path& path, const Checked<Document>& document) {
  ASSERT_TRUE(document.has_value()) << lines_of(document.error());
  expect_golden(path, to_text(*document));
}

template <class Document>
void expect_errors(const fs::path& path, const Checked<Document>& document) {
  ASSERT_FALSE(document.has_value()) << path << " has no error";
  EXPECT_LT(document.error().size(), 40U) << path;
  expect_golden(fs::path(path).replace_extension(".txt"), lines_of(document.error()));
}

TEST(Examples, GoodProjectsAreWrittenBackAsTheyAre) {
  for (const fs::path& path : documents(examples(), ".sightfall.json"))
    expect_as_it_is(path, load_project(path.string()));
}

TEST(Examples, GoodSheetsAreWrittenBackAsTheyAre) {
  for (const fs::path& path : documents(examples(), ".sheet.json")) expect_as_it_is(path, load_sheet(path.string()));
}

TEST(Examples, BadProjectsGiveTheErrorsBesideThem) {
  for (const fs::path& path : documents(examples() / "bad", ".sightfall.json"))
    expect_errors(path, parse_project(text_of(path), path.filename().string()));
}

TEST(Examples, BadSheetsGiveTheErrorsBesideThem) {
  for (const fs::path& path : documents(examples() / "bad", ".sheet.json"))
    expect_errors(path, parse_sheet(text_of(path), path.filename().string()));
}

TEST(Examples, EveryShippedDocumentIsGood) {
  for (const fs::path& path : documents(source_folder() / "data" / "sheets", ".json")) {
    const auto sheet = load_sheet(path.string());
    EXPECT_TRUE(sheet.has_value()) << lines_of(sheet.error());
  }
  for (const fs::path& path : documents(source_folder() / "demo", ".sightfall.json")) {
    const auto project = load_project(path.string());
    EXPECT_TRUE(project.has_value()) << lines_of(project.error());
  }
}

/// A field that takes a name which comes with the program leads to the list of them.
TEST(Manual, ListsTheNamesThatComeWithTheProgram) {
  const std::string manual = document_manual();
  const auto tells = [&](const std::string& text) { return manual.find(text) != std::string::npos; };
  for (const char* kind : {"levels", "materials", "cables"}) {
    EXPECT_TRUE(tells("[data/" + std::string(kind) + ".json](#names-of-" + kind + ")")) << kind;
    EXPECT_TRUE(tells("\n## Names of " + std::string(kind) + "\n")) << kind;
  }
  for (const detail::LevelTable& table : standard_level_tables())
    for (const detail::Level& level : table.levels) EXPECT_TRUE(tells("`" + level.name + "` from ")) << level.name;
  for (const light::Material& one : default_materials().all) EXPECT_TRUE(tells("\n- `" + one.name + "`\n")) << one.name;
  for (const site::Cable& one : default_cables()) EXPECT_TRUE(tells("\n- `" + one.name + "`\n")) << one.name;
}

TEST(Schema, FilesAreThoseMadeFromTheDescription) {
  expect_golden(source_folder() / "schema" / "project.schema.json", project_schema());
  expect_golden(source_folder() / "schema" / "sheet.schema.json", sheet_schema());
  expect_golden(source_folder() / "schema" / "seen.schema.json", seen_schema());
  expect_golden(source_folder() / "docs" / "document.md", document_manual());
}

}  // namespace
}  // namespace sightfall::file
