// SPDX-License-Identifier: GPL-3.0-or-later
// The terminal: errors, tables that fit, progress that can be stopped.
#pragma once
#include <atomic>
#include <string>
#include <string_view>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "unit/quantity.h"

namespace sightfall::cli {

/// Prints each error on a line of standard error; returns exit status 2.
int report(const Errors& errors);
int report(const Error& error);

/// Columns of text lined up, two blanks between them; the last column is not padded.
std::string table(const std::vector<std::vector<std::string>>& rows);

/// Text wrapped to the terminal's width behind an indent.
std::string wrapped(std::string_view text, size_t indent);

/// Width in columns of UTF-8 text (one a code point).
size_t columns_of(std::string_view text);

/// Progress on standard error while one lives, if that is a terminal; the first interrupt asks the work to stop.
class Watching {
 public:
  Watching();
  ~Watching();
  Watching(const Watching&) = delete;
  Watching& operator=(const Watching&) = delete;
  const Progress& progress() const { return progress_; }

 private:
  Progress progress_;
};

}  // namespace sightfall::cli
