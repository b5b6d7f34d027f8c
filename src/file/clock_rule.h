// SPDX-License-Identifier: GPL-3.0-or-later
// The rule by which a zone's clocks go on after the last change that its file lists, such as
// `CET-1CEST,M3.5.0,M10.5.0/3`.
//   Why      the library that reads the zones' files stops at their last listed change, in 2037 for most zones
//   Source   POSIX.1-2017, base definitions, 8.3 (TZ); RFC 8536, section 3.3 (the footer; hours from -167 to 167).
//            Changes given by the day of the year (J, n), which no zone in use has, are not understood
//   Checked  clock_test.cpp
#pragma once
#include <optional>
#include <string_view>

namespace sightfall::file {

/// A change of the clocks each year: on a weekday (0 is Sunday) of a month, the week counted from 1, 5 the last.
struct YearlyChange {
  int month = 0, week = 0, weekday = 0;
  long seconds = 7200;  ///< by the clock before the change, from the start of that day
};

struct ClockRule {
  long standard = 0;  ///< seconds ahead of universal time
  long summer = 0;    ///< the same in summer; equal where clocks do not change
  YearlyChange begin, end;

  /// Seconds ahead of universal time at an instant in seconds since 1970.
  long offset_at(long instant) const;
};

std::optional<ClockRule> parse_clock_rule(std::string_view text);

}  // namespace sightfall::file
