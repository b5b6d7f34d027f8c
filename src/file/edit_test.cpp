// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/edit.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <set>

#include "file/edit_tree.h"
#include "file/golden_test.h"
#include "file/project.h"

namespace sightfall::file {
namespace {

using testing::HasSubstr;

Value tree(const std::string& text) {
  Result<Value> value = parse_json(text, "test");
  EXPECT_TRUE(value.has_value()) << (value ? "" : value.error().text);
  return value ? *value : Value{};
}

std::string full_text() { return text_of(source_folder() / "schema" / "examples" / "full.sightfall.json"); }

std::string full_path() { return (source_folder() / "schema" / "examples" / "full.sightfall.json").string(); }

Changes changes(const std::string& text) {
  Checked<Changes> parsed = parse_changes(tree(text));
  EXPECT_TRUE(parsed.has_value()) << (parsed ? "" : to_line(parsed.error().front()));
  return parsed ? *parsed : Changes{};
}

std::string errors_of(const std::string& text) {
  const Checked<Changes> parsed = parse_changes(tree(text));
  std::string lines;
  if (parsed) return "none";
  for (const Error& error : parsed.error()) lines += to_line(error) + '\n';
  return lines;
}

Value applied(const Value& document, const Changes& made) {
  const auto after = apply_edit(document, made);
  EXPECT_TRUE(after.has_value());
  return after.value_or(Value{});
}

std::vector<std::string> names_in(const Value& document, std::string_view path) {
  std::vector<std::string> names;
  if (const Value* list = find_member(document, path))
    for (const Value& item : list->get<List>()) names.push_back(item_name(item));
  return names;
}

const char* const kSmall = R"({"sightfall": 1, "name": "small", "site": {
  "mounts": [{"name": "a", "at": [0, 0]}, {"name": "b", "at": [1, 0]}, {"name": "c", "at": [2, 0]}]},
  "conditions": [{"name": "day", "leaves": "on"}],
  "cameras": [{"name": "one", "sheet": "s", "mount": "a"}]})";

TEST(Edit, PutsInReplacesMovesAndTakesOut) {
  const Value before = tree(kSmall);
  const Value put = applied(before, changes(R"([{"at": ["site", "mounts", "d"], "was": null,
      "now": {"name": "d"}, "index": 1}])"));
  EXPECT_EQ(names_in(put, "site/mounts"), (std::vector<std::string>{"a", "d", "b", "c"}));
  const Value last = applied(before, changes(R"([{"at": ["site", "mounts", "d"], "now": {"name": "d"}}])"));
  EXPECT_EQ(names_in(last, "site/mounts"), (std::vector<std::string>{"a", "b", "c", "d"}));
  const Value moved = applied(before, changes(R"([{"at": ["site", "mounts", "a"],
      "was": {"at": [0, 0], "name": "a"}, "now": {"name": "a", "at": [5, 5]}, "index": 2}])"));
  EXPECT_EQ(names_in(moved, "site/mounts"), (std::vector<std::string>{"b", "c", "a"}));
  const Value out = applied(before, changes(R"([{"at": ["conditions", "day"],
      "was": {"name": "day", "leaves": "on"}, "now": null}])"));
  EXPECT_EQ(find_member(out, "conditions"), nullptr) << "an empty list is left out, as the writer does";
}

TEST(Edit, PutsLoneMembersWhereTheWriterWould) {
  const Value before = tree(kSmall);
  const Value after = applied(before, changes(R"([{"at": ["site", "anchor"], "now": {"latitude_deg": 1}},
      {"at": ["settings", "units"], "now": "feet"}, {"at": ["about"], "now": "x"}])"));
  std::vector<std::string> members;
  for (const Member& member : after.get<Object>()) members.push_back(member.name);
  EXPECT_EQ(members,
            (std::vector<std::string>{"sightfall", "name", "about", "site", "conditions", "cameras", "settings"}));
  EXPECT_EQ(find_member(after, "site")->get<Object>().front().name, "anchor");
  const Value back = applied(after, difference(after, before));
  EXPECT_EQ(back, before) << "settings without members go";
}

