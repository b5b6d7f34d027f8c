// SPDX-License-Identifier: GPL-3.0-or-later
// `--seen FILE` and `--save FILE` of `sightfall card`.
//   Checked  tests/case/cases/card_seen.case, card_seen_json.case
#pragma once
#include <optional>
#include <string>

#include "base/result.h"
#include "card/card.h"
#include "card/seen.h"
#include "cli/parse.h"

namespace sightfall::cli {

/// Puts what observations tell into the request's sheet and saves it where that is asked for; nothing without
/// observations.
Checked<std::optional<card::Calibration>> calibrate(const Given& given, card::CardRequest& request);

/// What was narrowed, for a person to read.
std::string calibration_text(const card::Calibration& calibration);

}  // namespace sightfall::cli
