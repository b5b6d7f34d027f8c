// SPDX-License-Identifier: GPL-3.0-or-later
// Lengths, and pixels on lengths, in the sentences of checks and loads, which are told in metres, for a document whose
// lengths are told in feet.
//   Limits   names in quotation marks are left as they are; speeds and areas stay metric
//   Checked  feet_test.cpp
#pragma once
#include <string>

#include "papers/job.h"
#include "papers/schedule.h"

namespace sightfall::papers {

/// `155 (139 to 184) of 328 ft` of `47.1 (42.3 to 56.1) of 100 m`: to three digits.
std::string in_feet(const std::string& sentence);

/// Every sentence of the verdicts and loads that has lengths.
void tell_in_feet(Verdicts& verdicts);

/// The schedule with its columns of metres in feet, to 0.01 ft, and what is counted by the metre counted by the foot,
/// at a price for the foot; as it is, where the units are metres.
Schedule told_in(need::Units units, Schedule metric);

}  // namespace sightfall::papers
