// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/date.h"

#include <charconv>

namespace sightfall::papers {
namespace {

/// All of the text as a number without a sign.
std::optional<unsigned> number_of(std::string_view text) {
  unsigned number = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (fault != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return number;
}

}  // namespace

std::optional<std::chrono::year_month_day> date_of(std::string_view text) {
  constexpr size_t kLength = 10, kFirstDash = 4, kSecondDash = 7;
  if (text.size() != kLength || text[kFirstDash] != '-' || text[kSecondDash] != '-') return std::nullopt;
  const auto year = number_of(text.substr(0, kFirstDash)), month = number_of(text.substr(kFirstDash + 1, 2)),
             day = number_of(text.substr(kSecondDash + 1));
  if (!year || !month || !day) return std::nullopt;
  const std::chrono::year_month_day date{std::chrono::year{static_cast<int>(*year)}, std::chrono::month{*month},
                                         std::chrono::day{*day}};
  return date.ok() ? std::optional{date} : std::nullopt;
}

}  // namespace sightfall::papers
