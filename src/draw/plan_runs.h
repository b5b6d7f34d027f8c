// SPDX-License-Identifier: GPL-3.0-or-later
// Cables of a plan that lie in one line: the line in stretches, each with the cables that lie in it.
//   Model    lines are parted at each other's corners; pieces that run over the same two corners are one
//   Checked  plan_runs_test.cpp
#pragma once
#include <cstddef>
#include <string>
#include <vector>

#include "geom/vec.h"
#include "need/project.h"

namespace sightfall::draw {

struct PlanCable {
  std::string name, to;
  std::vector<geom::PlanPoint> line;
  bool fibre = false;
  std::vector<std::string> along = {};  ///< ways it lies in, by name
};

struct PlanStretch {
  std::vector<geom::PlanPoint> line;  ///< m
  std::vector<size_t> cables;         ///< of the plan's, in their order
};

/// Corners of cables so near to each other, or to another's line, lie on it. Metres.
inline constexpr double kInOneLine = 0.01;

/// Every cable lies in one or more; no piece of a line is in two.
std::vector<PlanStretch> stretches_of(const std::vector<PlanCable>& cables);

/// `C1 C2 F1`, so many to a line.
std::string stretch_words(const std::vector<PlanCable>& cables, const PlanStretch& stretch);

/// `yard conduit, 0.6 m deep`; its kind is said where its name does not.
std::string way_words(const site::Way& way, need::Units units);

/// The ways that cables lie in, in the document's order.
std::vector<const site::Way*> ways_taken(const site::Site& site, const std::vector<PlanCable>& cables);

}  // namespace sightfall::draw
