// SPDX-License-Identifier: GPL-3.0-or-later
// How full a conduit is, and how much it bends.
//   Model    areas of the cables' circles over that of the bore
//   Limits   bends, which make pulling harder, are told beside it and change nothing of it; nor is it counted whether
//            three cables of like size jam. Of bends those in plan count: where it rises at its ends is not drawn
//   Source   most allowed: NEC chapter 9 table 1 (from memory): 53 % for one cable, 31 % for two, 40 % for more. Most
//   bends
//            between two places where it is pulled: four quarter turns, its articles on conduits (from memory)
//   Checked  conduit_test.cpp
#pragma once
#include <numbers>
#include <vector>

#include "base/ranged.h"
#include "geom/vec.h"
#include "unit/quantity.h"

namespace sightfall::loads {

/// Diameters of one kind of cable differ so much between makes: common practice, no published source.
inline constexpr Ranged<double> kOuterTolerance{0.9, 1, 1.1};

inline constexpr Angle kMostBends{2 * std::numbers::pi};

/// All turns along a line together.
Angle bends(const std::vector<geom::PlanPoint>& line);

/// Share of the bore that so many cables may take; at least one.
double most_fill(int cables);

Ranged<double> fill(const std::vector<Length>& outer, Length bore);

/// The smallest bore that would hold them even when they are thick.
Length bore_for(const std::vector<Length>& outer);

}  // namespace sightfall::loads
