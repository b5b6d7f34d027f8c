// SPDX-License-Identifier: GPL-3.0-or-later
// GDAL kept at this room's wall: it prints nothing, and what it complains about can be asked for.
#pragma once
#include <exception>
#include <new>
#include <optional>
#include <string>
#include <utility>

#include "base/result.h"

namespace sightfall::import {

/// While one lives, GDAL's complaints on this thread are held here instead of going to standard error.
class GdalQuiet {
 public:
  GdalQuiet();
  ~GdalQuiet();
  GdalQuiet(const GdalQuiet&) = delete;
  GdalQuiet& operator=(const GdalQuiet&) = delete;

  /// The last thing that GDAL failed at, in its words; empty when nothing failed.
  const std::string& said() const { return said_; }
  void hear(const std::string& text) { said_ = text; }

 private:
  std::string said_;
};

/// An error when the path is no regular file that can be read. GDAL would take a URL or the name of a database too.
std::optional<Error> file_error(const std::string& file);

/// The wall of this room: what `work` returns, its errors naming the file; exceptions become errors.
template <class Work>
auto guarded(const std::string& file, Work work) -> decltype(work()) {
  try {
    auto done = work();
    if (!done) done.error().where.file = file;
    return done;
  } catch (const std::bad_alloc&) {
    return failure(ErrorKind::kTooLarge, "it needs more memory than there is", {file, {}, {}});
  } catch (const std::exception& thrown) {
    return failure(ErrorKind::kSyntax, std::string("it cannot be read: ") + thrown.what(), {file, {}, {}});
  }
}

}  // namespace sightfall::import
