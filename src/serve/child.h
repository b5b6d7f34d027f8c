// SPDX-License-Identifier: GPL-3.0-or-later
// Another program run on one piece of input, within limits, without a shell.
//   Promise  it has the input, nothing of our files or environment but what it is given, and is killed when it takes
//   too
//            long or is stopped
//   Checked  plan_upload_test.cpp
#pragma once
#include <atomic>
#include <chrono>
#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace sightfall::serve {

struct ChildLimits {
  std::chrono::milliseconds time{20'000};  ///< by the clock; of the processor as many seconds
  size_t memory = size_t{1} << 30;         ///< address space, bytes; 0: no limit
  size_t output = size_t{256} << 20;       ///< bytes
};

/// What it is given besides its input, and who watches it.
struct ChildRoom {
  std::string folder = {};                    ///< that it runs in; empty: ours
  std::vector<std::string> environment = {};  ///< such as TMPDIR=/tmp/one
  /// Called a few times a second with the end of what it said so far on its error channel.
  std::function<void(std::string_view words)> hear = [](std::string_view) {};
  const std::atomic<bool>* stop = nullptr;
};

struct ChildResult {
  int status = -1;  ///< as it ended by itself; negative: a signal ended it
  bool too_slow = false, stopped = false;
  std::string output, words;  ///< what it wrote, and what it said on its error channel
};

/// Runs program (its whole path) with these arguments. An error is one of ours: the program is not there, no process.
Result<ChildResult> run_child(const std::string& program, const std::vector<std::string>& arguments,
                              std::string_view input, const ChildLimits& limits = {}, const ChildRoom& room = {});

}  // namespace sightfall::serve
