// SPDX-License-Identifier: GPL-3.0-or-later
// A Shapefile's parts out of a ZIP archive, unpacked into memory, where the map's library finds them.
//   Promise  no name in the archive becomes a path: one that leads out of it is refused, of the others the last word
//            alone is kept; nothing is written to a disk; whatever the archive says of its sizes, no more than
//            kMostUnpacked bytes come out of it
//   Limits   kMostParts entries; kMostUnpacked
//   Checked  shape_archive_test.cpp: hostile archives; serve/map_import_test.cpp
#pragma once
#include <string>

#include "base/result.h"
#include "import/limits.h"

namespace sightfall::import {

/// By its ending.
bool is_archive(const std::string& file);

class ShapeArchive {
 public:
  /// Unpacks the parts of every Shapefile in it. A part that is missing is told by name; the one that says the map
  /// projection may be where that is named already. `most`: bytes.
  static Result<ShapeArchive> unpack(const std::string& file, bool crs_named, size_t most = kMostUnpacked);

  ~ShapeArchive();
  ShapeArchive(ShapeArchive&& other) noexcept;
  ShapeArchive(const ShapeArchive&) = delete;
  ShapeArchive& operator=(const ShapeArchive&) = delete;
  ShapeArchive& operator=(ShapeArchive&&) = delete;

  const std::string& folder() const { return folder_; }  ///< as the library names it

 private:
  explicit ShapeArchive(std::string folder) : folder_{std::move(folder)} {}
  std::string folder_;  ///< empty: moved away
};

}  // namespace sightfall::import
