// SPDX-License-Identifier: GPL-3.0-or-later
// What the program gives up before it reads a file that someone else made.
//   Model    Linux: a filter of system calls (seccomp) refuses sockets and other programs; Landlock refuses every file
//            but those beneath the folders named, and the system's own beneath /usr and /lib
//   Promise  a map that names a server or a file of its reader's leads nowhere, whatever its library would follow: a
//            GeoJSON's `crs` may be a link, which GDAL fetches
//   Limits   for the thread that calls it and those that it begins later, for good. Without Landlock (Linux
//   before 5.13,
//            or switched off) files are not held, the network is
//   Checked  confine_test.cpp; serve/map_import_test.cpp
#pragma once
#include <string>
#include <vector>

#include "base/result.h"

namespace sightfall::cli {

/// Folders whose files can still be read, and those in which they can be written too. One that is not there is no
/// error.
struct Reach {
  std::vector<std::string> read, write;
};

/// The folders in which a file is found by its path: where it stands, and where a link of its name leads.
std::vector<std::string> folders_of(const std::string& file);

/// An error when the network cannot be given up: nothing may be read then.
Result<void> confine(const Reach& reach);

}  // namespace sightfall::cli
