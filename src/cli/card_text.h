// SPDX-License-Identifier: GPL-3.0-or-later
// The range card as a person reads it, in metres and feet.
//   Checked  tests/case
#pragma once
#include <string>

#include "card/card.h"

namespace sightfall::cli {

std::string card_text(const card::CardRequest& request, const card::RangeCard& card);

}  // namespace sightfall::cli
