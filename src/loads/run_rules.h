// SPDX-License-Identifier: GPL-3.0-or-later
// What a run may not be, beside what it is: its length, its sheath, the earths at its ends; and the one cable that is
// to be laid where its own may not.
//   Model    a run that is too long becomes fibre, and so does one between buildings that need not carry power; one
//   that
//            carries power stays copper, with surge protectors; a sheath that may not lie so becomes its twin for
//            outdoors. What would do as well is told beside it (LaidRun::otherwise)
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

/// Length beside the longest of its kind, without a remedy.
Bearing<Length> reach_of(const Ranged<Length>& length, const site::Cable& cable);

/// Puts what is to be said of reach, sheath, cords and surges into the run: what is held, what to do, which cable to
/// lay instead. `buildings`: the two that it leads between, when it does.
void judge_run(LaidRun& run, const std::vector<site::Cable>& cables,
               const std::optional<std::pair<std::string, std::string>>& buildings);

}  // namespace sightfall::loads
