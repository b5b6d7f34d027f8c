// SPDX-License-Identifier: GPL-3.0-or-later
// What a run may not be, beside what it is: its length, its sheath, the earths at its ends.
//   Source   TIA-568 (from memory): 100 m end to end, 90 m of it fixed; sheaths and surges: common practice, no
//            published source
//   Limits   whether buildings have earths of their own is not known; a camera's short tail is not judged (cabling.h
//            tells of it)
//   Checked  run_rules_test.cpp
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "loads/cabling.h"

namespace sightfall::loads {

inline constexpr Length kFixedPart{90};    ///< of a run of pairs, the rest is cords
inline constexpr Length kThinTail{0.005};  ///< pairs thinner than this are thin

/// Length beside the longest of its kind.
Bearing<Length> reach_of(const Ranged<Length>& length, const site::Cable& cable,
                         const std::vector<site::Cable>& cables);

/// Puts what is to be said of sheath, cords and surges among the run's flags, and into what is held.
/// `buildings`: the two that it leads between, when it does.
void judge_run(LaidRun& run, const std::vector<site::Cable>& cables,
               const std::optional<std::pair<std::string, std::string>>& buildings);

}  // namespace sightfall::loads
