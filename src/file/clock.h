// SPDX-License-Identifier: GPL-3.0-or-later
// Clock times to universal time.
//   Source   the time zones of the system (IANA, package tzdata) by the date library; after the last change that a
//            zone's file lists, by the rule at the file's end (clock_rule.h)
//   Range    kFirstYear to kLastYear
//   Error    none for what the zones' files say; laws of the future may differ
//   Checked  clock_test.cpp
#pragma once
#include <string>

#include "base/result.h"
#include "site/site.h"

namespace sightfall::file {

inline constexpr int kFirstYear = 1950, kLastYear = 2100;

/// Whether the calendar has the day.
bool day_exists(const site::ClockTime& when);

/// Whether the clocks of the zone can be read; when not, the error says why.
Result<void> find_zone(const std::string& time_zone);

/// Julian day in universal time of a day that exists, in a zone that is found. An error when the zone's clocks skip the
/// time or show it twice.
Result<double> julian_day(const site::ClockTime& when, const std::string& time_zone);

}  // namespace sightfall::file
