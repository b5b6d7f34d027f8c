// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <unordered_map>

#include "file/words.h"

namespace sightfall::file {
namespace {

/// The name an object carries, for errors; empty when it has none that is text.
std::string name_of(const Object& object) {
  for (const Member& member : object)
    if (member.name == "name" && member.value.as<std::string>() != nullptr) return member.value.get<std::string>();
  return {};
}

}  // namespace

Reader::Reader(const Value& document, Report& report) : document_{document}, report_{report} {}

bool Reader::enter_document() {
  const auto* object = document_.as<Object>();
  if (object == nullptr)
    add("", fmt::format("found {}; a document is an object {{...}}", found(document_)));
  else
    open("", *object);
  return object != nullptr;
}

void Reader::fault(std::string_view field, const std::string& text) {
  const Spot at = spot(field);
  if (report_.clean(at.path, at.field)) add(field, text);
}

void Reader::visit(const Field& field, const Shape& shape, const Slot& slot) {
  const Value* value = find(field.name);
  if (value == nullptr) {
    if (field.otherwise.required) report_missing(field, in_words(shape));
    if (!field.otherwise.value.null()) slot.set(field.otherwise.value);
    return;
  }
  const auto tell = [&](const std::string& inside, std::string text) {
    add(std::string(field.name) + inside, std::move(text));
  };
  if (fits(*value, shape, tell)) slot.set(*value);
}

bool Reader::enter(const Field& field, bool /*present*/) {
  const Value* value = find(field.name);
  if (value == nullptr) {
    report_missing(field, "an object {...}");
    return false;
  }
  if (value->as<Object>() == nullptr) {
    add(field.name, fmt::format("found {}; allowed is an object {{...}}", found(*value)));
    return false;
  }
  open(std::string(field.name), *value->as<Object>());
  return true;
}

void Reader::leave(bool /*drop_when_empty*/) {
  report_repeated_fields(levels_.back());
  if (!levels_.back().any_field) report_unknown(levels_.back());
  levels_.pop_back();
}

size_t Reader::enter_list(const Field& field, size_t least, size_t most, size_t /*size*/) {
  const std::string wanted = fmt::format("a list of {} to {} objects", least, most);
  const Value* value = find(field.name);
  const List* list = value != nullptr ? value->as<List>() : nullptr;
  if (value == nullptr)
    report_missing(field, wanted);
  else if (list == nullptr || list->size() < least || list->size() > most)
    add(field.name, fmt::format("found {}; allowed is {}", found(*std::exchange(value, nullptr)), wanted));
  levels_.push_back({.step = std::string(field.name), .list = value != nullptr ? list : nullptr});
  if (value == nullptr) return 0;
  report_repeated_names(*list);
  return list->size();
}

bool Reader::enter_item(size_t index) {
  const Value& item = (*levels_.back().list)[index];
  const std::string step = fmt::format("[{}]", index);
  if (const auto* object = item.as<Object>()) {
    open(step, *object);
    return true;
  }
  levels_.push_back({.step = step});
  add("", fmt::format("found {}; allowed is an object {{...}}", found(item)));
  levels_.pop_back();
  return false;
}

void Reader::leave_item() { leave(false); }

void Reader::leave_list() { levels_.pop_back(); }

/// An object of no known kind is read as one of the first kind, without a word, so that its name is known.
void Reader::kinds(const Field& field, Words words, size_t /*current*/, const std::function<void(size_t)>& body) {
  const Value* value = find(field.name);
  const auto tell = [&](const std::string&, std::string text) { add(field.name, std::move(text)); };
  if (value == nullptr) report_missing(field, in_words(word_shape(words)));
  if (value == nullptr || !fits(*value, word_shape(words), tell)) {
    levels_.back().any_field = true;
    const bool muted = std::exchange(muted_, true);
    body(0);
    muted_ = muted;
    return;
  }
  const auto word = std::find(words.begin(), words.end(), value->get<std::string>());
  levels_.back().kind = *word;
  body(static_cast<size_t>(word - words.begin()));
}

/// The document itself is called by its file, not by its name.
void Reader::open(std::string step, const Object& object) {
  levels_.push_back({.step = std::move(step), .name = levels_.empty() ? "" : name_of(object), .object = &object});
}

const Value* Reader::find(std::string_view field) {
  levels_.back().fields.push_back(field);
  for (const Member& member : *levels_.back().object)
    if (member.name == field) return &member.value;
  return nullptr;
}

void Reader::report_missing(const Field& field, const std::string& wanted) {
  if (field.otherwise.required) add(field.name, "missing; needed is " + wanted);
}

void Reader::report_unknown(const Level& level) {
  for (const Member& member : *level.object) {
    if (std::find(level.fields.begin(), level.fields.end(), member.name) != level.fields.end()) continue;
    const std::string of_kind = level.kind.empty() ? "" : fmt::format(" of kind \"{}\"", level.kind);
    add(plain_or_quoted(member.name), "unknown field" + of_kind + suggestion(member.name, level.fields));
  }
}

void Reader::report_repeated_fields(const Level& level) {
  std::vector<std::string_view> names;
  for (const Member& member : *level.object) names.push_back(member.name);
  std::sort(names.begin(), names.end());
  for (size_t i = 1; i < names.size(); ++i) {
    const bool again = names[i] == names[i - 1], told = i > 1 && names[i] == names[i - 2];
    if (again && !told) add(plain_or_quoted(names[i]), "stands more than once in this object; once is allowed");
  }
}

void Reader::report_repeated_names(const List& list) {
  std::unordered_map<std::string, size_t> seen;
  for (size_t i = 0; i < list.size(); ++i) {
    const auto* object = list[i].as<Object>();
    if (object == nullptr) continue;
    const std::string name = name_of(*object);
    if (name.empty()) continue;
    const auto [first, is_new] = seen.emplace(name, i);
    if (is_new) continue;
    levels_.push_back({.step = fmt::format("[{}]", i), .name = name});
    add("name", fmt::format("found {}, which [{}] is called already; names within a list are unique", in_quotes(name),
                            first->second));
    levels_.pop_back();
  }
}

/// The object is the innermost one that carries a name; steps below it belong to the field. When none carries a name,
/// it is the innermost one.
Spot Reader::spot(std::string_view field) const {
  Spot spot;
  std::string below;
  const auto join = [](std::string& path, std::string_view step) {
    if (!path.empty() && !step.empty() && step.front() != '[') path += '.';
    path += step;
  };
  for (const Level& level : levels_) {
    join(below, level.step);
    if (level.name.empty()) continue;
    join(spot.path, std::exchange(below, ""));
    spot.name = level.name;
  }
  if (spot.name.empty()) spot.path = std::exchange(below, "");
  join(below, field);
  spot.field = below;
  return spot;
}

void Reader::add(std::string_view field, std::string text) {
  if (!muted_) report_.add(ErrorKind::kField, spot(field), std::move(text));
}

}  // namespace sightfall::file
