// SPDX-License-Identifier: GPL-3.0-or-later
// Who and what is seen: a walking person, a car, a target, as meshes with a part for each triangle.
//   Frame    metres; x to the subject's right, y forward (the way it walks or drives), z up, the ground at z = 0
//   Model    closed skins that stand in one another (head on neck, arm in shoulder); triangles run anticlockwise as
//            seen from outside. A part with a pattern (walk/pattern.h) carries the place of each corner on it
//   Source   people and cars are invented; sizes from memory, beside each
//   Checked  subject_test.cpp: closed, outward, sizes, feet on the ground, patterns of the right size and way round
#pragma once
#include <array>
#include <string_view>
#include <vector>

#include "geom/mesh.h"
#include "unit/quantity.h"

namespace sightfall::walk {

enum class Part {
  kFace,  ///< face_at
  kSkin,
  kHair,  ///< kHairTone of the face's contrast
  kClothing,
  kTrousers,
  kShoes,
  kPaint,
  kGlass,
  kTyre,
  kRim,
  kTrim,   ///< the dark parts of a car: floor, arches, grille
  kPlate,  ///< PlatePattern
  kHeadlight,
  kTailLight,
  kTarget,  ///< TargetPattern
  kPost,    ///< what a target stands on
};

/// The name in data/materials.json of what a part is made of; where the table has no such thing, of what comes near.
std::string_view material_of(Part part);

using Corners = std::array<geom::PlanPoint, 3>;

struct SubjectMesh {
  geom::Mesh mesh;
  std::vector<Part> part;   ///< one a triangle
  std::vector<Corners> uv;  ///< of each triangle's corners on its part's pattern; zero where there is none

  void add(const geom::Mesh& shape, Part of);
  /// A flat box of a pattern: its face looks forward when `ahead`, else backward; the sides are of another part.
  void add_panel(geom::Vec3 centre, geom::Vec3 size, bool ahead, Part front, Part sides);
};

/// A person 1.75 m tall, at a moment of the stride: 0 as the right heel strikes, 0.5 as the left one does, 1 as 0.
/// The lowest point is on the ground; the head is at its full height in the middle of a step and up to kBob lower
/// between. Feet stay where they stand when the person moves kStrideLength forward a stride. The face's pattern lies
/// on the front of the head as seen from straight ahead, its middle 1.60 m high.
inline constexpr Length kStrideLength{1.30};  // from memory: a walk of about 1.3 m/s
inline constexpr Length kBob{0.045};
SubjectMesh walker(double stride);
/// How far into a stride the head is at its full height, and the face's middle where verdicts have it.
inline constexpr Length kMidStep = 0.25 * kStrideLength;

/// A hatchback of no make, 4.3 x 1.8 x 1.45 m, with a plate in front and behind, their middles 0.5 m and 0.8 m high.
SubjectMesh car();

/// A target 0.5 m square that faces forward, its middle at this height, on a post. CHECK: it clears the ground.
SubjectMesh target_board(Length above_ground);

// --- What subjects are built of.

using LoopOfPoints = std::vector<geom::Vec3>;

/// The closed skin through rings of equally many points, which run anticlockwise as seen from the last ring's end. The
/// ends are closed to their rings' middles. Between ring r and the next, triangles 2 (r n + k) and the one after lie
/// between points k and k + 1 of n; the caps follow, first ring's first.
geom::Mesh lofted(const std::vector<LoopOfPoints>& rings);

/// A tapered limb with round ends, from a to b, radii there, in this many facets around.
geom::Mesh limb(geom::Vec3 a, double radius_a, geom::Vec3 b, double radius_b, int around);

}  // namespace sightfall::walk
