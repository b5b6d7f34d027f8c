// SPDX-License-Identifier: GPL-3.0-or-later
// Things found by their names, and the error when nothing carries a name.
#pragma once
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "file/report.h"
#include "file/words.h"

namespace sightfall::file {

/// Where one thing of a list stands.
template <class Named>
Spot spot_of(const Named& one, const std::vector<Named>& all, const std::string& list) {
  return item_spot(list, static_cast<size_t>(&one - all.data()), one.name);
}

/// The things of one list of the document.
template <class Named>
class ByName {
 public:
  /// `path` and `field` say where the list is; when it could not be read, names are not looked for in it.
  ByName(const std::vector<Named>& all, const std::string& path, std::string_view field, const Report& report)
      : readable_{report.clean("", path) && report.clean(path, field)} {
    for (const Named& one : all)
      if (!one.name.empty() && index_.emplace(one.name, &one).second) names_.push_back(one.name);
  }

  /// The one of that name. When there is none, says so, unless the name itself could not be read.
  const Named* find(const std::string& name, const Spot& spot, std::string_view what, Report& report) const {
    const auto at = index_.find(name);
    if (at != index_.end()) return at->second;
    if (readable_ && !name.empty())
      report.add(ErrorKind::kReference, spot,
                 "no " + std::string(what) + " is called " + in_quotes(name) + suggestion(name, names_));
    return nullptr;
  }

 private:
  bool readable_;
  std::unordered_map<std::string_view, const Named*> index_;
  std::vector<std::string_view> names_;  ///< in the document's order
};

}  // namespace sightfall::file
