// SPDX-License-Identifier: GPL-3.0-or-later
// The needs beside the one that a remedy is for: which of them it would spoil. On few samples, with and without.
//   Checked  remedy_test.cpp
#pragma once
#include <string>
#include <vector>

#include "need/lit_project.h"

namespace sightfall::need {

inline constexpr int kRemedySamples = 256;

/// Every need's answer as it is, also of those that were not asked for: a remedy must not spoil them unsaid.
class Bystanders {
 public:
  /// In those of each need's conditions that are named. The project must outlive it.
  Bystanders(const LitProject& lit, const std::vector<std::string>& conditions);

  /// The needs but `mended` whose answer gets worse with `other`, in no condition yet, for camera number `camera`.
  std::vector<std::string> spoiled_by(const Need& mended, size_t camera, const Station& other) const;

 private:
  /// The cameras in each condition.
  using StationsIn = std::vector<std::vector<Station>>;

  Answer quick_answer(const Need& need, const StationsIn& stations) const;

  const LitProject* lit_;
  std::vector<std::string> conditions_;
  StationsIn stations_in_;
  std::vector<Answer> answers_;  // one a need
};

}  // namespace sightfall::need
