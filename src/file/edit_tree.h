// SPDX-License-Identifier: GPL-3.0-or-later
// What edits (edit.h) know of a document's tree: what can be edited in it, where it stands, and which names lead where.
//   Checked  edit_test.cpp: every member of the schema is in the table, every reference of rules_*.cpp is followed
#pragma once
#include <map>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "file/json.h"

namespace sightfall::file {

/// Something that can be edited: a list of named objects, or a lone member.
struct Place {
  std::string_view path;  ///< such as `site/mounts`
  bool list = false;
};

/// All of them, in the document's order.
std::span<const Place> places();

/// The place that a change's `at` names; null when it names none.
const Place* place_of(const std::vector<std::string>& at);

/// A member by its path, or null.
const Value* find_member(const Value& document, std::string_view path);

/// Puts the member where the writer would, or takes it out when it is null.
void set_member(Value& document, std::string_view path, Value value);

/// The text of a member of an object, or null when there is none.
const std::string* text_member(const Value& object, std::string_view name);

/// The name of an object of a list; empty when it has none.
std::string item_name(const Value& item);

/// Names before and after, by the list's path.
using Renames = std::map<std::string_view, std::map<std::string, std::string>>;

/// Changes each name that leads to something renamed.
void follow_renames(Value& document, const Renames& renames);

}  // namespace sightfall::file
