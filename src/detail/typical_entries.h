// SPDX-License-Identifier: GPL-3.0-or-later
// The entries of data/typical.json by name, and between which values a document may set each.
//   Checked  need/station_test.cpp; file/standards_test.cpp
#pragma once
#include <span>
#include <string_view>
#include <vector>

#include "camera/sheet.h"
#include "detail/typical.h"

namespace sightfall::detail {

struct TypicalEntry {
  std::string_view name;
  TypicalValue Typical::*member;
  double lowest, highest;  ///< in the entry's unit
};

std::span<const TypicalEntry> typical_entries();

/// The entry of that name, or null.
const TypicalEntry* find_entry(std::string_view name);

/// The table with what a sheet knows better put in: value and source.
Typical with_estimates(Typical typical, const std::vector<camera::Estimate>& estimates);

}  // namespace sightfall::detail
