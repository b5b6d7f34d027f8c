// SPDX-License-Identifier: GPL-3.0-or-later
// How far a camera reaches on open ground, in the report, and why a need may be missed nearer than that.
//   Checked  open_ground_test.cpp
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "papers/job.h"

namespace sightfall::papers {

/// `1.2 m to 23.0 m, but not 3.0 m to 4.1 m`, or `nowhere`: the level's row of `all` like this one.
std::string reach_words(const std::vector<card::LevelReach>& all, const card::LevelReach& like, need::Units units);

/// What to say of a verdict of this camera that is not met although its worst place lies within the level's reach on
/// open ground in that light; nothing where the two agree.
std::optional<std::string> less_than_reach(const Job& job, const CameraPart& part, const need::Verdict& verdict);

/// Why levels of the first table reach farther by the card's night than by its day, by the limits at the mark where the
/// day's reach has just ended; nothing where none does by much.
std::optional<std::string> farther_by_night(const CameraPart& part, need::Units units);

/// The strip, the table, why nights reach farther than days, and why verdicts are less.
void add_reach(const Job& job, const CameraPart& part, std::vector<draw::Block>& blocks);

}  // namespace sightfall::papers
