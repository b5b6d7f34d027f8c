// SPDX-License-Identifier: GPL-3.0-or-later
// What a ZIP archive says of itself: the names and sizes in its directory, at its end.
//   Promise  nothing is unpacked; a name is read as text, not as a path. What the archive says need not be true
//   Limits   kMostParts entries; no ZIP64 (its files are larger than what is taken here), no encryption
//   Source   APPNOTE.TXT, .ZIP File Format Specification 6.3.9, sections 4.3.12 and 4.3.16
//   Checked  shape_archive_test.cpp
#pragma once
#include <cstdint>
#include <string>
#include <vector>

#include "base/result.h"

namespace sightfall::import {

struct ZipEntry {
  std::string name;   ///< with `/` between folders
  uint32_t size = 0;  ///< unpacked
  bool encrypted = false;
};

/// The entries of the archive at this path, folders left out.
Result<std::vector<ZipEntry>> zip_directory(const std::string& file);

}  // namespace sightfall::import
