// SPDX-License-Identifier: GPL-3.0-or-later
// What `check --json` and `card --json` print: the contract for scripts.
//   Schema   schema/check_answer.schema.json, schema/card_answer.schema.json
//   Null     what is unknown, without end (a far focus at infinity) or not there (no place is worst)
//   Checked  answers_test.cpp; tests/case (each answer held against its schema)
#pragma once
#include <optional>
#include <string>

#include "card/card.h"
#include "card/seen.h"
#include "file/json.h"
#include "loads/loads.h"
#include "need/check.h"
#include "need/project.h"

namespace sightfall::file {

using Asks = std::optional<std::vector<loads::Ask>>;

/// `asks`: the loads, where the document says what carries its cameras.
Value answer_of(const need::Project& project, const need::CheckResult& result, const Asks& asks = {});
std::string answer_text(const need::Project& project, const need::CheckResult& result, const Asks& asks = {});
/// `calibration`: what observations narrowed before the card was made.
Value answer_of(const card::CardRequest& request, const card::RangeCard& card,
                const std::optional<card::Calibration>& calibration = {});
std::string answer_text(const card::CardRequest& request, const card::RangeCard& card,
                        const std::optional<card::Calibration>& calibration = {});

}  // namespace sightfall::file
