// SPDX-License-Identifier: GPL-3.0-or-later
// Another program run on one piece of input, within limits, without a shell.
//   Promise  it has the input, nothing of our files or environment, and is killed when it takes too long
//   Checked  plan_upload_test.cpp
#pragma once
#include <chrono>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace sightfall::serve {

struct ChildLimits {
  std::chrono::milliseconds time{20'000};  ///< by the clock; of the processor as many seconds
  size_t memory = size_t{1} << 30;         ///< address space, bytes
  size_t output = size_t{256} << 20;       ///< bytes
};

struct ChildResult {
  int status = -1;  ///< as it ended by itself; negative: a signal ended it
  bool too_slow = false;
  std::string output, words;  ///< what it wrote, and what it said on its error channel
};

/// Runs program (its whole path) with these arguments. An error is one of ours: the program is not there, no process.
Result<ChildResult> run_child(const std::string& program, const std::vector<std::string>& arguments,
                              std::string_view input, const ChildLimits& limits = {});

}  // namespace sightfall::serve
