// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/pole.h"

#include <array>
#include <cmath>
#include <numbers>

namespace sightfall::loads {
namespace {

using namespace units;

double cube(double x) { return x * x * x; }

double stiffness(const site::Pole& pole) {
  return stuff_of(pole.material).modulus.si() * second_moment(pole.outer, pole.wall).si();
}

}  // namespace

/// Two thirds of the yield of common structural steel and aluminium; softwood as graded.
PoleStuff stuff_of(site::PoleMaterial material) {
  constexpr std::array<PoleStuff, 3> kTable{{{210.0 * GPa, 157.0 * MPa, Quantity<Dim{.m = -3, .kg = 1}>{7850}},
                                             {70.0 * GPa, 100.0 * MPa, Quantity<Dim{.m = -3, .kg = 1}>{2700}},
                                             {9.0 * GPa, 10.0 * MPa, Quantity<Dim{.m = -3, .kg = 1}>{500}}}};
  return kTable.at(static_cast<size_t>(material));
}

SecondMoment second_moment(Length outer, Length wall) {
  const double inner = outer.si() - 2 * wall.si();
  return SecondMoment{std::numbers::pi / 64 * (std::pow(outer.si(), 4) - std::pow(inner, 4))};
}

Bend bent_by_force(const site::Pole& pole, Force force, Length height) {
  const double ei = stiffness(pole), length = height.si();
  return {Length{force.si() * cube(length) / (3 * ei)}, Angle{force.si() * length * length / (2 * ei)}};
}

Bend bent_by_wind(const site::Pole& pole, LineLoad load, Length height) {
  const double ei = stiffness(pole), l = pole.height.si(), h = height.si();
  return {Length{load.si() * h * h * (6 * l * l - 4 * l * h + h * h) / (24 * ei)},
          Angle{load.si() * h * (3 * l * l - 3 * l * h + h * h) / (6 * ei)}};
}

Pixels moved_in_picture(double focal_px, Angle slope) { return Pixels{focal_px * std::tan(slope.si())}; }

Pressure stress_at_foot(const site::Pole& pole, Moment moment) {
  return Pressure{moment.si() * pole.outer.si() / 2 / second_moment(pole.outer, pole.wall).si()};
}

Frequency own_frequency(const site::Pole& pole, Mass mass, Length height) {
  constexpr double kOwnShare = 0.24;  // 33/140 of the mass of what sways
  const double inner = pole.outer.si() - 2 * pole.wall.si(), l = pole.height.si(), h = height.si();
  const double area = std::numbers::pi / 4 * (pole.outer.si() * pole.outer.si() - inner * inner);
  const double own = stuff_of(pole.material).density.si() * area * l;
  const double beside_top = h * h * (3 * l - h) / (2 * cube(l));
  const double swaying = beside_top * beside_top * mass.si() + kOwnShare * own;
  return Frequency{std::sqrt(3 * stiffness(pole) / (cube(l) * swaying)) / (2 * std::numbers::pi)};
}

}  // namespace sightfall::loads
