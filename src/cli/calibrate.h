// SPDX-License-Identifier: GPL-3.0-or-later
// `--seen FILE` and `--save FILE` of `sightfall card`.
//   Checked  tests/case/cases/card_seen.case
#pragma once
#include <string>

#include "base/result.h"
#include "card/card.h"
#include "cli/parse.h"

namespace sightfall::cli {

/// Puts what observations tell into the request's sheet and saves it where that is asked for; the text that tells it,
/// empty without observations.
Checked<std::string> calibrate(const Given& given, card::CardRequest& request);

}  // namespace sightfall::cli
