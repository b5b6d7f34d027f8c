// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/edit_tree.h"

#include <algorithm>
#include <array>

namespace sightfall::file {
namespace {

constexpr std::array<Place, 30> kPlaces{{{"name"},
                                         {"about"},
                                         {"site/anchor"},
                                         {"site/plan"},
                                         {"site/terrain"},
                                         {"site/ground"},
                                         {"site/solids", true},
                                         {"site/veils", true},
                                         {"site/mounts", true},
                                         {"site/lamps", true},
                                         {"site/places", true},
                                         {"site/boundary"},
                                         {"site/neighbours", true},
                                         {"site/feeds", true},
                                         {"site/ways", true},
                                         {"site/runs", true},
                                         {"site/wind"},
                                         {"conditions", true},
                                         {"needs", true},
                                         {"cameras", true},
                                         {"catalogue", true},
                                         {"keeping"},
                                         {"settings/level_table"},
                                         {"settings/level_tables", true},
                                         {"settings/units"},
                                         {"settings/currency"},
                                         {"settings/house_network"},
                                         {"settings/mains"},
                                         {"settings/sample_spacing_m"},
                                         {"settings/typical"}}};

/// A field that names something of a list.
struct Reference {
  std::string_view from;   ///< list of the objects that have the field, or the lone member itself
  std::string_view field;  ///< a name or a list of names; empty: a lone member
  std::string_view to;     ///< list that the name leads to
};
constexpr std::array<Reference, 11> kReferences{{{"cameras", "sheet", "catalogue"},
                                                 {"cameras", "mount", "site/mounts"},
                                                 {"needs", "place", "site/places"},
                                                 {"needs", "conditions", "conditions"},
                                                 {"conditions", "lamps", "site/lamps"},
                                                 {"site/feeds", "battery", "site/feeds"},
                                                 {"site/runs", "from", "site/feeds"},
                                                 {"site/runs", "to", "site/feeds"},
                                                 {"site/runs", "to", "cameras"},
                                                 {"site/runs", "along", "site/ways"},
                                                 {"settings/level_table", "", "settings/level_tables"}}};

constexpr std::string_view kVersionMember = "sightfall";

std::string_view first_step(std::string_view path) { return path.substr(0, path.find('/')); }
std::string_view last_step(std::string_view path) { return path.substr(path.rfind('/') + 1); }

/// Where a member comes in the object that holds it: in the order of kPlaces.
size_t rank(std::string_view parent, std::string_view name) {
  if (parent.empty() && name == kVersionMember) return 0;
  for (size_t i = 0; i < kPlaces.size(); ++i) {
    const std::string_view path = kPlaces[i].path;
    const bool inner = path.find('/') != std::string_view::npos;
    if (parent.empty() ? first_step(path) == name : inner && first_step(path) == parent && last_step(path) == name)
      return i + 1;
  }
  return kPlaces.size() + 1;
}

Value* find_in(Value& document, std::string_view path) {
  Value* at = member_of(document, first_step(path));
  return at == nullptr || path.find('/') == std::string_view::npos ? at : member_of(*at, last_step(path));
}

void put(Value& holder, std::string_view parent, std::string_view name, Value value) {
  auto* object = std::get_if<Object>(&holder.is);
  if (object == nullptr) return;
  if (Value* there = member_of(holder, name)) {
    if (!value.null())
      *there = std::move(value);
    else
      object->erase(std::find_if(object->begin(), object->end(), [&](const Member& m) { return m.name == name; }));
    return;
  }
  if (value.null()) return;
  const size_t own = rank(parent, name);
  const auto next =
      std::find_if(object->begin(), object->end(), [&](const Member& m) { return rank(parent, m.name) > own; });
  object->insert(next, {std::string(name), std::move(value)});
}

void follow(Value& name, const std::map<std::string, std::string>& renamed) {
  if (auto* text = std::get_if<std::string>(&name.is))
    if (const auto found = renamed.find(*text); found != renamed.end()) *text = found->second;
  if (auto* names = std::get_if<List>(&name.is))
    for (Value& one : *names) follow(one, renamed);
}

}  // namespace

std::span<const Place> places() { return kPlaces; }

const Place* place_of(const std::vector<std::string>& at) {
  for (const Place& place : kPlaces) {
    const bool inner = place.path.find('/') != std::string_view::npos;
    if (at.size() != size_t{1} + (inner ? 1 : 0) + (place.list ? 1 : 0)) continue;
    if (at[0] == first_step(place.path) && (!inner || at[1] == last_step(place.path))) return &place;
  }
  return nullptr;
}

const Value* find_member(const Value& document, std::string_view path) {
  // The tree is not changed: what finds a member is the same for a tree that is.
  return find_in(const_cast<Value&>(document), path);  // NOLINT(cppcoreguidelines-pro-type-const-cast)
}

void set_member(Value& document, std::string_view path, Value value) {
  if (path.find('/') == std::string_view::npos) return put(document, "", path, std::move(value));
  const std::string_view holder = first_step(path);
  if (member_of(document, holder) == nullptr) {
    if (value.null()) return;
    put(document, "", holder, Object{});
  }
  Value& inner = *member_of(document, holder);
  put(inner, holder, last_step(path), std::move(value));
  // The writer leaves out settings that are all as usual; a site is always there.
  const auto* members = inner.as<Object>();
  if (holder == "settings" && members != nullptr && members->empty()) put(document, "", holder, {});
}

const std::string* text_member(const Value& object, std::string_view name) {
  const auto* members = object.as<Object>();
  if (members == nullptr) return nullptr;
  const auto found = std::find_if(members->begin(), members->end(), [&](const Member& m) { return m.name == name; });
  return found == members->end() ? nullptr : found->value.as<std::string>();
}

std::string item_name(const Value& item) {
  const std::string* name = text_member(item, "name");
  return name == nullptr ? std::string{} : *name;
}

void follow_renames(Value& document, const Renames& renames) {
  for (const Reference& reference : kReferences) {
    const auto renamed = renames.find(reference.to);
    Value* from = renamed == renames.end() ? nullptr : find_in(document, reference.from);
    if (from == nullptr) continue;
    if (reference.field.empty()) {
      follow(*from, renamed->second);
      continue;
    }
    if (auto* items = std::get_if<List>(&from->is))
      for (Value& item : *items)
        if (Value* name = member_of(item, reference.field)) follow(*name, renamed->second);
  }
}

}  // namespace sightfall::file
