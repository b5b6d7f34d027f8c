// SPDX-License-Identifier: GPL-3.0-or-later
// Rates of clips from disk, to reckon loads with instead of forecasts: the `marks.json` of `sightfall walk --clip`.
//   Model    of its clips the one under the stream's rate counts; where the stream states no rate, the only one
//   Limits   that a clip was made with the camera as the document has it now is not looked into
//   Checked  measured_file_test.cpp; tests/case/cases/loads_measured.case
#pragma once
#include <string>
#include <vector>

#include "file/json.h"
#include "loads/stream_rate.h"

namespace sightfall::file {

/// The rates in the files, each of another camera or another light, or every error in them.
Checked<std::vector<loads::MeasuredRate>> load_measured(const std::vector<std::string>& paths,
                                                        const need::Project& project);

/// The rate in one text; file_name is what errors call it.
Checked<loads::MeasuredRate> parse_measured(std::string_view text, const std::string& file_name,
                                            const need::Project& project);

}  // namespace sightfall::file
