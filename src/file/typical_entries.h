// SPDX-License-Identifier: GPL-3.0-or-later
// The entries of data/typical.json by name, and between which values a document may set each.
#pragma once
#include <span>
#include <string_view>

#include "detail/typical.h"

namespace sightfall::file {

struct TypicalEntry {
  std::string_view name;
  detail::TypicalValue detail::Typical::*member;
  double lowest, highest;  ///< in the entry's unit
};

std::span<const TypicalEntry> typical_entries();

}  // namespace sightfall::file
