// SPDX-License-Identifier: GPL-3.0-or-later
// Edits of a document: what the workbench changes, told object by object (docs/wire.md).
//   Model    a document is lists of objects with a name of their own, and a few lone members; a change says what stood
//            at one of them and what shall stand there; an edit is changes made together or not at all
//   Promise  an edit that cannot be made whole changes nothing; changes of different objects do not depend on their
//            order, but for where new objects come to stand in their list
//   Checked  edit_test.cpp: apply and undo, edits in either order, conflicts, each reference of the document
#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "file/json.h"

namespace sightfall::file {

/// The most changes of one edit.
inline constexpr size_t kMostChanges = 10'000;

struct Change {
  std::vector<std::string> at;    ///< such as site, mounts, gate pole: the name is the one before the edit
  Value was;                      ///< null: nothing stands there
  Value now;                      ///< null: nothing shall stand there; another name than in `at` renames
  std::optional<size_t> index{};  ///< in its list; what is new otherwise comes last, what was there stays in its place

  bool operator==(const Change&) const = default;
};
using Changes = std::vector<Change>;

/// A change whose `was` is not what stands there.
struct Conflict {
  Change change;
  Value found;
};

/// Why an edit was not made: errors of the request, or conflicts.
struct Refused {
  Errors errors;
  std::vector<Conflict> conflicts;
};

/// The changes of a request's list, or every error in them.
Checked<Changes> parse_changes(const Value& list);
Value to_value(const Changes& changes);

/// The document with the changes made as they stand: names that lead to something renamed are left as they are.
tl::expected<Value, Refused> apply_as_told(const Value& document, const Changes& changes);

/// The document with the changes made, and names that lead to something renamed changed with it.
tl::expected<Value, Refused> apply_edit(const Value& document, const Changes& changes);

/// What makes `after` of `before` by apply_as_told. `renamed` has the changes in which names change; all else goes by
/// its name. What a change cannot say, such as an unknown field, is not compared.
Changes difference(const Value& before, const Value& after, const Changes& renamed = {});

/// The changes that go the other way, as far as names are concerned: what `difference` needs for the way back.
Changes renames_back(const Changes& renamed);

/// Equal but for the order of members in objects.
bool same(const Value& a, const Value& b);

}  // namespace sightfall::file
