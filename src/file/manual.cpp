// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/manual.h"

#include <fmt/format.h>

#include "file/describe.h"
#include "file/project.h"
#include "file/words.h"

namespace sightfall::file {
namespace {

std::string type_in_words(const Shape& shape) {
  switch (shape.type) {
    case Shape::Type::kNumber:
      return "number";
    case Shape::Type::kWhole:
      return "whole number";
    case Shape::Type::kPoint:
      return "point [x, y]";
    case Shape::Type::kEnds:
      return "number, or [wide, tele]";
    case Shape::Type::kList:
      return shape.least == shape.most
                 ? fmt::format("list of {}: {}", shape.least, type_in_words(shape.item[0]))
                 : fmt::format("list of {} to {}: {}", shape.least, shape.most, type_in_words(shape.item[0]));
    default:
      return in_words(shape);
  }
}

/// The numbers inside, whose bounds are told; a shape without numbers has none.
const Shape& numbers_of(const Shape& shape) {
  return shape.type == Shape::Type::kList ? numbers_of(shape.item[0]) : shape;
}

bool bounded(const Shape& shape) {
  return shape.type == Shape::Type::kNumber || shape.type == Shape::Type::kWhole || shape.type == Shape::Type::kEnds;
}

std::string default_in_words(const Default& otherwise) {
  if (otherwise.required) return "required";
  if (const double* number = otherwise.value.as<double>()) return print_number(*number);
  if (const bool* flag = otherwise.value.as<bool>()) return *flag ? "true" : "false";
  if (const auto* text = otherwise.value.as<std::string>()) return *text;
  return "";
}

std::string joined(const std::string& path, std::string_view step) {
  return path.empty() ? std::string(step) : fmt::format("{}.{}", path, step);
}

}  // namespace

void Manual::visit(const Field& field, const Shape& shape, const Slot& /*slot*/) {
  add_row(field.name, type_in_words(shape), numbers_of(shape), field);
}

bool Manual::enter(const Field& field, bool /*present*/) {
  add_row(field.name, "object", {}, field);
  const Place& here = places_.back();
  places_.push_back({here.section, joined(here.path, field.name), joined(here.prefix, field.name)});
  return true;
}

void Manual::leave(bool /*drop_when_empty*/) { places_.pop_back(); }

size_t Manual::enter_list(const Field& field, size_t least, size_t most, size_t /*size*/) {
  add_row(field.name, fmt::format("list of {} to {} objects", least, most), {}, field);
  const std::string path = joined(places_.back().path, field.name) + "[]";
  open_section(path, path);
  return 1;
}

bool Manual::enter_item(size_t /*index*/) { return true; }
void Manual::leave_item() {}
void Manual::leave_list() { places_.pop_back(); }

void Manual::kinds(const Field& field, Words words, size_t /*current*/, const std::function<void(size_t)>& body) {
  const std::string path = places_.back().path;
  for (size_t i = 0; i < words.size(); ++i) {
    open_section(fmt::format("{}, {} \"{}\"", path, field.name, words[i]), path);
    add_row(field.name, in_quotes(words[i]), {}, field);
    body(i);
    places_.pop_back();
  }
}

void Manual::add_row(std::string_view name, const std::string& what, const Shape& bounds, const Field& field) {
  const Place& here = places_.back();
  const bool numbers = bounded(bounds);
  sections_[here.section].rows +=
      fmt::format("| `{}` | {} | {} | {} | {} | {} | {} |\n", joined(here.prefix, name), what,
                  numbers ? bounds.unit : "", numbers ? print_number(bounds.lowest) : "",
                  default_in_words(field.otherwise), numbers ? print_number(bounds.highest) : "", field.meaning);
}

void Manual::open_section(const std::string& title, const std::string& path) {
  sections_.push_back({title, {}});
  places_.push_back({sections_.size() - 1, path, {}});
}

/// A list whose items are all of some kind has rows only in the sections of the kinds.
std::string Manual::text() const {
  std::string text;
  for (const Section& section : sections_) {
    if (section.rows.empty()) continue;
    text += "\n## " + section.title + "\n\n| field | what | unit | lowest | default | highest | meaning |\n" +
            "| --- | --- | --- | --- | --- | --- | --- |\n" + section.rows;
  }
  return text;
}

std::string document_manual() {
  need::Project project;
  project.settings.typical = default_typical();
  std::string text =
      "# The documents, field by field\n\n"
      "Made from the one description of the fields (`src/file/describe_*.cpp`), from which the reader, the writer and\n"
      "the JSON Schemas in `schema/` are made too. A project is one JSON object, in UTF-8, in a file named\n"
      "`NAME.sightfall.json`; a sheet is one JSON object in a file of its own, the same as in a project's "
      "`catalogue`.\n"
      "Metres and degrees; x runs east and y north. A field without a default is unknown when absent. Any other field "
      "is\n"
      "an error.\n\n";
  text += fmt::format(
      "Limits: {} MiB a file, {} values, objects and lists {} deep in one another. Outlines do not cross or touch\n"
      "themselves and do not repeat their first point; points of an outline or a line are at least 1 mm apart; names "
      "are\n"
      "unique within their list.\n",
      kLargestDocument >> 20, kMostValues, kDeepest);
  text += Manual::of(std::move(project), "The project");
  text += Manual::of(camera::Sheet{}, "The sheet");
  return text;
}

}  // namespace sightfall::file
