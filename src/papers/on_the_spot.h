// SPDX-License-Identifier: GPL-3.0-or-later
// The test on the spot: for each need its worst place, by two tapes, how somebody goes there and in what light, what
// passes, and boxes for what was seen.
//   Checked  papers_test.cpp (that it is the same each time)
#pragma once
#include "draw/document.h"
#include "papers/job.h"

namespace sightfall::papers {

void add_walk_test(const Job& job, std::vector<draw::Block>& blocks);
/// Bars for the levels that the test asks for.
void add_test_bars(const Job& job, std::vector<draw::Block>& blocks);

}  // namespace sightfall::papers
