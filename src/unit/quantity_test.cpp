// SPDX-License-Identifier: GPL-3.0-or-later
// Quantities: arithmetic by pencil, dimensions as types. What must not compile is in tests/nocompile.
#include "unit/quantity.h"

#include <gtest/gtest.h>

#include <concepts>
#include <type_traits>

namespace sightfall {
namespace {

using namespace sightfall::units;

// g++ 12.2 takes Q<Dim{.m = 1}> and Q<Dim{.s = 1}> for one type unless the members of Dim have default initialisers:
// the designated initialiser then leaves the others, and with them the template's identity, unset.
template <Dim D>
struct Carrier {
  static constexpr Dim kDim = D;
};
template <Dim A, Dim B>
constexpr bool same_dimension(Carrier<A>, Carrier<B>) {
  return A == B;
}
using OnlyMetre = Carrier<Dim{.m = 1}>;
using OnlySecond = Carrier<Dim{.s = 1}>;
using OnlyMass = Carrier<Dim{.kg = 1}>;
static_assert(OnlyMetre::kDim.m == 1 && OnlyMetre::kDim.s == 0 && OnlyMetre::kDim.kg == 0);
static_assert(OnlySecond::kDim.m == 0 && OnlySecond::kDim.s == 1 && OnlySecond::kDim.kg == 0);
static_assert(OnlyMass::kDim.m == 0 && OnlyMass::kDim.s == 0 && OnlyMass::kDim.kg == 1);
static_assert(!same_dimension(OnlyMetre{}, OnlySecond{}) && !same_dimension(OnlySecond{}, OnlyMass{}));
static_assert(!std::same_as<OnlyMetre, OnlySecond> && !std::same_as<OnlyMetre, OnlyMass>);

static_assert(!std::same_as<Length, Time> && !std::same_as<Angle, Pixels> && !std::same_as<Power, Mass>);
static_assert(std::same_as<decltype(m * m), Area>);
static_assert(std::same_as<decltype(m / s), Speed>);
static_assert(std::same_as<decltype(px / m), PixelDensity>);
static_assert(std::same_as<decltype(m / px), PixelPitch>);
static_assert(std::same_as<decltype(m / m), double>, "a ratio of lengths is a plain number");
static_assert(std::same_as<decltype(Hz * s), double>);
static_assert(std::same_as<decltype(bit / s), DataRate> && std::same_as<decltype(bit * Hz), DataRate>);
static_assert(!std::convertible_to<double, Length>, "a number without a unit is not a length");
static_assert(!std::convertible_to<Length, double>);
static_assert(std::is_trivially_copyable_v<Length> && sizeof(Length) == sizeof(double));

TEST(Quantity, IsReadInTheUnitAskedFor) {
  EXPECT_DOUBLE_EQ((12.0 * mm).in(m), 0.012);
  EXPECT_DOUBLE_EQ((12.0 * mm).in(um), 12000);
  EXPECT_DOUBLE_EQ((550.0 * nm).in(um), 0.55);
  EXPECT_DOUBLE_EQ((1.0 * km).in(m), 1000);
  EXPECT_DOUBLE_EQ((100.0 * ft).in(m), 30.48);
  EXPECT_DOUBLE_EQ((180.0 * deg).in(rad), 3.14159265358979323846);
  EXPECT_DOUBLE_EQ((5.0 * ms).in(s), 0.005);
  EXPECT_DOUBLE_EQ((2.0 * Mbit).in(kbit), 2000);
  EXPECT_DOUBLE_EQ((1.0 * kbit).in(byte), 125);
}

TEST(Quantity, MultipliesIntoTheRightDimension) {
  const PixelDensity density = 3840.0 * px / (12.0 * m);
  EXPECT_DOUBLE_EQ(density.in(px / m), 320);
  EXPECT_DOUBLE_EQ((density * (0.16 * m)).in(px), 51.2);
  EXPECT_DOUBLE_EQ((1.4 * m / s * (5.0 * ms)).in(mm), 7);
  EXPECT_DOUBLE_EQ(25.0 * Hz * (40.0 * ms), 1);
  EXPECT_DOUBLE_EQ((3.0 * m * (2.0 * m)).in(m2), 6);
  EXPECT_DOUBLE_EQ((4.0 * Mbit / s * (60.0 * s)).in(byte), 30e6);
}

TEST(Quantity, AddsSubtractsNegatesAndScales) {
  EXPECT_DOUBLE_EQ((2.0 * m + 30.0 * mm).in(m), 2.03);
  EXPECT_DOUBLE_EQ((2.0 * m - 30.0 * mm).in(m), 1.97);
  EXPECT_DOUBLE_EQ((-(2.0 * m)).in(m), -2);
  EXPECT_DOUBLE_EQ((2.0 * m / 4.0).in(mm), 500);
  EXPECT_EQ(2.0 * m, m * 2.0);
}

TEST(Quantity, ComparesBySize) {
  EXPECT_LT(999.0 * mm, 1.0 * m);
  EXPECT_GT(1.0 * km, 999.0 * m);
  EXPECT_EQ(Length{}, 0.0 * m);
}

}  // namespace
}  // namespace sightfall
