// SPDX-License-Identifier: GPL-3.0-or-later
// Errors as they are gathered from one document: all of them, each with its place.
#pragma once
#include <string>
#include <string_view>
#include <unordered_set>
#include <utility>

#include "base/result.h"

namespace sightfall::file {

/// The failure of a document with one mistake.
inline tl::unexpected<Errors> only(Error error) { return tl::make_unexpected(Errors{std::move(error)}); }

/// A place in a document: an object by its path, with its name when it has one, and a field of it.
struct Spot {
  std::string path;   ///< such as `cameras[2]`; empty: the document itself
  std::string name;   ///< such as `gate`
  std::string field;  ///< such as `focal_mm`

  Spot at(std::string other_field) const { return {path, name, std::move(other_field)}; }
};

/// The spot of one item of a list.
Spot item_spot(const std::string& list, size_t index, const std::string& name);

class Report {
 public:
  explicit Report(std::string file_name) : file_name_{std::move(file_name)} {}

  void add(ErrorKind kind, const Spot& spot, std::string text);
  /// Whether nothing was found wrong with the field (such as `openings` or `openings[2]`) of the object at this path,
  /// or with what the field holds. Rules ask before they compare, so that one mistake is told once and not again
  /// through what follows from it.
  bool clean(const std::string& path, std::string_view field) const;
  bool empty() const { return errors_.empty(); }
  /// Every error. Of very many, the first kMostErrors and how many more there are.
  Errors take();

  static constexpr size_t kMostErrors = 1000;

 private:
  void trouble(const Spot& spot);

  std::string file_name_;
  Errors errors_;
  size_t left_out_ = 0;
  std::unordered_set<std::string> troubled_;  ///< paths of fields
};

}  // namespace sightfall::file
