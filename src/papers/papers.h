// SPDX-License-Identifier: GPL-3.0-or-later
// All papers of a job as files: texts, drawings, schedules.
//   Promise  the same job gives the same bytes
//   Checked  papers_test.cpp; tests/case
#pragma once
#include <functional>
#include <string>
#include <string_view>

#include "base/progress.h"
#include "base/result.h"
#include "papers/job.h"

namespace sightfall::papers {

using Write = std::function<Result<void>(const std::string& name, std::string_view bytes)>;

/// What `write_papers` writes, with what each file is for: names in its order.
struct PaperName {
  std::string file, what;
};
std::vector<PaperName> paper_names(bool other);

/// Draws the papers on all threads and gives each to `write`, whole, one after another. Stopped in between, those that
/// are written are whole.
/// Errors: of writing.
Result<void> write_papers(const Job& job, const Write& write, const Progress& progress = {});

}  // namespace sightfall::papers
