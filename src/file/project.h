// SPDX-License-Identifier: GPL-3.0-or-later
// Documents to and from disk: the project (NAME.sightfall.json) and the sheet.
//   Promise  a project that was loaded is valid in every field, reference and outline (rules.h): nothing after checks
//   again Promise  what was loaded is written back so that loading it again gives the same values to the last bit
//   Limits   kLargestDocument bytes, kMostValues values, lists within lists kDeepest deep (json.h)
//   Checked  project_test.cpp, examples_test.cpp; tests/fuzz/project_fuzz.cpp
#pragma once
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "camera/sheet.h"
#include "detail/levels.h"
#include "detail/typical.h"
#include "file/json.h"
#include "light/surfaces.h"
#include "need/project.h"

namespace sightfall::file {

/// Bytes of a document; a larger file is refused before it is read.
inline constexpr size_t kLargestDocument = size_t{128} << 20;

/// Gives the text of a photometric file by the name that a document calls it, at most light::kLargestLampFile bytes.
using LampFiles = std::function<Result<std::string>(const std::string& name)>;

/// The project in the file, or every error in it. Photometric files are read in the file's folder.
Checked<need::Project> load_project(const std::string& path);

/// The same from text; file_name is what errors call it. Without lamp_files a document that names a photometric file
/// is an error.
Checked<need::Project> parse_project(std::string_view text, const std::string& file_name,
                                     const LampFiles& lamp_files = {});

/// The same from a tree.
Checked<need::Project> read_project(const Value& document, const std::string& file_name,
                                    const LampFiles& lamp_files = {});

/// The sheet in the file, or every error in it.
Checked<camera::Sheet> load_sheet(const std::string& path);
Checked<camera::Sheet> parse_sheet(std::string_view text, const std::string& file_name);

/// JSON as a person would lay it out, one item of a list to a line or block, so that a change shows as a small
/// difference. Values that are the default are left out.
std::string to_text(const need::Project& project);
std::string to_text(const camera::Sheet& sheet);
/// The same as a tree, which print_json makes a text of.
Value to_value(const need::Project& project);

/// Writes the document in place of the file (see atomic.h). One that could not be loaded again from there is refused,
/// with its first error, and nothing is written.
Result<void> save_project(const std::string& path, const need::Project& project);
Result<void> save_sheet(const std::string& path, const camera::Sheet& sheet);

/// The JSON Schema (draft 2020-12) of either document: schema/project.schema.json and schema/sheet.schema.json.
std::string project_schema();
std::string sheet_schema();

/// Every field of the two documents as tables in Markdown: docs/document.md.
std::string document_manual();

/// The assumptions of data/typical.json.
const detail::Typical& default_typical();

/// The materials of data/materials.json.
const light::Materials& default_materials();

/// The kinds of cable of data/cables.json.
const std::vector<site::Cable>& default_cables();

/// The level tables of data/levels.json, the default one first.
const std::vector<detail::LevelTable>& standard_level_tables();

/// The table that the settings name: a user's own or one of the standard; null when there is none of that name.
const detail::LevelTable* find_level_table(const need::Settings& settings);

}  // namespace sightfall::file
