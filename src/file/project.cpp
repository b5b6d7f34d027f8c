// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/project.h"

#include <fmt/format.h>

#include <functional>

#include "file/atomic.h"
#include "file/describe.h"
#include "file/photometry.h"
#include "file/reader.h"
#include "file/rules.h"
#include "file/version.h"
#include "file/words.h"
#include "file/writer.h"

namespace sightfall::file {
namespace {

/// A document of another version would give nothing but errors that mislead, so its version is the one error told.
std::optional<Error> foreign_version(const Value& document, const std::string& file_name) {
  const auto* object = document.as<Object>();
  if (object == nullptr) return std::nullopt;
  for (const Member& member : *object)
    if (member.name == "sightfall" && !(member.value == Value(kVersion)))
      return Error{ErrorKind::kField,
                   fmt::format("found {}; this program reads version {} of the format", found(member.value), kVersion),
                   {file_name, {}, "sightfall"}};
  return std::nullopt;
}

template <class Document>
Checked<Document> read(const Value& value, const std::string& file_name, Document document,
                       const std::function<void(Document&, Report&)>& finish) {
  if constexpr (std::is_same_v<Document, need::Project>)
    if (auto error = foreign_version(value, file_name)) return only(std::move(*error));
  Report report(file_name);
  Reader(value, report).read(document);
  finish(document, report);
  if (!report.empty()) return tl::make_unexpected(report.take());
  return document;
}

/// Checks the project and puts into it what follows from its names: instants, photometric files.
void finish_project(need::Project& project, const LampFiles& lamp_files, Report& report) {
  check_site(project.site, project.settings.materials, report);
  check_lamps(project.site, report);
  read_photometry(project, lamp_files, report);
  check_conditions(project, report);
  for (size_t i = 0; i < project.catalogue.size(); ++i)
    check_sheet(project.catalogue[i], item_spot("catalogue", i, project.catalogue[i].name), report);
  check_settings(project.settings, report);
  check_cameras(project, report);
  check_carriers(project, report);
  check_needs(project, report);
}

}  // namespace

Checked<need::Project> read_project(const Value& document, const std::string& file_name, const LampFiles& lamp_files) {
  need::Project project;
  project.settings.typical = default_typical();
  project.settings.materials = default_materials();
  project.settings.cables = default_cables();
  Checked<need::Project> result =
      read<need::Project>(document, file_name, std::move(project),
                          [&](need::Project& found, Report& report) { finish_project(found, lamp_files, report); });
  if (result) result->settings.levels = *find_level_table(result->settings);
  return result;
}

Checked<need::Project> parse_project(std::string_view text, const std::string& file_name, const LampFiles& lamp_files) {
  const Result<Value> value = parse_json(text, file_name);
  if (!value) return only(value.error());
  return read_project(*value, file_name, lamp_files);
}

Checked<camera::Sheet> parse_sheet(std::string_view text, const std::string& file_name) {
  const Result<Value> value = parse_json(text, file_name);
  if (!value) return only(value.error());
  return read<camera::Sheet>(*value, file_name, {},
                             [](camera::Sheet& found, Report& report) { check_sheet(found, {}, report); });
}

Checked<need::Project> load_project(const std::string& path) {
  const Result<std::string> text = read_whole(path, kLargestDocument);
  if (!text) return only(text.error());
  return parse_project(*text, path, lamp_files_beside(path));
}

Checked<camera::Sheet> load_sheet(const std::string& path) {
  const Result<std::string> text = read_whole(path, kLargestDocument);
  if (!text) return only(text.error());
  return parse_sheet(*text, path);
}

Value to_value(const need::Project& project) { return Writer::written(project); }

std::string to_text(const need::Project& project) { return print_json(to_value(project)); }

std::string to_text(const camera::Sheet& sheet) { return print_json(Writer::written(sheet)); }

Result<void> save_project(const std::string& path, const need::Project& project) {
  const std::string text = to_text(project);
  const Checked<need::Project> again = parse_project(text, path, lamp_files_beside(path));
  if (!again) return tl::make_unexpected(again.error().front());
  return write_atomically(path, text);
}

Result<void> save_sheet(const std::string& path, const camera::Sheet& sheet) {
  const std::string text = to_text(sheet);
  const Checked<camera::Sheet> again = parse_sheet(text, path);
  if (!again) return tl::make_unexpected(again.error().front());
  return write_atomically(path, text);
}

}  // namespace sightfall::file
