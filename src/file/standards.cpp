// SPDX-License-Identifier: GPL-3.0-or-later
// The assumptions and level tables that are built in, read from data/ with the same reader as documents. A fault in
// them is ours, so it ends the program.
#include <cstdio>
#include <cstdlib>

#include "embedded/levels_json.h"
#include "embedded/typical_json.h"
#include "file/describe.h"
#include "file/project.h"
#include "file/reader.h"
#include "file/typical_entries.h"

namespace sightfall::file {
namespace {

struct TypicalFile {
  std::string date, about;
  detail::Typical typical;
};

struct LevelsFile {
  std::string date, about;
  std::vector<detail::LevelTable> tables;
};

/// A whole entry; a document replaces its value and source only.
struct WholeEntry {
  const TypicalEntry& entry;
  detail::TypicalValue& value;
};

void describe(Form& form, WholeEntry& whole) {
  const double lowest = whole.entry.lowest, highest = whole.entry.highest;
  form.number({"low", "", lowest, kRequired, highest, ""}, whole.value.value.low);
  form.number({"nominal", "", lowest, kRequired, highest, ""}, whole.value.value.nominal);
  form.number({"high", "", lowest, kRequired, highest, ""}, whole.value.value.high);
  form.text({"unit", kRequired, ""}, whole.value.unit);
  form.lines({"meaning", kRequired, ""}, whole.value.meaning);
  form.lines({"source", kRequired, ""}, whole.value.source);
  form.lines({"settle", kRequired, ""}, whole.value.settle);
}

void describe(Form& form, TypicalFile& file) {
  form.text({"date", kRequired, ""}, file.date);
  form.lines({"about", kRequired, ""}, file.about);
  for (const TypicalEntry& entry : typical_entries()) {
    WholeEntry whole{entry, file.typical.*entry.member};
    form.object({entry.name, kRequired, ""}, whole);
  }
}

void describe(Form& form, LevelsFile& file) {
  form.text({"date", kRequired, ""}, file.date);
  form.lines({"about", kRequired, ""}, file.about);
  form.list({"tables", kRequired, ""}, 1, 100, file.tables);
}

[[noreturn]] void broken(const Error& error) {
  std::fprintf(stderr, "broken promise: built-in data: %s\n", to_line(error).c_str());
  std::abort();
}

template <class File>
File built_in(std::string_view text, const char* name) {
  const Result<Value> value = parse_json(text, name);
  if (!value) broken(value.error());
  Report report(name);
  File file;
  Reader(*value, report).read(file);
  if (!report.empty()) broken(report.take().front());
  return file;
}

}  // namespace

const detail::Typical& default_typical() {
  static const auto kFile = built_in<TypicalFile>(embedded::typical_json, "data/typical.json");
  return kFile.typical;
}

const std::vector<detail::LevelTable>& standard_level_tables() {
  static const auto kFile = built_in<LevelsFile>(embedded::levels_json, "data/levels.json");
  return kFile.tables;
}

const detail::LevelTable* find_level_table(const need::Settings& settings) {
  if (settings.level_table.empty()) return &standard_level_tables().front();
  for (const auto* tables : {&standard_level_tables(), &settings.level_tables})
    if (const auto* table = need::find_named(*tables, settings.level_table)) return table;
  return nullptr;
}

}  // namespace sightfall::file
