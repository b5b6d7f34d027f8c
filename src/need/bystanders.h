// SPDX-License-Identifier: GPL-3.0-or-later
// The needs beside the one that a remedy is for: which of them it would spoil. On few samples, with and without.
//   Checked  remedy_test.cpp
#pragma once
#include <deque>
#include <mutex>
#include <string>
#include <vector>

#include "need/ladder.h"
#include "need/lit_project.h"

namespace sightfall::need {

inline constexpr int kRemedySamples = 256;

/// Every need's answer as it is, also of those that were not asked for: a remedy must not spoil them unsaid. Safe to
/// ask from many threads.
class Bystanders {
 public:
  /// In those of each need's conditions that are named. The project must outlive it.
  Bystanders(const LitProject& lit, const std::vector<std::string>& conditions);

  /// The needs but `mended` whose answer gets worse with `other`, in no condition yet, for camera number `camera`.
  std::vector<std::string> spoiled_by(const Need& mended, size_t camera, const Station& other) const;

 private:
  /// One need's trials, kept so that a changed camera costs its own part of them alone.
  struct Bystander {
    std::vector<const site::Condition*> conditions;
    std::vector<Ladder> ladders;  // one a condition
    Answer answer = Answer::kMet;
    std::mutex judging;
  };

  const LitProject* lit_;
  mutable std::deque<Bystander> needs_;  // as in the project
};

}  // namespace sightfall::need
