// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/check.h"
#include "embedded/stock_sheets.h"
#include "file/answer_values.h"
#include "file/describe.h"
#include "file/project.h"
#include "file/writer.h"
#include "serve/answers.h"

namespace sightfall::serve {
namespace {

using file::List;
using file::Object;
using file::Value;

List sheets() {
  List all;
  for (const embedded::File& one : embedded::stock_sheets()) {
    const auto sheet = file::parse_sheet(one.bytes, std::string(one.name));
    CHECK_EQ(sheet.has_value(), true);  // data/sheets is held valid by its tests
    all.push_back(file::Writer::written(*sheet));
  }
  return all;
}

Value table(const detail::LevelTable& table) {
  return Object{{"name", table.name},
                {"levels", file::list(table.levels, [](const detail::Level& level) {
                   return Value{Object{{"name", level.name}, {"least_px_per_m", file::density(level.least)}}};
                 })}};
}

List words(file::Words all) {
  return file::list(all, [](std::string_view word) { return Value{word}; }).get<List>();
}

}  // namespace

Value stock_answer() {
  return Object{{"sheets", sheets()},
                {"level_tables", file::list(file::standard_level_tables(), table)},
                {"materials",
                 file::list(file::default_materials().all, [](const light::Material& one) { return Value{one.name}; })},
                {"lights", words(file::named_light_words())},
                {"subjects", words(file::subject_words())}};
}

}  // namespace sightfall::serve
