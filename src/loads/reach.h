// SPDX-License-Identifier: GPL-3.0-or-later
// How a mount is reached, in words of caution. It advises; what may be done, and by whom, local codes decide.
//   Checked  reach_test.cpp
#pragma once
#include <string>
#include <vector>

#include "unit/mechanics.h"

namespace sightfall::loads {

/// How far a ladder's foot stands out for a height that its top rests at: four up, one out, as British and Danish
/// practice has it.
Length foot_out(Length up);

/// How far it stands out for a working length, a quarter of it: OSHA 29 CFR 1926.1053(b)(5).
Length foot_out_of_length(Length working);

/// What to know before going up to a mount, on a pole or not, with what hangs there.
std::vector<std::string> access_words(Length height, Mass carried, bool on_pole);

}  // namespace sightfall::loads
