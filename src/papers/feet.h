// SPDX-License-Identifier: GPL-3.0-or-later
// Lengths, and pixels on lengths, in the sentences of checks and loads, which are told in metres, for a document whose
// lengths are told in feet.
//   Limits   names in quotation marks are left as they are; speeds and areas stay metric
//   Checked  feet_test.cpp
#pragma once
#include <string>

#include "papers/job.h"

namespace sightfall::papers {

/// `155 (139 to 184) of 328 ft` of `47.1 (42.3 to 56.1) of 100 m`, to three digits; what is set out with a tape to the
/// inch, `2 ft 0 in deep`.
std::string in_feet(const std::string& sentence);

/// Every sentence of the verdicts and loads that has lengths.
void tell_in_feet(Verdicts& verdicts);

}  // namespace sightfall::papers
