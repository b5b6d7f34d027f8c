// SPDX-License-Identifier: GPL-3.0-or-later
// Footprints and terrain from a map that a page sends: the program's own `import` verb, run as a process of its own on
// a copy of what it needs of the document; what it altered becomes the changes of one edit.
//   Model    changes are told as for a site on which nothing stands: what is there already under one of their names is
//   a
//            conflict when they are made, for a person to settle, unless it is the very same
//   Promise  the file is read where it can harm nobody: in a folder of its own, within limits of time, memory and size,
//            and by a process that has given up the network, other programs and all other files (cli/confine.h)
//   Limits   kLargestMap bytes; kImportTime; kMostImported objects and kLargestImport bytes of changes, which pages
//   must
//            take as one event
//   Checked  map_import_test.cpp
#pragma once
#include <chrono>
#include <string>
#include <string_view>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "file/edit.h"
#include "serve/desk.h"
#include "serve/map_request.h"

namespace sightfall::serve {

inline constexpr size_t kLargestMap = size_t{64} << 20;
inline constexpr std::chrono::seconds kImportTime{90};
inline constexpr size_t kMostImported = 5'000;
inline constexpr size_t kLargestImport = size_t{3} << 20;
/// An edit that settles an import's conflicts tells besides what it replaces.
inline constexpr size_t kLargestEdit = size_t{8} << 20;

struct MapImport {
  file::Changes changes;
  std::vector<std::string> told;  ///< what was done, in the words of the command line
};

/// The path of this very program, whatever has become of its file since it began.
std::string own_program();

/// Runs `program import ...` on the bytes. What is wrong with them comes back under the name that the page sent.
Checked<MapImport> import_map(const std::string& program, const Snapshot& site, const MapRequest& request,
                              std::string_view bytes, const Progress& progress);

}  // namespace sightfall::serve
