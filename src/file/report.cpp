// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/report.h"

#include <fmt/format.h>

#include "file/words.h"

namespace sightfall::file {

Spot item_spot(const std::string& list, size_t index, const std::string& name) {
  return {fmt::format("{}[{}]", list, index), name, {}};
}

bool Report::clean(const std::string& path, std::string_view field) const {
  return !troubled_.contains(fmt::format("{}.{}", path, field));
}

/// An error in `openings[2].edge` troubles `openings[2]` and `openings` too.
void Report::trouble(const Spot& spot) {
  for (size_t end = spot.field.find_first_of("[."); end != std::string::npos;
       end = spot.field.find_first_of("[.", end + 1))
    troubled_.insert(fmt::format("{}.{}", spot.path, spot.field.substr(0, end)));
  troubled_.insert(fmt::format("{}.{}", spot.path, spot.field));
}

void Report::add(ErrorKind kind, const Spot& spot, std::string text) {
  trouble(spot);
  if (errors_.size() >= kMostErrors) {
    ++left_out_;
    return;
  }
  std::string object = spot.path;
  if (!spot.name.empty()) object += (object.empty() ? "" : " ") + in_quotes(spot.name);
  errors_.push_back({kind, std::move(text), {file_name_, std::move(object), spot.field}});
}

Errors Report::take() {
  if (left_out_ > 0)
    errors_.push_back({ErrorKind::kTooLarge, fmt::format("and {} more errors", left_out_), {file_name_, {}, {}}});
  left_out_ = 0;
  return std::move(errors_);
}

}  // namespace sightfall::file
