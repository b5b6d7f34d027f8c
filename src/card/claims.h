// SPDX-License-Identifier: GPL-3.0-or-later
// The audit of a sheet: each claim beside what follows from the rest of the sheet.
//   Source   power: what IEEE 802.3 leaves a device of each class; claims about light are in night_claims.h
//   Checked  claims_test.cpp
#pragma once
#include <string>
#include <vector>

#include "camera/sheet.h"

namespace sightfall::card {

enum class Holds { kYes, kNo, kDepends, kUnknown };

/// `yes`, `no`, `depends` or `unknown`.
std::string_view in_words(Holds holds);

struct Claim {
  std::string claim, stated, computed;  ///< `computed` is empty when unknown
  std::string assumption;               ///< what the answer rests on, or why it is unknown
  Holds holds = Holds::kUnknown;
};

std::vector<Claim> audit(const camera::Sheet& sheet);

}  // namespace sightfall::card
