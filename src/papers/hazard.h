// SPDX-License-Identifier: GPL-3.0-or-later
// Where fuel, gas or solvents may be, by the words of the document.
//   Limits   what the document does not name is not known
//   Source   words and distance: common practice, no published source
//   Checked  hazard_test.cpp
#pragma once
#include <string>

#include "need/project.h"

namespace sightfall::papers {

/// Whether words tell of what burns or bursts, such as `keep sparks away` or `fuel store`.
bool tells_of_sparks(const std::string& words);

/// By what stands within kHazardNear of a point, and by the mount's own words where there is one.
bool may_burst(const site::Site& site, geom::PlanPoint at, const site::Mount* mount = nullptr);

inline constexpr Length kHazardNear{5};

/// Said once, where a paper begins.
inline constexpr const char* kHazardAside =
    "keep sparks away. Before any drill, telephone, lamp or camera comes near, ask who runs it for its hazardous zones "
    "and a permit to work; without both nothing is done, and what is fixed in a zone is made for it";

/// At each place that is concerned.
inline constexpr const char* kHazardHere =
    "keep sparks away, and first do what the beginning of this paper says of what may burn";

}  // namespace sightfall::papers
