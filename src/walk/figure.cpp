// SPDX-License-Identifier: GPL-3.0-or-later
// The walking person: feet that keep their place on the ground, legs that reach them, arms that swing, a head with a
// face.
//   Source   the roll of a foot, the hips' rise and lengths of limbs from memory, to a few degrees and centimetres
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <span>

#include "walk/pattern.h"
#include "walk/subject.h"

namespace sightfall::walk {
namespace {

using geom::Vec2;
using geom::Vec3;

constexpr double kRadians = std::numbers::pi / 180;

// Heights and lengths in metres, standing.
constexpr double kHip = 0.905, kThigh = 0.435, kShin = 0.40, kHipsApart = 0.088;
constexpr double kShoulder = 1.388, kUpperArm = 0.29, kForearm = 0.25, kShouldersApart = 0.172;
constexpr double kFaceMiddle = 1.60, kFaceTop = kFaceMiddle + kFaceHeight.si() / 2;
constexpr int kFacets = 14;  // around a limb

/// An angle in degrees at a moment of the stride, 0 to 1.
struct Moment {
  double at, degrees;
};

/// The joint's angle in radians, easing from each moment to the next and round to the first.
double angle_at(std::span<const Moment> moments, double stride) {
  const double now = stride - std::floor(stride);
  size_t next = 0;
  while (next < moments.size() && moments[next].at <= now) ++next;
  const Moment& from = moments[(next + moments.size() - 1) % moments.size()];
  const Moment& upto = moments[next % moments.size()];
  const double span = next == moments.size() ? 1 - from.at + upto.at : upto.at - from.at;
  const double share = (1 - std::cos(std::numbers::pi * (now - from.at) / span)) / 2;
  return std::lerp(from.degrees, upto.degrees, share) * kRadians;
}

// --- How the feet go. A leg's phase runs from its heel's strike. While on the ground a foot keeps its place there,
// rolling from heel to ball; the knee bends as the leg's length asks.

constexpr double kStanding = 0.07;                                 // m, the ankle above a flat sole
constexpr Vec2 kHeel{-0.05, -kStanding}, kBall{0.12, -kStanding};  // m from the ankle: what a foot rolls on
constexpr double kToeOff = 0.60;
constexpr std::array<Moment, 6> kToesUp{{{0, 20}, {0.10, 0}, {0.32, 0}, {kToeOff, -56}, {0.80, -8}, {0.95, 22}}};

/// The hips' height above a level ground: lowest when both feet are down.
double hips_at(double stride) {
  constexpr double kMiddle = 0.884, kSwing = 0.019;
  return kMiddle - kSwing * std::cos(4 * std::numbers::pi * stride);
}

/// Where the ankle is, ahead of the hips and above the ground, how far the foot's front is up, and how far its toes are
/// bent up from the foot.
struct Footing {
  Vec2 ankle;
  double toes_up = 0, bend = 0;
};

/// What is left for the toes to bend when the heel is up: the sole's rise before the ball takes the first degrees.
double bend_of(double toes_up) {
  constexpr double kRise = 11 * kRadians, kMost = 45 * kRadians;
  return std::clamp(-toes_up - kRise, 0.0, kMost);
}

Vec2 turned(Vec2 p, double angle) {
  return {p.x * std::cos(angle) - p.y * std::sin(angle), p.x * std::sin(angle) + p.y * std::cos(angle)};
}

Footing on_ground(double phase) {
  const double toes_up = angle_at(kToesUp, phase);
  const Vec2 pivot = toes_up > 0 ? kHeel : kBall;
  const Vec2 flat{(0.25 - phase) * kStrideLength.si(), kStanding};  // under the hips in the middle of the other's swing
  return {flat + pivot - turned(pivot, toes_up), toes_up, bend_of(toes_up)};
}

/// From toe-off to the next strike the ankle leaves and arrives as the ground goes by, and is lifted between.
Footing in_swing(double phase) {
  constexpr double kLift = 0.06, kEarly = 0.7;  // m; the foot is highest before the middle
  const double t = (phase - kToeOff) / (1 - kToeOff), back = -kStrideLength.si() * (1 - kToeOff);
  const Vec2 from = on_ground(kToeOff).ankle, upto = on_ground(0).ankle;
  const double eased = t * t * (3 - 2 * t);
  const double ahead = std::lerp(from.x, upto.x, eased) + back * t * (1 - t) * (1 - 2 * t);
  const double lift = kLift * std::pow(std::sin(std::numbers::pi * std::pow(t, kEarly)), 2);
  return {{ahead, std::lerp(from.y, upto.y, eased) + lift},
          angle_at(kToesUp, phase),
          bend_of(angle_at(kToesUp, kToeOff)) * (1 - eased)};
}

/// A direction in the plane of walking: down, turned forward by an angle.
Vec3 down(double forward) { return {0, std::sin(forward), -std::cos(forward)}; }

/// A foot in its shoe, from heel to toe, with a sole that rises before the ball of the foot. `toes_up` turns it about
/// the ankle; with the heel raised its front bends at the ball and stays on the ground.
geom::Mesh shoe(Vec3 ankle, double toes_up, double bend) {
  struct Section {
    double along, half_width, sole, top;  // from the ankle
  };
  static constexpr std::array<Section, 7> kSections{{{-0.075, 0.020, -0.056, -0.030},
                                                     {-0.062, 0.033, -0.067, 0.010},
                                                     {-0.020, 0.038, -0.070, 0.030},
                                                     {0.050, 0.040, -0.070, 0.005},
                                                     {0.120, 0.047, -0.070, -0.020},
                                                     {0.175, 0.042, -0.060, -0.030},
                                                     {0.200, 0.022, -0.046, -0.036}}};
  constexpr double kFlat = 0.8;  // of the half height: the sole is cut off there
  std::vector<LoopOfPoints> rings;
  for (const Section& section : kSections) {
    const double half_height = (section.top - section.sole) / (1 + kFlat);
    LoopOfPoints ring;
    for (int i = 0; i < kFacets; ++i) {
      const double turn = 2 * std::numbers::pi * (i + 0.5) / kFacets;
      Vec2 p{section.along, section.top - half_height * (1 - std::max(-kFlat, std::sin(turn)))};
      if (section.along > kBall.x) p = kBall + turned(p - kBall, bend);
      p = turned(p, toes_up);
      ring.push_back(ankle + Vec3{-section.half_width * std::cos(turn), p.x, p.y});
    }
    rings.push_back(ring);
  }
  return lofted(rings);
}

void add_leg(SubjectMesh& person, double side, double stride) {
  constexpr double kPelvis = 0.012, kNearlyStraight = 0.9995;  // m that a hip goes ahead with its leg
  const double phase = stride - std::floor(stride);
  const Footing foot = phase < kToeOff ? on_ground(phase) : in_swing(phase);
  const Vec3 hip{side * kHipsApart, kPelvis * std::cos(2 * std::numbers::pi * phase), hips_at(stride)};
  const Vec2 reach{foot.ankle.x - hip.y, hip.z - foot.ankle.y};
  const double length = std::min(norm(reach), kNearlyStraight * (kThigh + kShin));
  const double bend = std::acos((kThigh * kThigh + length * length - kShin * kShin) / (2 * kThigh * length));
  const Vec3 knee = hip + kThigh * down(std::atan2(reach.x, reach.y) + bend) + Vec3{-side * 0.010, 0, 0};
  const Vec3 ankle{side * (kHipsApart - 0.018), foot.ankle.x, foot.ankle.y};
  person.add(limb(hip, 0.077, knee, 0.058, kFacets), Part::kTrousers);
  person.add(limb(knee, 0.058, ankle, 0.044, kFacets), Part::kTrousers);
  person.add(shoe(ankle, foot.toes_up, foot.bend), Part::kShoes);
}

/// Arms swing against the leg of their side.
void add_arm(SubjectMesh& person, double side, double stride) {
  constexpr double kSwing = 22, kElbow = 14, kElbowSwing = 10, kLag = 0.03;
  const double swing = -std::cos(2 * std::numbers::pi * (stride - kLag));
  const double upper = (swing * kSwing + 2) * kRadians;
  const double fore = upper + (kElbow + kElbowSwing * (1 + swing)) * kRadians;
  const Vec3 shoulder{side * kShouldersApart, -0.005, kShoulder};
  const Vec3 elbow = shoulder + kUpperArm * down(upper) + Vec3{side * 0.045, 0, 0};
  const Vec3 wrist = elbow + kForearm * down(fore) + Vec3{-side * 0.005, 0, 0};
  const Vec3 fingers = wrist + 0.12 * down(fore + 0.1) + Vec3{-side * 0.01, 0, 0};
  person.add(limb(shoulder, 0.058, elbow, 0.046, kFacets), Part::kClothing);
  person.add(limb(elbow, 0.046, wrist, 0.036, kFacets), Part::kClothing);
  person.add(limb(wrist, 0.028, fingers, 0.026, kFacets), Part::kSkin);
}

/// A section of trunk or head, level at a height.
struct Section {
  double height, half_width, front, back;
};

/// A point of a section: turn 0 straight ahead, anticlockwise from above. Rounder than a box, squarer than an ellipse.
Vec3 around(const Section& section, double turn, double squareness) {
  const auto bent = [&](double x) { return std::copysign(std::pow(std::abs(x), 2 / squareness), x); };
  const double ahead = bent(std::cos(turn));
  return {-section.half_width * bent(std::sin(turn)), ahead * (ahead > 0 ? section.front : section.back),
          section.height};
}

geom::Mesh trunk() {
  constexpr int kAround = 24;
  static constexpr std::array<Section, 12> kSections{{{0.838, 0.168, 0.138, 0.120},
                                                      {0.850, 0.176, 0.146, 0.128},
                                                      {0.930, 0.174, 0.132, 0.130},
                                                      {1.040, 0.160, 0.112, 0.108},
                                                      {1.150, 0.160, 0.112, 0.104},
                                                      {1.260, 0.172, 0.116, 0.110},
                                                      {1.340, 0.178, 0.110, 0.112},
                                                      {1.400, 0.178, 0.092, 0.104},
                                                      {1.432, 0.166, 0.076, 0.090},
                                                      {1.456, 0.126, 0.062, 0.078},
                                                      {1.478, 0.080, 0.055, 0.071},
                                                      {1.498, 0.064, 0.050, 0.066}}};
  std::vector<LoopOfPoints> rings;
  for (const Section& section : kSections) {
    LoopOfPoints ring;
    for (int i = 0; i < kAround; ++i) ring.push_back(around(section, 2 * std::numbers::pi * i / kAround, 2.4));
    rings.push_back(ring);
  }
  return lofted(rings);
}

// --- The head: level sections of many points, their parts told by where they lie.

constexpr int kHeadAround = 40;
constexpr std::array<Section, 19> kHead{{{1.498, 0.020, 0.060, 0.010},    //
                                         {1.502, 0.036, 0.076, 0.040},    // chin
                                         {1.512, 0.048, 0.087, 0.058},    //
                                         {1.525, 0.056, 0.092, 0.068},    //
                                         {1.540, 0.061, 0.094, 0.074},    //
                                         {1.555, 0.065, 0.095, 0.079},    //
                                         {1.570, 0.068, 0.095, 0.084},    //
                                         {1.585, 0.070, 0.095, 0.089},    //
                                         {1.600, 0.072, 0.095, 0.093},    //
                                         {1.615, 0.074, 0.095, 0.096},    //
                                         {1.630, 0.075, 0.095, 0.098},    //
                                         {1.650, 0.076, 0.096, 0.099},    //
                                         {1.670, 0.076, 0.095, 0.099},    //
                                         {1.690, 0.076, 0.092, 0.097},    //
                                         {1.708, 0.073, 0.085, 0.092},    //
                                         {1.722, 0.067, 0.074, 0.083},    //
                                         {1.735, 0.055, 0.057, 0.067},    //
                                         {1.745, 0.036, 0.034, 0.043},    //
                                         {1.750, 0.014, 0.012, 0.016}}};  // crown

/// How far the nose stands out of the face.
double nose(double right, double height) {
  constexpr double kTip = 1.583, kBridge = 1.632, kBelow = 1.572, kOut = 0.020, kHalfWidth = 0.012;
  if (height <= kBelow || height >= kBridge) return 0;
  const double slope = height < kTip ? (height - kBelow) / (kTip - kBelow) : (kBridge - height) / (kBridge - kTip);
  return kOut * slope * std::exp(-std::pow(right / kHalfWidth, 2));
}

Vec3 on_head(const Section& section, int i) {
  constexpr double kAhead = 0.012;  // the head stands a little before the neck
  Vec3 p = around(section, 2 * std::numbers::pi * i / kHeadAround, 2.2);
  if (p.y > 0) p.y += nose(p.x, section.height);
  return p + Vec3{0, kAhead, 0};
}

geom::PlanPoint on_face(Vec3 p) { return {0.5 - p.x / kFaceWidth.si(), (kFaceTop - p.z) / kFaceHeight.si()}; }

/// The face is what looks ahead, up to the top of its pattern; hair covers the rest down to the nape.
Part head_part(const std::array<Vec3, 3>& corners) {
  constexpr double kNape = 1.535, kAhead = 0.012, kSideburn = 1.60;
  const auto all = [&](auto holds) { return std::all_of(corners.begin(), corners.end(), holds); };
  if (all([](const Vec3& p) { return p.y > kAhead + 0.02 && p.z <= kFaceTop; })) return Part::kFace;
  if (all([](const Vec3& p) { return p.y <= kAhead && p.z >= kNape; })) return Part::kHair;
  return all([](const Vec3& p) { return p.z >= kSideburn; }) ? Part::kHair : Part::kSkin;
}

void add_head(SubjectMesh& person) {
  std::vector<LoopOfPoints> rings;
  for (const Section& section : kHead) {
    LoopOfPoints ring;
    for (int i = 0; i < kHeadAround; ++i) ring.push_back(on_head(section, i));
    rings.push_back(ring);
  }
  const size_t first = person.mesh.triangles.size();
  person.add(lofted(rings), Part::kSkin);
  for (size_t t = first; t < person.mesh.triangles.size(); ++t) {
    const auto& triangle = person.mesh.triangles[t];
    const std::array<Vec3, 3> corners{person.mesh.vertices[triangle[0]], person.mesh.vertices[triangle[1]],
                                      person.mesh.vertices[triangle[2]]};
    person.part[t] = head_part(corners);
    if (person.part[t] == Part::kFace) person.uv[t] = {on_face(corners[0]), on_face(corners[1]), on_face(corners[2])};
  }
  for (const double side : {-1.0, 1.0})
    person.add(limb({side * 0.074, 0.004, 1.60}, 0.014, {side * 0.079, -0.004, 1.635}, 0.017, 10), Part::kSkin);
  person.add(limb({0, -0.012, 1.44}, 0.060, {0, 0.002, 1.56}, 0.056, kFacets), Part::kSkin);
}

}  // namespace

SubjectMesh walker(double stride) {
  SubjectMesh person;
  person.add(trunk(), Part::kClothing);
  add_head(person);
  for (const double side : {-1.0, 1.0}) add_arm(person, side, side > 0 ? stride : stride + 0.5);
  for (Vec3& p : person.mesh.vertices) p.z += hips_at(stride) - kHip;
  for (const double side : {-1.0, 1.0}) add_leg(person, side, side > 0 ? stride : stride + 0.5);
  // What the roundness of soles and their facets leave between the lowest point and the ground: a few millimetres.
  double lowest = std::numeric_limits<double>::max();
  for (const Vec3& p : person.mesh.vertices) lowest = std::min(lowest, p.z);
  for (Vec3& p : person.mesh.vertices) p.z -= lowest;
  return person;
}

}  // namespace sightfall::walk
