// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "serve/answers.h"
#include "serve/request.h"

namespace sightfall::serve {
namespace {

using file::List;
using file::Member;
using file::Object;
using file::Value;

/// A name that no condition of a document carries by chance.
constexpr const char* kThisHour = "this hour (shown only)";

}  // namespace

Checked<Asked> asked(const Value& body) {
  const auto* members = body.as<Object>();
  if (members == nullptr) return refused(ErrorKind::kSyntax, "", "found no object");
  Asked result;
  Object rest;
  for (const Member& member : *members) {
    if (member.name == "changes") {
      const auto* changes = member.value.as<List>();
      if (changes == nullptr) return refused(ErrorKind::kField, "changes", "found no list");
      result.changes.insert(result.changes.end(), changes->begin(), changes->end());
    } else if (const auto* condition = member.value.as<Object>(); member.name == "condition" && condition != nullptr) {
      Object now{{"name", kThisHour}};
      std::copy_if(condition->begin(), condition->end(), std::back_inserter(now),
                   [](const Member& one) { return one.name != "name"; });
      result.changes.emplace_back(
          Object{{"at", List{"conditions", kThisHour}}, {"was", Value{}}, {"now", std::move(now)}});
      rest.push_back({"condition", kThisHour});
    } else {
      rest.push_back(member);
    }
  }
  result.request = Value{std::move(rest)};
  return result;
}

}  // namespace sightfall::serve
