// SPDX-License-Identifier: GPL-3.0-or-later
// What one fixing may carry along its axis.
//   Model    wood screw 2850 G^2 D, lag screw 1800 G^(3/2) D^(3/4), pounds an inch of thread, D in inches: allowable
//            loads of normal duration, across the grain; into end grain a screw holds three quarters at the most
//   Limits   dry sound wood, predrilled, thread in one piece of wood; edges and spacing as the maker says. Anchors and
//            clamps carry what their maker states for the base that they are in, and nothing is known otherwise
//   Source   Wood Handbook (USDA) and AWC National Design Specification, as tabled in engineering handbooks
//   Checked  fixing_test.cpp
#pragma once
#include <optional>

#include "base/ranged.h"
#include "site/carriers.h"

namespace sightfall::loads {

/// Wood of a specific gravity; the depth is of the thread.
Force wood_screw_allowable(double gravity, Length diameter, Length depth);
Force lag_screw_allowable(double gravity, Length diameter, Length depth);

/// Of one fixing: what is stated, or what follows for a screw from the wood's range. Nothing when neither is known.
std::optional<Ranged<Force>> allowable(const site::Fixing& fixing, const Ranged<double>& gravity);

/// The depth of thread that would carry the pull, or nothing for what is no screw.
std::optional<Length> depth_for(const site::Fixing& fixing, double gravity, Force pull);

}  // namespace sightfall::loads
