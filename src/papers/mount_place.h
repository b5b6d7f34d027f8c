// SPDX-License-Identifier: GPL-3.0-or-later
// Where a mount is, for somebody with a tape and a drill.
//   Model    on a wall, or near enough to hang from it by an arm: so far along that wall from its nearer end that has a
//            name of its own; away from walls, as on a pole: by two tapes from what stands there already
//   Limits   of what is cut out of a building's outline (a yard within it) no wall is told
//   Checked  mount_place_test.cpp
#pragma once
#include <string>

#include "need/project.h"
#include "site/scene.h"

namespace sightfall::papers {

inline constexpr Length kArm{0.6};  ///< a mount this near to a wall hangs on it

/// `2.5 m from shed, south-east corner, along its east wall`, or as `tape_words` tells a mark. `in_leaf`: of the
/// project's site.
std::string mount_place_words(const need::Project& project, const site::Mount& mount, const site::Scene& in_leaf);

}  // namespace sightfall::papers
