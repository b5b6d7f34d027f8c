// SPDX-License-Identifier: GPL-3.0-or-later
// Quantities of forces. Power is a base dimension here (unit/quantity.h), so a newton is a watt per metre a second, and
// a mass becomes a force only through what this file gives.
//   Source   BIPM, The International System of Units, 9th ed. (2019); standard gravity: 3rd CGPM (1901), 9.80665 N/kg
//   Checked  mechanics_test.cpp
#pragma once
#include "unit/quantity.h"

namespace sightfall {

using Force = Quantity<Dim{.m = -1, .s = 1, .W = 1}>;
using Moment = Quantity<Dim{.s = 1, .W = 1}>;
using Pressure = Quantity<Dim{.m = -3, .s = 1, .W = 1}>;
/// Mass density as what it is to a moving fluid: pressure per speed squared.
using FluidDensity = Quantity<Dim{.m = -5, .s = 3, .W = 1}>;
/// Fourth power of a length.
using SecondMoment = Quantity<Dim{.m = 4}>;
/// Of a force along a length.
using LineLoad = Quantity<Dim{.m = -2, .s = 1, .W = 1}>;

namespace units {
inline constexpr Force N{1};
inline constexpr Pressure Pa{1}, MPa{1e6}, GPa{1e9};
inline constexpr FluidDensity kg_per_m3{1};
/// What a kilogram weighs.
inline constexpr Quantity<Dim{.m = -1, .s = 1, .W = 1, .kg = -1}> standard_gravity{9.80665};
}  // namespace units
}  // namespace sightfall
