// SPDX-License-Identifier: GPL-3.0-or-later
// Observations of a camera from disk, for calibration (card/seen.h says what they are).
//   Checked  seen_file_test.cpp; tests/case/cases/card_seen.case
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "card/seen.h"

namespace sightfall::file {

/// The observations in the file, or every error in it.
Checked<std::vector<card::Observation>> load_observations(const std::string& path);
Checked<std::vector<card::Observation>> parse_observations(std::string_view text, const std::string& file_name);

/// The JSON Schema and the tables of its fields in Markdown.
std::string seen_schema();
std::string seen_manual();

}  // namespace sightfall::file
