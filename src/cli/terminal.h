// SPDX-License-Identifier: GPL-3.0-or-later
// The terminal: its width, errors, progress that can be stopped.
#pragma once
#include <cstddef>

#include "base/progress.h"
#include "base/result.h"

namespace sightfall::cli {

/// Prints each error on a line of standard error; returns exit status 2.
int report(const Errors& errors);
int report(const Error& error);

/// Columns that a line may have: the terminal's, or what COLUMNS says, or 100 when neither is known.
size_t terminal_width();

/// Progress on standard error while one lives, if that is a terminal or the environment has SIGHTFALL_PROGRESS (another
/// program reads it); the first interrupt asks the work to stop.
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
