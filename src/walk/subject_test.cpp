// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/subject.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <map>
#include <numbers>
#include <numeric>
#include <sstream>
#include <string>
#include <tuple>

#include "walk/pattern.h"

namespace sightfall::walk {
namespace {

using namespace units;
using geom::Vec3;

using Place = std::tuple<long long, long long, long long>;

/// Points closer than rounding are one place.
Place place(Vec3 p) {
  const auto rounded = [](double x) { return std::llround(x * 1e8); };
  return {rounded(p.x), rounded(p.y), rounded(p.z)};
}

std::array<Vec3, 3> corners(const geom::Mesh& mesh, size_t t) {
  return {mesh.vertices[mesh.triangles[t][0]], mesh.vertices[mesh.triangles[t][1]],
          mesh.vertices[mesh.triangles[t][2]]};
}

Vec3 double_area(const std::array<Vec3, 3>& c) { return cross(c[1] - c[0], c[2] - c[0]); }

/// Directed edges without exactly one twin the other way: none on closed, consistently turned skins.
int open_edges(const geom::Mesh& mesh) {
  std::map<std::pair<Place, Place>, int> edges;
  for (size_t t = 0; t < mesh.triangles.size(); ++t)
    for (size_t k = 0; k < 3; ++k) ++edges[{place(corners(mesh, t)[k]), place(corners(mesh, t)[(k + 1) % 3])}];
  return static_cast<int>(std::count_if(edges.begin(), edges.end(), [&](const auto& edge) {
    const auto twin = edges.find({edge.first.second, edge.first.first});
    return edge.second != 1 || twin == edges.end() || twin->second != 1;
  }));
}

/// The volume of each skin of a mesh, by the places its triangles share.
std::vector<double> volumes(const geom::Mesh& mesh) {
  std::map<Place, size_t> number;
  std::vector<size_t> root;
  const auto root_of = [&](size_t i) {
    while (root[i] != i) i = root[i];
    return i;
  };
  const auto number_of = [&](Vec3 p) {
    const auto [at, fresh] = number.try_emplace(place(p), root.size());
    if (fresh) root.push_back(root.size());
    return at->second;
  };
  for (size_t t = 0; t < mesh.triangles.size(); ++t) {
    const auto c = corners(mesh, t);
    for (size_t k = 1; k < 3; ++k) root[root_of(number_of(c[k]))] = root_of(number_of(c[0]));
  }
  std::map<size_t, double> sums;
  for (size_t t = 0; t < mesh.triangles.size(); ++t) {
    const auto c = corners(mesh, t);
    sums[root_of(number_of(c[0]))] += dot(c[0], cross(c[1], c[2])) / 6;
  }
  std::vector<double> result;
  for (const auto& sum : sums) result.push_back(sum.second);
  return result;
}

double volume(const geom::Mesh& mesh) {
  const auto all = volumes(mesh);
  return std::accumulate(all.begin(), all.end(), 0.0);
}

struct Extent {
  Vec3 low{1e9, 1e9, 1e9}, high{-1e9, -1e9, -1e9};
  double across() const { return high.x - low.x; }
  Vec3 middle() const { return 0.5 * (low + high); }
};

/// Of the triangles whose part and middle pass.
template <class Passes>
Extent extent_where(const SubjectMesh& subject, const Passes& passes) {
  Extent extent;
  for (size_t t = 0; t < subject.part.size(); ++t) {
    const auto c = corners(subject.mesh, t);
    if (!passes(subject.part[t], (1.0 / 3) * (c[0] + c[1] + c[2]))) continue;
    for (const Vec3& p : c) {
      extent.low = {std::min(extent.low.x, p.x), std::min(extent.low.y, p.y), std::min(extent.low.z, p.z)};
      extent.high = {std::max(extent.high.x, p.x), std::max(extent.high.y, p.y), std::max(extent.high.z, p.z)};
    }
  }
  return extent;
}

Extent extent_of(const SubjectMesh& subject) {
  return extent_where(subject, [](Part, Vec3) { return true; });
}

Extent extent_of(const SubjectMesh& subject, Part part) {
  return extent_where(subject, [&](Part of, Vec3) { return of == part; });
}

bool has_pattern(Part part) { return part == Part::kFace || part == Part::kPlate || part == Part::kTarget; }

/// The area of a part as its pattern and its size have it, and as the mesh has it square to an axis.
double pattern_area(const SubjectMesh& subject, Part part, double whole) {
  double sum = 0;
  for (size_t t = 0; t < subject.part.size(); ++t)
    if (subject.part[t] == part)
      sum += std::abs(cross(subject.uv[t][1] - subject.uv[t][0], subject.uv[t][2] - subject.uv[t][0])) / 2 * whole;
  return sum;
}
double frontal_area(const SubjectMesh& subject, Part part) {
  double sum = 0;
  for (size_t t = 0; t < subject.part.size(); ++t)
    if (subject.part[t] == part) sum += std::abs(double_area(corners(subject.mesh, t)).y) / 2;
  return sum;
}

/// What holds for every subject.
void expect_sound(const SubjectMesh& subject) {
  constexpr double kSmallest = 1e-9, kRounding = 1e-9;  // m2; of u and v
  EXPECT_EQ(open_edges(subject.mesh), 0);
  for (const double skin : volumes(subject.mesh)) EXPECT_GT(skin, 0) << "normals point outward";
  ASSERT_EQ(subject.part.size(), subject.mesh.triangles.size());
  ASSERT_EQ(subject.uv.size(), subject.mesh.triangles.size());
  EXPECT_NEAR(extent_of(subject).low.z, 0, 1e-9) << "it stands on the ground";
  for (size_t t = 0; t < subject.part.size(); ++t) {
    EXPECT_GT(norm(double_area(corners(subject.mesh, t))), kSmallest) << "triangle " << t;
    for (const auto& p : subject.uv[t]) {
      if (!has_pattern(subject.part[t])) {
        EXPECT_EQ(p, geom::PlanPoint{});
      } else {
        EXPECT_TRUE(p.x >= -kRounding && p.x <= 1 + kRounding && p.y >= -kRounding && p.y <= 1 + kRounding) << t;
      }
    }
    // From outside u runs right and v down, so that the corners turn the other way on the pattern than on the mesh.
    if (has_pattern(subject.part[t])) {
      EXPECT_LT(cross(subject.uv[t][1] - subject.uv[t][0], subject.uv[t][2] - subject.uv[t][0]), 0) << t;
    }
  }
}

// --- What they are built of

TEST(Lofted, TubeHasVolumeByPencil) {
  const LoopOfPoints square{{0, 0, 0}, {2, 0, 0}, {2, 3, 0}, {0, 3, 0}};
  LoopOfPoints above = square;
  for (Vec3& p : above) p.z = 5;
  const geom::Mesh tube = lofted({square, above});
  EXPECT_EQ(open_edges(tube), 0);
  EXPECT_NEAR(volume(tube), 30, 1e-12);
  EXPECT_EQ(tube.triangles.size(), 4U * 2 + 2 * 4);
}

TEST(LoftedDeathTest, RingsHaveEquallyManyPoints) {
  EXPECT_DEATH(lofted({{{0, 0, 0}, {1, 0, 0}, {0, 1, 0}}, {{0, 0, 1}, {1, 0, 1}}}), "broken promise");
}

TEST(Limb, IsACapsuleFromWithin) {
  constexpr double kRadius = 0.05, kLength = 0.4;
  const double exact = std::numbers::pi * kRadius * kRadius * (kLength + 4.0 / 3 * kRadius);
  for (const Vec3 axis : {Vec3{0, 0, 1}, Vec3{0, 0, -1}, Vec3{1, 0, 0}, Vec3{0.6, -0.48, 0.64}}) {
    const geom::Mesh capsule = limb({1, 2, 3}, kRadius, Vec3{1, 2, 3} + kLength * axis, kRadius, 32);
    EXPECT_EQ(open_edges(capsule), 0);
    EXPECT_LT(volume(capsule), exact);
    EXPECT_GT(volume(capsule), 0.96 * exact);
  }
}

// --- The person

TEST(Walker, IsSoundAtAnyMomentOfTheStride) {
  for (double stride = 0; stride < 1; stride += 0.0625) {
    SCOPED_TRACE(stride);
    expect_sound(walker(stride));
  }
}

TEST(Walker, HasAPersonsSizeAndVolume) {
  for (double stride = 0; stride < 1; stride += 0.05) {
    const SubjectMesh person = walker(stride);
    const Extent extent = extent_of(person);
    EXPECT_LT(extent.high.z, 1.755) << stride;
    EXPECT_GT(extent.high.z, (1.75 * m - kBob).si()) << stride;
    EXPECT_NEAR(extent.across(), 0.52, 0.08) << stride;
    // 75 kg at the density of water, and what limbs share with the trunk counted twice.
    EXPECT_NEAR(volume(person.mesh), 0.085, 0.015) << stride;
  }
  const SubjectMesh person = walker(0.25);
  EXPECT_GT(person.mesh.triangles.size(), 2000U);
  EXPECT_LT(person.mesh.triangles.size(), 6000U);
  EXPECT_NEAR(extent_of(person).high.z, 1.75, 0.005) << "upright in the middle of a step";
}

Extent shoe(const SubjectMesh& person, double side) {
  return extent_where(person, [&](Part of, Vec3 p) { return of == Part::kShoes && p.x * side > 0; });
}

TEST(Walker, HasBothFeetDownFromAHeelsStrikeToTheOthersToeOff) {
  constexpr double kMillimetres = 0.003;
  for (const double stride : {0.0, 0.03, 0.06, 0.09, 0.5, 0.55})
    for (const double side : {-1.0, 1.0}) EXPECT_LT(shoe(walker(stride), side).low.z, kMillimetres) << stride;
  EXPECT_GT(shoe(walker(0.3), -1).low.z, 0.03) << "the left foot swings past the right one";
  EXPECT_LT(shoe(walker(0.3), 1).low.z, kMillimetres);
}

TEST(Walker, KeepsAFootWhereItStands) {
  const auto heel = [](double stride) { return shoe(walker(stride), 1).low.y + stride * kStrideLength.si(); };
  for (const double stride : {0.15, 0.2, 0.25, 0.3}) EXPECT_NEAR(heel(stride), heel(0.11), 1e-3) << "flat, " << stride;
  const auto toe = [](double stride) { return shoe(walker(stride), 1).high.y + stride * kStrideLength.si(); };
  for (const double stride : {0.35, 0.4, 0.45, 0.5, 0.55}) EXPECT_NEAR(toe(stride), toe(0.3), 0.02) << stride;
}

TEST(Walker, SwingsArmsAgainstLegs) {
  const auto ahead = [](double stride, Part part, double side) {
    const SubjectMesh person = walker(stride);
    return extent_where(person, [&](Part of, Vec3 p) { return of == part && p.x * side > 0 && p.z < 1.2; }).middle().y;
  };
  EXPECT_GT(ahead(0, Part::kShoes, 1), ahead(0, Part::kShoes, -1) + 0.5) << "the right foot strikes";
  EXPECT_LT(ahead(0.5, Part::kShoes, 1), ahead(0.5, Part::kShoes, -1) - 0.5);
  EXPECT_LT(ahead(0, Part::kSkin, 1), ahead(0, Part::kSkin, -1) - 0.3) << "with the left hand ahead";
}

TEST(Walker, StridesRoundAndAlikeOnBothSides) {
  const SubjectMesh now = walker(0.2), after = walker(1.2), other = walker(0.7);
  for (size_t i = 0; i < now.mesh.vertices.size(); ++i)
    ASSERT_LT(norm(now.mesh.vertices[i] - after.mesh.vertices[i]), 1e-9);
  const Extent left = extent_of(now), right = extent_of(other);
  EXPECT_NEAR(left.high.z, right.high.z, 1e-9);
  EXPECT_NEAR(left.low.x, -right.high.x, 1e-9);
  EXPECT_NEAR(left.high.y, right.high.y, 1e-9);
}

TEST(Walker, HasNoJumpInItsStride) {
  constexpr double kStep = 0.002, kFastest = 20;  // m a stride, about three times a foot's mean over the ground
  SubjectMesh before = walker(0);
  for (double stride = kStep; stride < 1; stride += kStep) {
    SubjectMesh now = walker(stride);
    double furthest = 0;
    for (size_t i = 0; i < now.mesh.vertices.size(); ++i)
      furthest = std::max(furthest, norm(now.mesh.vertices[i] - before.mesh.vertices[i]));
    ASSERT_LT(furthest, kStep * kFastest) << stride;
    before = std::move(now);
  }
}

TEST(Walker, CarriesItsFaceInItsTrueSize) {
  const SubjectMesh person = walker(0.25);
  const double top = 1.60 + kFaceHeight.si() / 2 + (extent_of(person).high.z - 1.75);
  for (size_t t = 0; t < person.part.size(); ++t)
    if (person.part[t] == Part::kFace)
      for (size_t k = 0; k < 3; ++k) {
        const Vec3 p = corners(person.mesh, t)[k];
        EXPECT_NEAR(p.x, (0.5 - person.uv[t][k].x) * kFaceWidth.si(), 1e-9);
        EXPECT_NEAR(p.z, top - person.uv[t][k].y * kFaceHeight.si(), 1e-9);
        EXPECT_GT(p.y, 0.02);
      }
  const double whole = kFaceWidth.si() * kFaceHeight.si();
  EXPECT_NEAR(pattern_area(person, Part::kFace, whole), frontal_area(person, Part::kFace), 1e-9);
  EXPECT_GT(frontal_area(person, Part::kFace), 0.65 * whole) << "an oval of the rectangle";
  EXPECT_NEAR(extent_of(person, Part::kFace).middle().z, 1.60, 0.02);
  EXPECT_NEAR(extent_of(person, Part::kFace).middle().x, 0, 1e-9);
}

// --- The car

TEST(Car, IsSound) { expect_sound(car()); }

TEST(Car, HasItsStatedSize) {
  const Extent extent = extent_of(car());
  EXPECT_NEAR(extent.high.y - extent.low.y, 4.3, 0.005);
  EXPECT_NEAR(extent.across(), 1.8, 0.005);
  EXPECT_NEAR(extent.high.z, 1.45, 0.005);
  EXPECT_NEAR(extent.low.x, -extent.high.x, 1e-9);
}

TEST(Car, StandsOnFourWheels) {
  const SubjectMesh vehicle = car();
  for (const double side : {-1.0, 1.0})
    for (const double end : {-1.0, 1.0}) {
      const Extent tyre =
          extent_where(vehicle, [&](Part of, Vec3 p) { return of == Part::kTyre && p.x * side > 0 && p.y * end > 0; });
      EXPECT_NEAR(tyre.low.z, 0, 1e-9);
      EXPECT_NEAR(tyre.high.z, 0.64, 1e-9);
      EXPECT_NEAR(tyre.middle().y, end * 1.3, 0.05);
    }
  EXPECT_GT(extent_of(vehicle, Part::kPaint).low.z, 0.15) << "the body clears the ground";
}

TEST(Car, CarriesPlatesInTheirTrueSize) {
  const SubjectMesh vehicle = car();
  const double whole = kPlateWidth.si() * kPlateHeight.si();
  EXPECT_NEAR(frontal_area(vehicle, Part::kPlate), 2 * whole, 1e-9) << "upright, square to the road";
  EXPECT_NEAR(pattern_area(vehicle, Part::kPlate, whole), 2 * whole, 1e-9);
  const auto plate = [&](double end) {
    return extent_where(vehicle, [&](Part of, Vec3 p) { return of == Part::kPlate && p.y * end > 0; });
  };
  EXPECT_NEAR(plate(1).middle().z, 0.5, 1e-9);
  EXPECT_NEAR(plate(-1).middle().z, 0.8, 1e-9);
  EXPECT_NEAR(plate(1).high.y, extent_of(vehicle).high.y, 1e-9) << "nothing hides the front plate";
  EXPECT_NEAR(plate(-1).low.y, extent_of(vehicle).low.y, 1e-9) << "nor the back one";
}

TEST(Car, HasWindowsAndLampsWhereCarsHaveThem) {
  const SubjectMesh vehicle = car();
  EXPECT_GT(extent_of(vehicle, Part::kGlass).low.z, 0.85);
  EXPECT_LT(extent_of(vehicle, Part::kGlass).high.z, 1.45);
  EXPECT_GT(extent_of(vehicle, Part::kHeadlight).low.y, 1.8);
  EXPECT_LT(extent_of(vehicle, Part::kTailLight).high.y, -1.9);
  for (const Part lamp : {Part::kHeadlight, Part::kTailLight})
    for (const double side : {-1.0, 1.0}) {
      const Extent one = extent_where(vehicle, [&](Part of, Vec3 p) { return of == lamp && p.x * side > 0; });
      EXPECT_NEAR(one.middle().x * side, 0.70, 0.05);
      EXPECT_NEAR(one.middle().z, lamp == Part::kHeadlight ? 0.55 : 0.75, 0.10);
      EXPECT_GT(one.across(), 0.15);
    }
}

// --- The target

TEST(TargetBoard, StandsAtItsHeightAndFacesForward) {
  const SubjectMesh target = target_board(1.5 * m);
  expect_sound(target);
  const Extent board = extent_of(target, Part::kTarget);
  EXPECT_NEAR(board.middle().z, 1.5, 1e-12);
  EXPECT_NEAR(board.across(), 0.5, 1e-12);
  EXPECT_NEAR(frontal_area(target, Part::kTarget), 0.25, 1e-12);
  EXPECT_NEAR(pattern_area(target, Part::kTarget, 0.25), 0.25, 1e-12);
  EXPECT_NEAR(board.low.y, extent_of(target).high.y, 1e-12);
}

TEST(TargetBoardDeathTest, ClearsTheGround) { EXPECT_DEATH(target_board(0.2 * m), "broken promise"); }

// --- What they are made of

TEST(MaterialOf, IsInTheTable) {
  std::ifstream file(SIGHTFALL_SOURCE_DIR "/data/materials.json");
  std::stringstream text;
  text << file.rdbuf();
  for (int part = 0; part <= static_cast<int>(Part::kPost); ++part) {
    const std::string name{material_of(static_cast<Part>(part))};
    EXPECT_NE(text.str().find("\"name\": \"" + name + "\""), std::string::npos) << name;
  }
  EXPECT_EQ(material_of(Part::kFace), "skin");
  EXPECT_EQ(material_of(Part::kPlate), "plate sheeting");
  EXPECT_EQ(material_of(Part::kPaint), "car paint");
}

}  // namespace
}  // namespace sightfall::walk
