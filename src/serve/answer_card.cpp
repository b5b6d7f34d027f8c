// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "card/card.h"
#include "file/answer_values.h"
#include "file/answers.h"
#include "file/project.h"
#include "serve/answers.h"
#include "serve/request.h"

namespace sightfall::serve {
namespace {

using file::Form;
using file::kOptional;
using file::Object;
using file::Value;

struct CardQuestion {
  std::optional<std::string> camera, sheet;
};

void describe(Form& form, CardQuestion& request) {
  form.text({"camera", kOptional, "name of a camera, as it hangs and is set"}, request.camera);
  form.text({"sheet", kOptional, "name of a sheet of the catalogue, level with a face"}, request.sheet);
}

/// The table in force first, then those of the standard.
std::vector<detail::LevelTable> tables_of(const need::Settings& settings) {
  std::vector<detail::LevelTable> tables{settings.levels};
  for (const detail::LevelTable& table : file::standard_level_tables())
    if (table.name != settings.levels.name) tables.push_back(table);
  return tables;
}

Value point_of(const card::Mark& mark) {
  return Object{{"distance_m", file::metres(mark.distance)},
                {"day", file::density_range(mark.day.delivered)},
                {"night", file::density_range(mark.night.delivered)}};
}

}  // namespace

Checked<Value> card_answer(const need::Project& project, const Value& request) {
  const auto asks = read_request<CardQuestion>(request);
  if (!asks) return tl::make_unexpected(asks.error());
  if (asks->camera.has_value() == asks->sheet.has_value())
    return refused(ErrorKind::kRequest, "camera", "needed is a camera or a sheet, and not both");
  card::CardRequest question;
  question.tables = tables_of(project.settings);
  question.typical = project.settings.typical;
  question.materials = project.settings.materials;
  std::string sheet = asks->sheet.value_or("");
  if (asks->camera) {
    const auto camera = look_up(project.cameras, *asks->camera, "camera");
    if (!camera) return tl::make_unexpected(camera.error());
    question.setting = **camera;
    question.height = need::the_named(project.site.mounts, (*camera)->mount).height;
    question.tilt = (*camera)->tilt;
    sheet = (*camera)->sheet;
  }
  const auto found = look_up(project.catalogue, sheet, "sheet");
  if (!found) return tl::make_unexpected(found.error());
  question.sheet = **found;
  Value answer = file::answer_of(question, card::range_card(question));
  Object members = answer.get<Object>();
  members.push_back({"curve", file::list(card::curve(question), point_of)});
  return Value{std::move(members)};
}

}  // namespace sightfall::serve
