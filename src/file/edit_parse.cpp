// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "file/edit.h"
#include "file/edit_tree.h"
#include "file/words.h"

namespace sightfall::file {
namespace {

constexpr const char* kRequest = "request";
constexpr double kLastIndex = 1e9;

/// One change of a request, with the errors told as they are found.
class ChangeReader {
 public:
  ChangeReader(const Value& value, size_t number, Errors& errors)
      : value_{value}, object_{fmt::format("changes[{}]", number)}, errors_{errors} {}

  void read(Change& change) {
    const auto* members = value_.as<Object>();
    if (members == nullptr) return tell("", "found " + found(value_) + "; an object is needed");
    for (const Member& member : *members) take(member, change);
    if (!read_at(change)) return;
    const Place* place = place_of(change.at);
    if (place == nullptr) return tell("at", "found " + in_words(change.at) + ", which is nothing that can be edited");
    if (change.was.null() && change.now.null()) return tell("now", "missing; `was` is null too, so nothing is changed");
    if (place->list) check_names(change);
    if (change.index && (!place->list || change.now.null()))
      tell("index", "allowed only for what is put into a list or moved in it");
  }

 private:
  void tell(const std::string& field, std::string text) {
    errors_.push_back({ErrorKind::kField, std::move(text), {kRequest, object_, field}});
  }

  static std::string in_words(const std::vector<std::string>& at) {
    std::string text;
    for (const std::string& step : at) text += (text.empty() ? "" : ", ") + in_quotes(step);
    return '[' + text + ']';
  }

  void take(const Member& member, Change& change) {
    if (member.name == "was")
      change.was = member.value;
    else if (member.name == "now")
      change.now = member.value;
    else if (member.name == "at")
      at_ = &member.value;
    else if (member.name == "index")
      take_index(member.value, change);
    else
      tell(member.name, "is no member of a change; allowed: at, was, now, index");
  }

  void take_index(const Value& value, Change& change) {
    if (value.null()) return;
    const auto* number = value.as<double>();
    if (number == nullptr || *number < 0 || *number > kLastIndex || std::floor(*number) != *number)
      return tell("index", "found " + found(value) + "; a whole number from 0 is needed");
    change.index = static_cast<size_t>(*number);
  }

  bool read_at(Change& change) {
    const List* steps = at_ == nullptr ? nullptr : at_->as<List>();
    constexpr size_t kMostSteps = 3;
    const bool good =
        steps != nullptr && !steps->empty() && steps->size() <= kMostSteps &&
        std::all_of(steps->begin(), steps->end(), [](const Value& step) { return step.as<std::string>() != nullptr; });
    if (!good) {
      tell("at", R"(a list of texts is needed, such as ["site", "mounts", "gate pole"])");
      return false;
    }
    for (const Value& step : *steps) change.at.push_back(step.get<std::string>());
    return true;
  }

  /// What stands in a list has a name, and the one in `at` is that of what is there or of what is new.
  void check_names(const Change& change) {
    for (const auto& [field, value] : {std::pair{"was", &change.was}, std::pair{"now", &change.now}})
      if (!value->null() && text_member(*value, "name") == nullptr)
        return tell(field, "found " + found(*value) + "; an object with a name is needed");
    const bool fresh = change.was.null();
    if (const std::string name = item_name(fresh ? change.now : change.was); name != change.at.back())
      tell(fresh ? "now" : "was",
           fmt::format("found the name {}; `at` says {}", in_quotes(name), in_quotes(change.at.back())));
  }

  const Value& value_;
  const Value* at_ = nullptr;
  std::string object_;
  Errors& errors_;
};

}  // namespace

Checked<Changes> parse_changes(const Value& list) {
  const List* items = list.as<List>();
  if (items == nullptr || items->empty() || items->size() > kMostChanges)
    return tl::make_unexpected(Errors{{ErrorKind::kField,
                                       fmt::format("a list of 1 to {} changes is needed", kMostChanges),
                                       {kRequest, {}, "changes"}}});
  Changes changes(items->size());
  Errors errors;
  for (size_t i = 0; i < items->size(); ++i) ChangeReader((*items)[i], i, errors).read(changes[i]);
  if (!errors.empty()) return tl::make_unexpected(std::move(errors));
  return changes;
}

Value to_value(const Changes& changes) {
  List list;
  list.reserve(changes.size());
  for (const Change& change : changes) {
    List at;
    for (const std::string& step : change.at) at.emplace_back(step);
    Object object{{"at", std::move(at)}, {"was", change.was}, {"now", change.now}};
    if (change.index) object.push_back({"index", *change.index});
    list.emplace_back(std::move(object));
  }
  return list;
}

}  // namespace sightfall::file
