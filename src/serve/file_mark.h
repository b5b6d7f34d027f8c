// SPDX-License-Identifier: GPL-3.0-or-later
// What tells quickly that a file may be another than it was.
#pragma once
#include <cstdint>
#include <string>

namespace sightfall::serve {

struct FileMark {
  uint64_t device = 0, inode = 0, size = 0;
  int64_t seconds = 0, nanoseconds = 0;  ///< when it was written

  bool operator==(const FileMark&) const = default;
};

/// All zero when there is no such file.
FileMark mark_of(const std::string& path);

}  // namespace sightfall::serve
