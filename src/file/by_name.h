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

template <class Named>
class ByName {
 public:
  explicit ByName(const std::vector<Named>& all) {
    for (const Named& one : all)
      if (!one.name.empty() && index_.emplace(one.name, &one).second) names_.push_back(one.name);
  }

  const Named* find(const std::string& name) const {
    const auto at = index_.find(name);
    return at == index_.end() ? nullptr : at->second;
  }

  /// The one of that name. When there is none, says so, unless the name itself could not be read.
  const Named* find(const std::string& name, const Spot& spot, std::string_view what, Report& report) const {
    const Named* one = find(name);
    if (one == nullptr && !name.empty())
      report.add(ErrorKind::kReference, spot,
                 "no " + std::string(what) + " is called " + in_quotes(name) + suggestion(name, names_));
    return one;
  }

 private:
  std::unordered_map<std::string_view, const Named*> index_;
  std::vector<std::string_view> names_;
};

}  // namespace sightfall::file
