// SPDX-License-Identifier: GPL-3.0-or-later
// The words of an error: what was found, quoted so that it cannot disturb a terminal, and what was perhaps meant.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "file/json.h"

namespace sightfall::file {

/// The text in quotes, cut when long, with control characters shown as escapes.
std::string in_quotes(std::string_view text);

/// A field's name as it is when it is plain, otherwise in quotes.
std::string plain_or_quoted(std::string_view name);

/// What was found, such as `the text "abc"`, `61`, `a list of 3`.
std::string found(const Value& value);

/// The names in quotes with commas between them; when there are very many, the first and how many more.
std::string listed(std::span<const std::string_view> names);

/// The candidate that is spelt most like the name, when it is spelt much like it.
std::optional<std::string_view> nearest(std::string_view name, std::span<const std::string_view> candidates);

/// `; did you mean "..."?` or, when nothing is near, `; allowed: ...`.
std::string suggestion(std::string_view name, std::span<const std::string_view> candidates);

}  // namespace sightfall::file