TEST(Edit, AConflictChangesNothingAndTellsWhatIsThere) {
  const Value before = tree(kSmall);
  const auto refused = apply_edit(before, changes(R"([
      {"at": ["site", "mounts", "b"], "was": {"name": "b", "at": [1, 0]}, "now": null},
      {"at": ["site", "mounts", "a"], "was": {"name": "a", "at": [9, 9]}, "now": {"name": "a", "at": [3, 3]}},
      {"at": ["site", "mounts", "gone"], "was": {"name": "gone"}, "now": null},
      {"at": ["name"], "was": "large", "now": "larger"}])"));
  ASSERT_FALSE(refused.has_value());
  EXPECT_TRUE(refused.error().errors.empty());
  const std::vector<Conflict>& conflicts = refused.error().conflicts;
  ASSERT_EQ(conflicts.size(), 3U);
  const auto found = [&](const std::string& name) {
    const auto at = std::find_if(conflicts.begin(), conflicts.end(),
                                 [&](const Conflict& one) { return one.change.at.back() == name; });
    return at == conflicts.end() ? Value{"no conflict"} : at->found;
  };
  EXPECT_EQ(found("a"), tree(R"({"name": "a", "at": [0, 0]})"));
  EXPECT_EQ(found("gone"), Value{});
  EXPECT_EQ(found("name"), Value{"small"});
}

TEST(Edit, ANameThatIsTakenIsAConflict) {
  const Value before = tree(kSmall);
  const auto fresh = apply_edit(before, changes(R"([{"at": ["site", "mounts", "b"], "now": {"name": "b"}}])"));
  ASSERT_FALSE(fresh.has_value());
  EXPECT_EQ(fresh.error().conflicts.at(0).found, tree(R"({"name": "b", "at": [1, 0]})"));
  const auto renamed =
      apply_edit(before, changes(R"([{"at": ["site", "mounts", "a"], "was": {"name": "a", "at": [0, 0]},
      "now": {"name": "b", "at": [0, 0]}}])"));
  ASSERT_FALSE(renamed.has_value());
  EXPECT_EQ(renamed.error().conflicts.at(0).found, tree(R"({"name": "b", "at": [1, 0]})"));
}

TEST(Edit, NamesCanBeSwapped) {
  const Value before = tree(kSmall);
  const Changes swap = changes(R"([
      {"at": ["site", "mounts", "a"], "was": {"name": "a", "at": [0, 0]}, "now": {"name": "b", "at": [0, 0]}},
      {"at": ["site", "mounts", "b"], "was": {"name": "b", "at": [1, 0]}, "now": {"name": "a", "at": [1, 0]}}])");
  const Value after = applied(before, swap);
  EXPECT_EQ(names_in(after, "site/mounts"), (std::vector<std::string>{"b", "a", "c"}));
  EXPECT_EQ(*text_member(find_member(after, "cameras")->get<List>()[0], "mount"), "b");
  EXPECT_EQ(apply_as_told(after, difference(after, before, renames_back(swap))).value(), before);
}

TEST(Edit, ARenameInsideAnEditReachesWhatTheEditChangesToo) {
  const Value before = tree(kSmall);
  const Value after = applied(before, changes(R"([
      {"at": ["cameras", "one"], "was": {"name": "one", "sheet": "s", "mount": "a"},
       "now": {"name": "eye", "sheet": "s", "mount": "a", "heading_deg": 9}},
      {"at": ["site", "mounts", "a"], "was": {"name": "a", "at": [0, 0]}, "now": {"name": "pole", "at": [0, 0]}}])"));
  EXPECT_EQ(find_member(after, "cameras")->get<List>()[0],
            tree(R"({"name": "eye", "sheet": "s", "mount": "pole", "heading_deg": 9})"));
}

