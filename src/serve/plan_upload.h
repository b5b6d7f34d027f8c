// SPDX-License-Identifier: GPL-3.0-or-later
// The picture of a plan that a page sends: checked by decoding it whole, and kept as a PNG of our own making.
//   Promise  nothing of what was sent reaches the disk but its pixels; the file's name is ours; what cannot be read is
//            refused with a reason, and nothing is written
//   Program  pages of PDFs are drawn by poppler's pdftoppm, a child process with limits (child.h)
//   Limits   plan_picture.h; a page of a PDF becomes kPlanPageSide pixels on its longer side; one upload at a time
//   Checked  plan_upload_test.cpp
#pragma once
#include <string>
#include <string_view>

#include "serve/desk.h"

namespace sightfall::serve {

inline constexpr size_t kLargestPlan = size_t{40} << 20;
inline constexpr int kPlanPageSide = 4000;
inline constexpr int kMostPages = 10'000;

/// PUT /api/plan: keeps the picture beside the document as NAME.plan-N.png. `page` counts from 1; of a PDF alone.
Reply put_plan(const std::string& document_path, std::string_view bytes, int page);

}  // namespace sightfall::serve
