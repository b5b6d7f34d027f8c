// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/manual.h"

#include <fmt/format.h>

#include "file/describe.h"
#include "file/project.h"
#include "file/rules.h"
#include "file/seen_file.h"
#include "file/words.h"

namespace sightfall::file {
namespace {

/// How many, with a space after it; nothing when any number is allowed.
std::string count_in_words(size_t least, size_t most) {
  if (least == most) return fmt::format("{} ", least);
  if (most < kLongestList) return fmt::format("{} to {} ", least, most);
  return least == 0 ? "" : fmt::format("at least {} ", least);
}

std::string items_in_table(const Shape& item) {
  switch (item.type) {
    case Shape::Type::kNumber:
      return "numbers";
    case Shape::Type::kWhole:
      return "whole numbers";
    case Shape::Type::kPoint:
      return "points [x, y]";
    case Shape::Type::kList:
      return "lists of " + count_in_words(item.least, item.most) + items_in_table(item.item[0]);
    default:
      return "texts";
  }
}

/// The type alone: bounds of numbers have columns of their own.
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
      return "list of " + count_in_words(shape.least, shape.most) + items_in_table(shape.item[0]);
    default:
      return in_words(shape);
  }
}

/// The numbers inside, whose bounds are told.
const Shape& numbers_of(const Shape& shape) {
  return shape.type == Shape::Type::kList ? numbers_of(shape.item[0]) : shape;
}

bool bounded(const Shape& shape) {
  return shape.type == Shape::Type::kNumber || shape.type == Shape::Type::kWhole || shape.type == Shape::Type::kEnds;
}

std::string default_in_words(const Default& otherwise) {
  if (otherwise.required) return "required";
  const auto* word = otherwise.value.as<std::string>();
  if (word != nullptr) return *word;
  return otherwise.value.null() ? "" : found(otherwise.value);
}

std::string joined(const std::string& path, std::string_view step) {
  return path.empty() ? std::string(step) : fmt::format("{}.{}", path, step);
}

/// The names that come with the program in a file of data/, and the section that lists them.
struct Shipped {
  std::string_view file, title, anchor;
};
constexpr Shipped kLevels{"data/levels.json", "Names of levels", "#names-of-levels"};
constexpr Shipped kMaterials{"data/materials.json", "Names of materials", "#names-of-materials"};
constexpr Shipped kCables{"data/cables.json", "Names of cables", "#names-of-cables"};

/// Where a field takes a name of such a file, its meaning leads to the list.
std::string linked(std::string_view meaning) {
  std::string text{meaning};
  for (const Shipped& shipped : {kLevels, kMaterials, kCables})
    if (const size_t at = text.find(shipped.file); at != std::string::npos)
      text.replace(at, shipped.file.size(), fmt::format("[{}]({})", shipped.file, shipped.anchor));
  return text;
}

std::string section_of(const Shipped& shipped, const std::string& lines) {
  return fmt::format("\n## {}\n\nOf `{}`.\n\n{}", shipped.title, shipped.file, lines);
}

std::string names_manual() {
  std::string levels, materials, cables;
  for (const detail::LevelTable& table : standard_level_tables()) {
    std::string names;
    for (const detail::Level& level : table.levels)
      names += fmt::format("{}`{}` from {}", names.empty() ? "" : ", ", level.name,
                           number(level.least, kPixelsPerMetre.one));
    levels += fmt::format("- table `{}`, in px/m: {}\n", table.name, names);
  }
  for (const light::Material& material : default_materials().all) materials += fmt::format("- `{}`\n", material.name);
  for (const site::Cable& cable : default_cables()) cables += fmt::format("- `{}`\n", cable.name);
  return section_of(kLevels, levels) + section_of(kMaterials, materials) + section_of(kCables, cables);
}

constexpr std::string_view kHead = R"(# The documents, field by field

Made from the one description of the fields (`src/file/describe_*.cpp`), from which the reader, the writer and the JSON
Schemas in `schema/` are made too. A project is one JSON object in UTF-8, in a file named `NAME.sightfall.json`; a sheet
is one JSON object in a file of its own, or in a project's `catalogue`. Metres and degrees; x runs east and y north, as
the plan has them: how true north lies to it is for `site.anchor.turn_deg` to say. A field with neither a default nor
the word required is unknown when absent. Any other field is an error.

- A file has at most {} MiB, {} values, {} items in a list where no less is said here, and lists and objects
  {} deep in one another.
- Coordinates lie within {} km of the site's origin. Points of an outline or a line are at least {} mm apart.
- An outline does not cross or touch itself and does not repeat its first point. Holes lie inside it and apart.
- Names are unique within their list.
)";

}  // namespace

void Manual::visit(const Field& field, const Shape& shape, const Slot& /*slot*/) {
  add_row(field.name, type_in_words(shape), numbers_of(shape), field);
}

/// Objects of the document itself have sections of their own; fields of objects within them are rows with longer names.
bool Manual::enter(const Field& field, bool /*present*/) {
  add_row(field.name, "object", {}, field);
  const Place& here = places_.back();
  if (places_.size() == 1)
    open_section(std::string(field.name), std::string(field.name));
  else
    places_.push_back({here.section, joined(here.path, field.name), joined(here.prefix, field.name)});
  return true;
}

void Manual::leave(bool /*drop_when_empty*/) { places_.pop_back(); }

size_t Manual::enter_list(const Field& field, size_t least, size_t most, size_t /*size*/) {
  add_row(field.name, fmt::format("list of {}objects", count_in_words(least, most)), {}, field);
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
  sections_[here.section].rows += fmt::format(
      "| `{}` | {} | {} | {} | {} | {} | {} |\n", joined(here.prefix, name), what, numbers ? bounds.unit : "",
      numbers ? print_number(bounds.lowest) : "", default_in_words(field.otherwise),
      numbers ? print_number(bounds.highest) : "", linked(field.meaning));
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
  return fmt::format(kHead, kLargestDocument >> 20, kMostValues, kLongestList, kDeepest, kFarthest / 1000,
                     kLeastStep * 1000) +
         Manual::of(std::move(project), "The project") + Manual::of(camera::Sheet{}, "The sheet") + seen_manual() +
         names_manual();
}

}  // namespace sightfall::file
