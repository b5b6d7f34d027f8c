// SPDX-License-Identifier: GPL-3.0-or-later
// Shows many subjects at every level of every cause to the readers and counts their hits.
//   Model    even seeds make the first half, on which thresholds are fixed, odd seeds the second, on which they are
//   tried Same     the same on any number of threads
#pragma once
#include <array>
#include <functional>
#include <vector>

#include "causes.h"
#include "statistics.h"

namespace sightfall::reading {

/// What each reader got of one subject: the share of it that was right, 1 for a hit.
struct Look {
  std::vector<double> right;
  int false_alarms = 0;
};
using Examine = std::function<Look(const Level& level, uint64_t seed)>;

enum Half : size_t { kFirst, kSecond };

/// Of one reader at one level.
struct Score {
  std::array<Tally, 2> half;
  double right = 0;  ///< mean share of a subject
  Tally whole() const { return {half[0].shown + half[1].shown, half[0].hits + half[1].hits}; }
};

struct Series {
  Cause cause;
  std::vector<std::vector<Score>> score;  ///< reader by reader, level by level
  int false_alarms = 0, looks = 0;
};

/// `tell` is called after each level.
std::vector<Series> run(const std::vector<Cause>& causes, int subjects, size_t readers, const Examine& examine,
                        const std::function<void(const Series& so_far)>& tell);

}  // namespace sightfall::reading
