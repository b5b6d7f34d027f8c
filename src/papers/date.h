// SPDX-License-Identifier: GPL-3.0-or-later
// The date that papers carry: given, never the clock's.
//   Source   ISO 8601, calendar date, extended format
//   Checked  date_test.cpp
#pragma once
#include <chrono>
#include <optional>
#include <string_view>

namespace sightfall::papers {

/// A day of the calendar written as `2026-11-27`, or nothing.
std::optional<std::chrono::year_month_day> date_of(std::string_view text);

}  // namespace sightfall::papers
