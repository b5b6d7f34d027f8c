// SPDX-License-Identifier: GPL-3.0-or-later
// Files read whole and written whole.
//   Promise  after a failed write (full disk, no permission, power cut) the old file is there with its old text; at no
//            moment is there neither the old nor the new one
//   Checked  atomic_test.cpp: a full disk, a folder that cannot be written, a file that is too large
#pragma once
#include <cstddef>
#include <string>
#include <string_view>

#include "base/result.h"

namespace sightfall::file {

/// The text of a regular file of at most `largest` bytes; a larger one is refused before it is read.
Result<std::string> read_whole(const std::string& path, size_t largest);

/// Writes a temporary file beside `path`, syncs it and renames it into place. What it replaces is kept as `path~` until
/// the new file is safe on disk.
Result<void> write_atomically(const std::string& path, std::string_view text);

}  // namespace sightfall::file
