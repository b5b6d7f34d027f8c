// SPDX-License-Identifier: GPL-3.0-or-later
// Where a mark is on the ground, for somebody with a tape: how far from two points that can be found on the site.
//   Model    corners of buildings, ends of walls, thin posts, and the ground under each camera; of all pairs within a
//            tape's length, with a free way a metre above the ground, the one whose two circles cross best
//   Limits   points that share a name are left out; what moves and what the document does not have are no points
//   Checked  tape_test.cpp
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "need/project.h"
#include "site/scene.h"

namespace sightfall::papers {

struct TapePoint {
  std::string name;
  geom::PlanPoint at;
  Length body = Length{0};  ///< within which what it stands on or belongs to is not in a tape's way
};

/// A mark by two tapes. They cross on both sides of the line between the points: `side` says on which it is.
struct Taped {
  TapePoint first, second;
  Length from_first, from_second;
  std::string side;  ///< such as `north-east`
};

inline constexpr Length kTape{50};

/// What stands before a camera hangs.
std::vector<TapePoint> fixed_points(const site::Site& site);

/// With the ground under each camera of a valid project.
std::vector<TapePoint> tape_points(const need::Project& project);

/// Nothing where no two points serve.
std::optional<Taped> taped(const std::vector<TapePoint>& points, const site::Scene& scene, const site::Terrain& terrain,
                           geom::PlanPoint mark);

/// `5.9 m from shop, south-west corner, and 7.2 m from ..., north of the line between the two`, or `19 ft 4 in from
/// ...`; where no two points serve, distance and heading from the nearest one; where there is none, its place on the
/// plan.
std::string tape_words(const std::vector<TapePoint>& points, const site::Scene& scene, geom::PlanPoint mark,
                       const need::Project& project);

}  // namespace sightfall::papers
