// SPDX-License-Identifier: GPL-3.0-or-later
// The difference of two documents as changes. In a list, what keeps its order is a longest rising subsequence, so that
// an object which was moved is the only one that is told.
#include <algorithm>
#include <unordered_map>

#include "file/edit.h"
#include "file/edit_tree.h"

namespace sightfall::file {
namespace {

const List& list_at(const Value& document, std::string_view path) {
  static const List kNone;
  const Value* value = find_member(document, path);
  const List* list = value == nullptr ? nullptr : value->as<List>();
  return list == nullptr ? kNone : *list;
}

std::vector<std::string> at_of(std::string_view path) {
  const size_t slash = path.find('/');
  if (slash == std::string_view::npos) return {std::string(path)};
  return {std::string(path.substr(0, slash)), std::string(path.substr(slash + 1))};
}

/// Which of the numbers lie on a longest rising subsequence.
std::vector<bool> on_longest_rise(const std::vector<size_t>& numbers) {
  std::vector<size_t> ends;  // index of the least end of a rise of each length
  std::vector<size_t> before(numbers.size(), SIZE_MAX);
  for (size_t i = 0; i < numbers.size(); ++i) {
    const auto at = std::lower_bound(ends.begin(), ends.end(), numbers[i],
                                     [&](size_t end, size_t number) { return numbers[end] < number; });
    if (at != ends.begin()) before[i] = *(at - 1);
    if (at == ends.end())
      ends.push_back(i);
    else
      *at = i;
  }
  std::vector<bool> on(numbers.size());
  for (size_t i = ends.empty() ? SIZE_MAX : ends.back(); i != SIZE_MAX; i = before[i]) on[i] = true;
  return on;
}

/// The changes of one list.
class ListDifference {
 public:
  ListDifference(std::string_view path, const List& before, const List& after, const Changes& renamed, Changes& changes)
      : at_{at_of(path)}, before_{before}, after_{after}, changes_{changes} {
    std::unordered_map<std::string, size_t> old;
    for (size_t i = 0; i < before.size(); ++i) old.emplace(item_name(before[i]), i);
    std::unordered_map<std::string, std::string> name_before;
    for (const Change& change : renamed)
      if (place_of(change.at)->path == path && old.contains(change.at.back()))
        name_before.emplace(item_name(change.now), change.at.back());
    std::vector<bool> unclaimed(before.size(), true);
    for (const auto& [now, was] : name_before) unclaimed[old[was]] = false;
    origin_.resize(after.size(), SIZE_MAX);
    for (size_t i = 0; i < after.size(); ++i) {
      const std::string name = item_name(after[i]);
      if (const auto known = name_before.find(name); known != name_before.end())
        origin_[i] = old[known->second];
      else if (const auto same_name = old.find(name); same_name != old.end() && unclaimed[same_name->second])
        origin_[i] = same_name->second;
    }
  }

  void tell() {
    const std::vector<size_t> target = target_of_each();
    std::vector<size_t> rows;  // after_'s indices of what is kept, in the order of before_
    for (size_t i = 0; i < before_.size(); ++i) {
      if (target[i] == SIZE_MAX)
        change(i, SIZE_MAX, {});
      else
        rows.push_back(target[i]);
    }
    const std::vector<bool> rises = on_longest_rise(rows);
    std::vector<bool> stays(after_.size());
    for (size_t i = 0; i < rows.size(); ++i) stays[rows[i]] = rises[i];
    for (size_t i = 0; i < after_.size(); ++i) {
      if (stays[i]) {
        if (!(before_[origin_[i]] == after_[i])) change(origin_[i], i, {});
        continue;
      }
      if (origin_[i] != SIZE_MAX) rows.erase(std::find(rows.begin(), rows.end(), i));
      const auto next = i == 0 ? rows.begin() : std::find(rows.rbegin(), rows.rend(), i - 1).base();
      const bool last = next == rows.end() && origin_[i] == SIZE_MAX;
      const auto index = static_cast<size_t>(next - rows.begin());
      rows.insert(next, i);
      change(origin_[i], i, last ? std::nullopt : std::optional(index));
    }
  }

 private:
  std::vector<size_t> target_of_each() const {
    std::vector<size_t> target(before_.size(), SIZE_MAX);
    for (size_t i = 0; i < after_.size(); ++i)
      if (origin_[i] != SIZE_MAX) target[origin_[i]] = i;
    return target;
  }

  void change(size_t was, size_t now, std::optional<size_t> index) {
    Change change{at_, {}, {}, index};
    if (was != SIZE_MAX) change.was = before_[was];
    if (now != SIZE_MAX) change.now = after_[now];
    change.at.push_back(item_name(was != SIZE_MAX ? change.was : change.now));
    changes_.push_back(std::move(change));
  }

  std::vector<std::string> at_;
  const List& before_;
  const List& after_;
  Changes& changes_;
  std::vector<size_t> origin_;  ///< of each in after_: its index in before_, or SIZE_MAX when it is new
};

}  // namespace

Changes difference(const Value& before, const Value& after, const Changes& renamed) {
  Changes changes;
  for (const Place& place : places()) {
    if (place.list) {
      ListDifference(place.path, list_at(before, place.path), list_at(after, place.path), renamed, changes).tell();
      continue;
    }
    const Value* was = find_member(before, place.path);
    const Value* now = find_member(after, place.path);
    Change change{at_of(place.path), was == nullptr ? Value{} : *was, now == nullptr ? Value{} : *now, {}};
    if (!(change.was == change.now)) changes.push_back(std::move(change));
  }
  return changes;
}

bool same(const Value& a, const Value& b) {
  const auto* one = a.as<Object>();
  const auto* other = b.as<Object>();
  if (one != nullptr && other != nullptr)
    return one->size() == other->size() && std::all_of(one->begin(), one->end(), [&](const Member& member) {
             const auto found = std::find_if(other->begin(), other->end(),
                                             [&](const Member& candidate) { return candidate.name == member.name; });
             return found != other->end() && same(member.value, found->value);
           });
  const auto* left = a.as<List>();
  const auto* right = b.as<List>();
  if (left != nullptr && right != nullptr)
    return std::equal(left->begin(), left->end(), right->begin(), right->end(), same);
  return a == b;
}

}  // namespace sightfall::file
