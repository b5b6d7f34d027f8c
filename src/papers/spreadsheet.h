// SPDX-License-Identifier: GPL-3.0-or-later
// Schedules as one spreadsheet file (Office Open XML, ISO/IEC 29500), a sheet each.
//   Library  libxlsxwriter, only in spreadsheet.cpp
//   Promise  the same bytes each time: the date is given. Texts are never formulas
//   Checked  schedule_test.cpp; tests/papers, where other programs open it
#pragma once
#include <string>
#include <vector>

#include "base/result.h"
#include "papers/schedule.h"

namespace sightfall::papers {

/// The file's bytes. `date`: ISO 8601, or empty. Errors: no room for the library's own files.
Result<std::string> spreadsheet_of(const std::vector<Schedule>& schedules, const std::string& title,
                                   const std::string& date, draw::PaperSize paper = draw::PaperSize::kA4);

}  // namespace sightfall::papers
