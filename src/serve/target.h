// SPDX-License-Identifier: GPL-3.0-or-later
// What a request is aimed at, `/api/plan/yard%20plan.png?page=1`, taken apart once and for all.
//   Promise  no segment can lead out of its folder, in whatever form it was written: none is empty, begins with a dot
//            or holds a slash, a backslash or a control character once decoded, and nothing is decoded twice
//   Checked  target_test.cpp
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace sightfall::serve {

struct Target {
  std::vector<std::string> segments;                        ///< decoded; none for `/`
  std::vector<std::pair<std::string, std::string>> values;  ///< of the query, decoded, in their order

  /// The first value of that name, or nothing.
  std::optional<std::string> value(std::string_view name) const;
  /// `/` and the segments with `/` between them.
  std::string path() const;
};

/// Nothing for what is no plain path of valid UTF-8, or could be meant to lead elsewhere.
std::optional<Target> parse_target(std::string_view text);

}  // namespace sightfall::serve
