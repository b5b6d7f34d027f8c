// SPDX-License-Identifier: GPL-3.0-or-later
// The car: one skin lofted through sections from tail to nose, with wheels and plates on it.
//   Source   invented; sizes of the order of a family hatchback, from memory
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "walk/pattern.h"
#include "walk/subject.h"

namespace sightfall::walk {
namespace {

using geom::Vec3;

constexpr double kNose = 2.15, kTail = -2.15;  // m
constexpr double kAxleFront = 1.32, kAxleRear = -1.28, kTyreRadius = 0.32, kArchRadius = 0.375, kTyreWidth = 0.20;
constexpr double kFloor = 0.20, kSill = 0.24, kArchInside = 0.60, kWidest = 0.62, kLampHeight = 0.12;

/// What a section of the body is at its place along the car: heights and half widths.
struct Station {
  double along;
  double side;                    ///< half width at the widest
  double belt, belt_half;         ///< lower edge of the windows
  double roof, roof_half, crown;  ///< edge of the roof or bonnet, and its middle
};

// From tail to nose; the bonnet is a roof just above the belt.
constexpr std::array<Station, 17> kStations{{{-2.138, 0.60, 0.76, 0.58, 0.78, 0.50, 0.79},
                                             {-2.125, 0.72, 0.85, 0.69, 0.88, 0.60, 0.89},
                                             {-2.085, 0.82, 0.92, 0.78, 0.98, 0.66, 0.99},
                                             {-2.000, 0.87, 0.94, 0.82, 1.08, 0.67, 1.095},
                                             {-1.700, 0.895, 0.95, 0.85, 1.30, 0.64, 1.335},
                                             {-1.450, 0.90, 0.95, 0.86, 1.365, 0.625, 1.405},
                                             {-0.900, 0.90, 0.94, 0.865, 1.40, 0.62, 1.445},
                                             {-0.300, 0.90, 0.93, 0.865, 1.405, 0.615, 1.45},
                                             {0.150, 0.90, 0.92, 0.865, 1.375, 0.61, 1.42},
                                             {0.550, 0.90, 0.91, 0.86, 1.17, 0.67, 1.205},
                                             {1.000, 0.90, 0.90, 0.85, 0.935, 0.74, 0.965},
                                             {1.050, 0.90, 0.895, 0.845, 0.925, 0.72, 0.955},
                                             {1.500, 0.895, 0.85, 0.83, 0.885, 0.68, 0.91},
                                             {1.900, 0.87, 0.77, 0.79, 0.81, 0.63, 0.83},
                                             {2.050, 0.81, 0.70, 0.72, 0.735, 0.57, 0.75},
                                             {2.120, 0.70, 0.65, 0.62, 0.67, 0.50, 0.68},
                                             {2.138, 0.58, 0.59, 0.53, 0.61, 0.44, 0.62}}};
// Where glass begins and ends along the car: the sides' windows with a pillar between, the rear window, the windscreen.
constexpr double kSideRear = -1.60, kPillarRear = -0.34, kPillarFront = -0.26, kSideFront = 0.78;
constexpr double kRearFoot = -2.00, kRearTop = -1.45, kScreenTop = 0.15, kScreenFoot = 1.00;
constexpr double kHeadlightBack = 2.04, kTailLightFront = -2.09;  // the lamps reach from here round the corners

double arch_above(double along, double axle) {
  const double from_axle = std::abs(along - axle);
  return from_axle < kArchRadius ? kTyreRadius + std::sqrt(kArchRadius * kArchRadius - from_axle * from_axle) : 0;
}

/// The lower edge of the body's sides: the sill, or the arch over a wheel.
double lower_edge(double along) {
  return std::max({kSill, arch_above(along, kAxleFront), arch_above(along, kAxleRear)});
}

/// Stations, and more of them through the arches, so that these are round.
std::vector<double> places() {
  constexpr int kParts = 12;
  std::vector<double> along{kSideRear, kPillarRear, kPillarFront, kSideFront};
  for (const Station& station : kStations) along.push_back(station.along);
  for (const double axle : {kAxleFront, kAxleRear})
    for (int i = 0; i <= kParts; ++i) along.push_back(axle + kArchRadius * std::cos(std::numbers::pi * i / kParts));
  std::sort(along.begin(), along.end());
  constexpr double kApart = 0.004;  // m: closer ones are one
  along.erase(std::unique(along.begin(), along.end(), [](double a, double b) { return b - a < kApart; }), along.end());
  return along;
}

Station between(double along) {
  const auto after = std::find_if(kStations.begin() + 1, kStations.end() - 1,
                                  [&](const Station& station) { return station.along >= along; });
  const Station &a = *(after - 1), &b = *after;
  const double share = (along - a.along) / (b.along - a.along);
  const auto mix = [&](double Station::*field) { return std::lerp(a.*field, b.*field, share); };
  return {along,
          mix(&Station::side),
          mix(&Station::belt),
          mix(&Station::belt_half),
          mix(&Station::roof),
          mix(&Station::roof_half),
          mix(&Station::crown)};
}

// The points of a section, from the middle of the floor up the left side to the middle of the roof and down the right.
constexpr size_t kUp = 10;  // points from floor to roof, with both
constexpr size_t kSectionPoints = 2 * kUp - 2;
enum Strip : size_t { kFloorStrip, kArchWall, kArchTop, kLowerSide, kUpperSide, kBelt, kWindow, kGutter, kRoof };

LoopOfPoints section_at(double along) {
  const Station s = between(along);
  const double edge = lower_edge(along);
  // The height of the widest place: below the lamps at nose and tail, and above an arch just above that.
  const double widest = std::max(std::min(kWidest, s.belt - kLampHeight), edge + 0.01);
  const double shoulder = std::max(s.belt, widest + 0.01);
  const auto window = [&](double share) {
    return std::array{std::lerp(s.belt_half, s.roof_half, share),
                      std::lerp(shoulder, std::max(s.roof, shoulder + 0.03), share)};
  };
  const auto low = window(0.08), high = window(0.92), top = window(1);
  const std::array<std::array<double, 2>, kUp> half{{{0, kFloor},
                                                     {kArchInside, kFloor},
                                                     {kArchInside, edge},
                                                     {s.side - 0.015, edge},
                                                     {s.side, widest},
                                                     {s.belt_half, shoulder},
                                                     low,
                                                     high,
                                                     top,
                                                     {0, std::max(s.crown, top[1] + 0.01)}}};
  LoopOfPoints ring;
  for (size_t i = 0; i < kUp; ++i) ring.push_back({-half[i][0], along, half[i][1]});
  for (size_t i = kUp - 2; i > 0; --i) ring.push_back({half[i][0], along, half[i][1]});
  return ring;
}

/// The windows along the sides between pillars, the windscreen and the rear window across, the lamps at the corners.
Part body_part(size_t strip, double from, double upto) {
  const double middle = (from + upto) / 2;
  const auto within = [&](double back, double front) { return middle > back && middle < front; };
  if (strip <= kArchTop) return Part::kTrim;
  if (strip == kWindow && (within(kSideRear, kPillarRear) || within(kPillarFront, kSideFront))) return Part::kGlass;
  if (strip == kRoof && (within(kRearFoot, kRearTop) || within(kScreenTop, kScreenFoot))) return Part::kGlass;
  if (strip == kUpperSide && middle > kHeadlightBack) return Part::kHeadlight;
  if (strip == kUpperSide && middle < kTailLightFront) return Part::kTailLight;
  return Part::kPaint;
}

void add_body(SubjectMesh& car) {
  const std::vector<double> along = places();
  std::vector<LoopOfPoints> rings(along.size());
  std::transform(along.begin(), along.end(), rings.begin(), section_at);
  car.add(lofted(rings), Part::kPaint);
  for (size_t ring = 0; ring + 1 < along.size(); ++ring)
    for (size_t k = 0; k < kSectionPoints; ++k) {
      const size_t strip = k < kUp - 1 ? k : kSectionPoints - 1 - k;
      const Part part = body_part(strip, along[ring], along[ring + 1]);
      const size_t triangle = 2 * (ring * kSectionPoints + k);
      car.part[triangle] = car.part[triangle + 1] = part;
    }
}

/// A wheel with its axis across the car; `radii` at each place across, from left to right.
geom::Mesh turned(Vec3 centre, const std::vector<std::array<double, 2>>& profile) {
  constexpr int kAround = 32;
  std::vector<LoopOfPoints> rings;
  for (const auto& [across, radius] : profile) {
    LoopOfPoints ring;
    for (int i = 0; i < kAround; ++i) {
      const double turn = 2 * std::numbers::pi * i / kAround;
      ring.push_back(centre + Vec3{across, radius * std::cos(turn), radius * std::sin(turn)});
    }
    rings.push_back(ring);
  }
  return lofted(rings);
}

void add_wheel(SubjectMesh& car, double side, double axle) {
  constexpr double kHalf = kTyreWidth / 2, kShoulder = 0.02, kRim = 0.205, kProud = 0.004;
  const Vec3 centre{side * (0.89 - kHalf), axle, kTyreRadius};
  car.add(turned(centre, {{-kHalf, kTyreRadius - kShoulder},
                          {-kHalf + kShoulder, kTyreRadius},
                          {kHalf - kShoulder, kTyreRadius},
                          {kHalf, kTyreRadius - kShoulder}}),
          Part::kTyre);
  car.add(
      turned(centre,
             {{-kHalf - kProud, kRim - kShoulder}, {-kHalf, kRim}, {kHalf, kRim}, {kHalf + kProud, kRim - kShoulder}}),
      Part::kRim);
}

void add_front_and_back(SubjectMesh& car) {
  constexpr double kPlateThickness = 0.02;
  const Vec3 plate{kPlateWidth.si(), kPlateThickness, kPlateHeight.si()};
  car.add_panel({0, kNose - kPlateThickness / 2, 0.50}, plate, true, Part::kPlate, Part::kTrim);
  car.add_panel({0, kTail + kPlateThickness / 2, 0.80}, plate, false, Part::kPlate, Part::kTrim);
  car.add(geom::box({0, kNose - 0.065, 0.29}, {0.96, 0.12, 0.10}, 0), Part::kTrim);
}

}  // namespace

SubjectMesh car() {
  SubjectMesh car;
  add_body(car);
  for (const double side : {-1.0, 1.0})
    for (const double axle : {kAxleFront, kAxleRear}) add_wheel(car, side, axle);
  add_front_and_back(car);
  return car;
}

}  // namespace sightfall::walk