TEST(Edit, WrongRequestsAreToldOneByOne) {
  EXPECT_THAT(errors_of("[]"), HasSubstr("a list of 1 to 10000 changes"));
  EXPECT_THAT(errors_of("[5]"), HasSubstr("an object is needed"));
  EXPECT_THAT(errors_of(R"([{"now": 1}])"), HasSubstr("a list of texts is needed"));
  EXPECT_THAT(errors_of(R"([{"at": ["site", "pipes", "a"], "now": {"name": "a"}}])"), HasSubstr("nothing that can be"));
  EXPECT_THAT(errors_of(R"([{"at": ["site", "mounts"], "now": []}])"), HasSubstr("nothing that can be edited"));
  EXPECT_THAT(errors_of(R"([{"at": ["sightfall"], "now": 2}])"), HasSubstr("nothing that can be edited"));
  EXPECT_THAT(errors_of(R"([{"at": ["name"]}])"), HasSubstr("nothing is changed"));
  EXPECT_THAT(errors_of(R"([{"at": ["needs", "a"], "now": {"name": "b"}}])"), HasSubstr("`at` says \"a\""));
  EXPECT_THAT(errors_of(R"([{"at": ["needs", "a"], "now": "b"}])"), HasSubstr("an object with a name is needed"));
  EXPECT_THAT(errors_of(R"([{"at": ["name"], "now": "x", "index": 0}])"), HasSubstr("allowed only for what is put"));
  EXPECT_THAT(errors_of(R"([{"at": ["needs", "a"], "now": {"name": "a"}, "index": 1.5}])"), HasSubstr("whole number"));
  EXPECT_THAT(errors_of(R"([{"at": ["name"], "now": "x", "then": 0}])"), HasSubstr("is no member of a change"));
  const auto twice = apply_edit(tree(kSmall), changes(R"([{"at": ["name"], "was": "small", "now": "x"},
      {"at": ["name"], "was": "small", "now": "y"}])"));
  ASSERT_FALSE(twice.has_value());
  EXPECT_THAT(twice.error().errors.at(0).text, HasSubstr("a second time"));
}

TEST(Edit, EveryMemberOfTheDocumentCanBeEdited) {
  const Value schema = tree(project_schema());
  const auto properties = [](const Value& object, const std::string& path) {
    std::set<std::string> paths;
    for (const Member& member : find_member(object, "properties")->get<Object>()) paths.insert(path + member.name);
    return paths;
  };
  std::set<std::string> expected = properties(schema, "");
  for (const char* inner : {"site", "settings"}) {
    const Value* object = find_member(*find_member(schema, "properties"), inner);
    expected.merge(properties(*object, std::string(inner) + "/"));
    expected.erase(inner);
  }
  expected.erase("sightfall");
  std::set<std::string> actual;
  for (const Place& place : places()) actual.emplace(place.path);
  EXPECT_EQ(actual, expected);
}

/// A broken reference is refused by the reader, so that a document that still loads has them all.
TEST(Edit, ARenameCarriesEveryReferenceAlong) {
  const Value before = tree(full_text());
  const Checked<need::Project> loaded = load_project(full_path());
  ASSERT_TRUE(loaded.has_value());
  const LampFiles no_change = [](const std::string& name) {
    return Result<std::string>(text_of(source_folder() / "schema" / "examples" / name));
  };
  int renamed = 0;
  for (const Place& place : places()) {
    if (!place.list) continue;
    for (const Value& item : find_member(before, place.path)->get<List>()) {
      Change change{{}, item, item, {}};
      const std::string path(place.path), name = item_name(item);
      const size_t slash = path.find('/');
      change.at = slash == std::string::npos ? std::vector{path, name}
                                             : std::vector{path.substr(0, slash), path.substr(slash + 1), name};
      for (Member& member : std::get<Object>(change.now.is))
        if (member.name == "name") member.value = name + " anew";
      const Value after = applied(before, {change});
      const Checked<need::Project> again = parse_project(print_json(after), "renamed", no_change);
      EXPECT_TRUE(again.has_value()) << path << " " << name << ": " << (again ? "" : to_line(again.error().front()));
      const Changes told = difference(before, after, {change});
      EXPECT_EQ(apply_as_told(before, told).value_or(Value{}), after) << name;
      EXPECT_EQ(apply_as_told(after, difference(after, before, renames_back({change}))).value_or(Value{}), before);
      ++renamed;
    }
  }
  EXPECT_GT(renamed, 20);
}

/// Random edits of a document of lists and lone members.
class RandomEdits {
 public:
  explicit RandomEdits(unsigned seed) : random_{seed} {}

  Value document() {
    Object site;
    for (const char* list : {"solids", "mounts", "places"}) site.push_back({list, items()});
    return Object{
        {"sightfall", 1}, {"name", "random"}, {"site", std::move(site)}, {"conditions", items()}, {"needs", items()}};
  }

  /// Up to `most` changes of objects of which none has been given yet.
  Changes edit(const Value& document, size_t most, std::set<std::vector<std::string>>& used) {
    Changes made;
    for (size_t i = 0; i < most; ++i) {
      Change change = one(document);
      if (used.insert(change.at).second) made.push_back(std::move(change));
    }
    return made;
  }

