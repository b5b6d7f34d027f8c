// SPDX-License-Identifier: GPL-3.0-or-later
// What holds a camera, in words: what the document says of bracket, fixings and wall, and what to ask for where it says
// nothing.
//   Checked  fixing_words_test.cpp
#pragma once
#include <string>

#include "papers/job.h"

namespace sightfall::papers {

/// `anchor, at least 300 N each in that base`
std::string fixing_words(const site::Fixing& fixing);

/// `4 of: anchor, at least 300 N each in that base; in: brick`, or what to find out, by the mount's load.
std::string held_by_words(const Job& job, const site::Mount& mount);

/// The bracket to take, with the sizes that are known.
std::string bracket_words(const CameraPart& part);

/// That the height is of the lens and not of the holes, and how one comes from one to the other.
inline constexpr const char* kHolesAside =
    "The height is of the middle of the lens above the ground at the mount, not of the holes. On a table, put bracket "
    "and camera together as they will hang, measure upright from the middle of the holes to the middle of the lens, "
    "and "
    "drill so that the lens comes to its height.";

}  // namespace sightfall::papers
