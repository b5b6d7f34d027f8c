// SPDX-License-Identifier: GPL-3.0-or-later
// A request read by its description, as documents are (file/form.h), and the names in it looked up.
//   Checked  answers_test.cpp
#pragma once
#include <algorithm>
#include <string>
#include <vector>

#include "base/result.h"
#include "file/form.h"
#include "file/reader.h"
#include "file/words.h"
#include "need/project.h"

namespace sightfall::serve {

inline constexpr const char* kRequest = "request";  ///< what errors call it

/// The request as T, whose describe() names its fields.
template <class T>
Checked<T> read_request(const file::Value& request) {
  file::Report report(kRequest);
  T result;
  file::Reader(request, report).read(result);
  if (!report.empty()) return tl::make_unexpected(report.take());
  return result;
}

inline tl::unexpected<Errors> refused(ErrorKind kind, const std::string& field, std::string text) {
  return tl::make_unexpected(Errors{{kind, std::move(text), {kRequest, "", field}}});
}

/// The element that carries the name; an error that suggests one where none does.
template <class Named>
Checked<const Named*> look_up(const std::vector<Named>& all, const std::string& name, const std::string& field) {
  if (const Named* found = need::find_named(all, name)) return found;
  std::vector<std::string_view> names;
  names.reserve(all.size());
  std::transform(all.begin(), all.end(), std::back_inserter(names),
                 [](const Named& one) { return std::string_view{one.name}; });
  return refused(ErrorKind::kReference, field, "found " + file::in_quotes(name) + file::suggestion(name, names));
}

}  // namespace sightfall::serve
