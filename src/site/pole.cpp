// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/pole.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace sightfall::site {
namespace {

using namespace units;

double cube(double x) { return x * x * x; }

double stiffness(const Pole& pole) {
  return stuff_of(pole.material).modulus.si() * second_moment(pole.outer, pole.wall).si();
}

}  // namespace

/// Two thirds of the yield of common structural steel and aluminium; softwood as graded.
PoleStuff stuff_of(PoleMaterial material) {
  constexpr std::array<PoleStuff, 3> kTable{{{210.0 * GPa, 157.0 * MPa, Quantity<Dim{.m = -3, .kg = 1}>{7850}},
                                             {70.0 * GPa, 100.0 * MPa, Quantity<Dim{.m = -3, .kg = 1}>{2700}},
                                             {9.0 * GPa, 10.0 * MPa, Quantity<Dim{.m = -3, .kg = 1}>{500}}}};
  return kTable.at(static_cast<size_t>(material));
}

SecondMoment second_moment(Length outer, Length wall) {
  const double inner = outer.si() - 2 * wall.si();
  return SecondMoment{std::numbers::pi / 64 * (std::pow(outer.si(), 4) - std::pow(inner, 4))};
}

Bend bent_by_force(const Pole& pole, Force force, Length force_at, Length height) {
  const double ei = stiffness(pole), a = force_at.si(), bent = std::min(height.si(), a);
  const double slope = force.si() * bent * (2 * a - bent) / (2 * ei);
  const double shift = force.si() * bent * bent * (3 * a - bent) / (6 * ei);
  return {Length{shift + slope * (height.si() - bent)}, Angle{slope}};
}

Bend bent_by_wind(const Pole& pole, LineLoad load, Length height) {
  const double ei = stiffness(pole), l = pole.height.si(), h = height.si();
  return {Length{load.si() * h * h * (6 * l * l - 4 * l * h + h * h) / (24 * ei)},
          Angle{load.si() * h * (3 * l * l - 3 * l * h + h * h) / (6 * ei)}};
}

Pixels moved_in_picture(double focal_px, Angle slope) { return Pixels{focal_px * std::tan(slope.si())}; }

Pressure stress_at_foot(const Pole& pole, Moment moment) {
  return Pressure{moment.si() * pole.outer.si() / 2 / second_moment(pole.outer, pole.wall).si()};
}

Frequency own_frequency(const Pole& pole, const std::vector<MassAt>& masses) {
  constexpr double kOwnShare = 0.24;  // 33/140 of the mass of what sways
  const double inner = pole.outer.si() - 2 * pole.wall.si(), l = pole.height.si();
  const double area = std::numbers::pi / 4 * (pole.outer.si() * pole.outer.si() - inner * inner);
  double swaying = kOwnShare * stuff_of(pole.material).density.si() * area * l;
  for (const MassAt& one : masses) {
    const double h = one.height.si(), beside_top = h * h * (3 * l - h) / (2 * cube(l));
    swaying += beside_top * beside_top * one.mass.si();
  }
  return Frequency{std::sqrt(3 * stiffness(pole) / (cube(l) * swaying)) / (2 * std::numbers::pi)};
}

}  // namespace sightfall::site
