// SPDX-License-Identifier: GPL-3.0-or-later
// The photometric files that lamps of a document name, read beside it.
//   Promise  a file outside the document's folder is never opened, not through a link either
//   Limits   light::kLargestLampFile bytes a file, kMostLampText bytes all files of a document together
//   Checked  photometry_test.cpp
#pragma once
#include <string>

#include "file/project.h"
#include "file/report.h"

namespace sightfall::file {

inline constexpr size_t kMostLampText = size_t{64} << 20;

/// Reads files in the folder of the document and below it.
LampFiles lamp_files_beside(const std::string& document_path);

/// Reads each file that a lamp names, once, into the project.
void read_photometry(need::Project& project, const LampFiles& lamp_files, Report& report);

}  // namespace sightfall::file