 private:
  size_t below(size_t count) { return std::uniform_int_distribution<size_t>(0, count - 1)(random_); }

  Value item(std::string name) { return Object{{"name", std::move(name)}, {"kind", below(1000)}}; }

  Value items() {
    List list;
    for (size_t i = 0; i < 1 + below(9); ++i) list.push_back(item("n" + std::to_string(i)));
    return list;
  }

  Change one(const Value& document) {
    const std::vector<std::string_view> paths{"site/solids", "site/mounts", "site/places", "conditions", "needs"};
    const std::string path(paths[below(paths.size())]);
    const size_t slash = path.find('/');
    std::vector<std::string> at =
        slash == std::string::npos ? std::vector{path} : std::vector{path.substr(0, slash), path.substr(slash + 1)};
    const List& list = find_member(document, path)->get<List>();
    const std::optional<size_t> index = below(2) == 0 ? std::nullopt : std::optional(below(list.size() + 1));
    if (below(3) == 0) {
      const std::string name = "new" + std::to_string(++fresh_);
      at.push_back(name);
      return {at, {}, item(name), index};
    }
    const Value& was = list[below(list.size())];
    at.push_back(item_name(was));
    const size_t how = below(4);
    if (how == 0) return {at, was, {}, {}};
    return {at, was, item(how == 1 ? "re" + std::to_string(++fresh_) : item_name(was)), index};
  }

  std::mt19937 random_;
  size_t fresh_ = 0;
};

TEST(Edit, RandomEditsAndTheirWayBackGiveTheSameTree) {
  for (unsigned seed = 0; seed < 500; ++seed) {
    RandomEdits random(seed);
    const Value before = random.document();
    std::set<std::vector<std::string>> used;
    const Changes made = random.edit(before, 8, used);
    const Value after = applied(before, made);
    const Changes told = difference(before, after, made);
    ASSERT_EQ(apply_as_told(before, told).value_or(Value{}), after) << seed;
    ASSERT_EQ(apply_as_told(after, difference(after, before, renames_back(made))).value_or(Value{}), before) << seed;
    ASSERT_EQ(changes(print_json(to_value(told))), told) << seed;
  }
}

/// The document with its lists in the order of names, since where new objects stand depends on who came first.
Value by_name(Value document) {
  for (const Place& place : places()) {
    const Value* there = place.list ? find_member(document, place.path) : nullptr;
    if (there == nullptr) continue;
    List list = there->get<List>();
    std::sort(list.begin(), list.end(), [](const Value& a, const Value& b) { return item_name(a) < item_name(b); });
    set_member(document, place.path, std::move(list));
  }
  return document;
}

TEST(Edit, EditsOfDifferentObjectsDoNotDependOnTheirOrder) {
  for (unsigned seed = 0; seed < 500; ++seed) {
    RandomEdits random(seed);
    const Value before = random.document();
    std::set<std::vector<std::string>> used;
    const Changes one = random.edit(before, 5, used), other = random.edit(before, 5, used);
    if (one.empty() || other.empty()) continue;
    const Value here = applied(applied(before, one), other), there = applied(applied(before, other), one);
    ASSERT_EQ(by_name(here), by_name(there)) << seed;
  }
}

TEST(Edit, OneMovedObjectIsOneChange) {
  List before, after;
  for (int i = 0; i < 200; ++i) before.emplace_back(Object{{"name", "n" + std::to_string(i)}});
  after = before;
  std::rotate(after.begin(), after.begin() + 1, after.end());
  const Value one = Object{{"needs", before}}, other = Object{{"needs", after}};
  EXPECT_EQ(difference(one, other).size(), 1U);
  EXPECT_EQ(apply_as_told(one, difference(one, other)).value_or(Value{}), other);
}

TEST(Edit, MembersInAnotherOrderAreTheSame) {
  EXPECT_TRUE(same(tree(R"({"a": 1, "b": [{"c": 2, "d": 3}]})"), tree(R"({"b": [{"d": 3, "c": 2}], "a": 1})")));
  EXPECT_FALSE(same(tree(R"({"a": 1, "b": [1, 2]})"), tree(R"({"a": 1, "b": [2, 1]})")));
  EXPECT_FALSE(same(tree(R"({"a": 1})"), tree(R"({"a": 1, "b": 2})")));
}

}  // namespace
}  // namespace sightfall::file
