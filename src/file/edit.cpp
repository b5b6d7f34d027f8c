// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/edit.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "file/edit_tree.h"
#include "file/words.h"

namespace sightfall::file {
namespace {

/// The key of a change: its `at`, and whether it puts in what is new. One object can go while another of the same name
/// comes, so both may be told once.
using Key = std::pair<std::vector<std::string>, bool>;

Key key_of(const Change& change) { return {change.at, change.was.null()}; }

std::string name_before(const Change& change) { return change.at.back(); }

std::string name_after(const Change& change) {
  const std::string* name = text_member(change.now, "name");
  return name != nullptr ? *name : change.at.back();
}

/// The changes of one list, made on it. What conflicts is added to `conflicts`, and the list is then of no use.
class ListEdit {
 public:
  ListEdit(const List& before, std::vector<Conflict>& conflicts) : conflicts_{conflicts} {
    for (const Value& item : before) rows_.push_back({item_name(item), item});
    for (size_t i = 0; i < rows_.size(); ++i) first_.emplace(rows_[i].before, &before[i]);
  }

  void make(const Change& change) {
    if (change.was.null()) return put_in(change);
    const auto found = first_.find(name_before(change));
    const Value there = found == first_.end() ? Value{} : *found->second;
    if (!same(there, change.was)) return conflicts_.push_back({change, there});
    const auto row = std::find_if(rows_.begin(), rows_.end(),
                                  [&](const Row& one) { return one.before == std::optional{name_before(change)}; });
    if (change.now.null()) {
      rows_.erase(row);
    } else if (change.index) {
      Row moved{row->before, change.now};
      rows_.erase(row);
      insert(std::move(moved), change.index);
    } else {
      row->now = change.now;
    }
  }

  /// Once all are made: each name stands once.
  List finish(const std::vector<const Change*>& made) {
    std::map<std::string, int> count;
    for (const Row& row : rows_) ++count[item_name(row.now)];
    for (const Change* change : made) {
      const std::string name = name_after(*change);
      if (change->now.null() || count[name] < 2) continue;
      const auto other = std::find_if(rows_.begin(), rows_.end(), [&](const Row& row) {
        return item_name(row.now) == name && !same(row.now, change->now);
      });
      conflicts_.push_back({*change, other == rows_.end() ? change->now : other->now});
    }
    List list;
    list.reserve(rows_.size());
    for (Row& row : rows_) list.push_back(std::move(row.now));
    return list;
  }

 private:
  /// An object with the name that it had before the edit.
  struct Row {
    std::optional<std::string> before;
    Value now;
  };

  void put_in(const Change& change) { insert({std::nullopt, change.now}, change.index); }

  void insert(Row row, std::optional<size_t> index) {
    const size_t at = std::min(index.value_or(rows_.size()), rows_.size());
    rows_.insert(rows_.begin() + static_cast<std::ptrdiff_t>(at), std::move(row));
  }

  std::vector<Row> rows_;
  std::map<std::optional<std::string>, const Value*> first_;
  std::vector<Conflict>& conflicts_;
};

Errors twice(const Changes& changes) {
  Errors errors;
  std::set<Key> seen;
  for (size_t i = 0; i < changes.size(); ++i)
    if (!seen.insert(key_of(changes[i])).second)
      errors.push_back({ErrorKind::kField,
                        "found " + in_quotes(changes[i].at.back()) + " a second time; once is enough",
                        {"request", fmt::format("changes[{}]", i), "at"}});
  return errors;
}

void make_lone(Value& document, const Place& place, const Change& change, std::vector<Conflict>& conflicts) {
  const Value* there = find_member(document, place.path);
  const Value found = there == nullptr ? Value{} : *there;
  if (same(found, change.was))
    set_member(document, place.path, change.now);
  else
    conflicts.push_back({change, found});
}

}  // namespace

tl::expected<Value, Refused> apply_as_told(const Value& document, const Changes& changes) {
  if (Errors errors = twice(changes); !errors.empty()) return tl::make_unexpected(Refused{std::move(errors), {}});
  Value after = document;
  std::vector<Conflict> conflicts;
  std::map<const Place*, std::vector<const Change*>> lists;
  for (const Change& change : changes) {
    const Place& place = *place_of(change.at);
    if (place.list)
      lists[&place].push_back(&change);
    else
      make_lone(after, place, change, conflicts);
  }
  for (const auto& [place, made] : lists) {
    static const List kNone;
    const Value* there = find_member(document, place->path);
    const List* before = there == nullptr ? nullptr : there->as<List>();
    ListEdit edit(before == nullptr ? kNone : *before, conflicts);
    for (const Change* change : made) edit.make(*change);
    List list = edit.finish(made);
    set_member(after, place->path, list.empty() ? Value{} : Value{std::move(list)});
  }
  if (!conflicts.empty()) return tl::make_unexpected(Refused{{}, std::move(conflicts)});
  return after;
}

tl::expected<Value, Refused> apply_edit(const Value& document, const Changes& changes) {
  tl::expected<Value, Refused> after = apply_as_told(document, changes);
  if (!after) return after;
  Renames renames;
  for (const Change& change : changes) {
    const Place& place = *place_of(change.at);
    if (!place.list || change.was.null() || change.now.null()) continue;
    if (name_before(change) != name_after(change)) renames[place.path][name_before(change)] = name_after(change);
  }
  follow_renames(*after, renames);
  return after;
}

Changes renames_back(const Changes& renamed) {
  Changes back;
  for (const Change& change : renamed) {
    if (change.was.null() || change.now.null() || name_before(change) == name_after(change)) continue;
    Change other{change.at, change.now, change.was, {}};
    other.at.back() = name_after(change);
    back.push_back(std::move(other));
  }
  return back;
}

}  // namespace sightfall::file
