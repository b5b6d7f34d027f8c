// SPDX-License-Identifier: GPL-3.0-or-later
// Quantities of electricity. Charge is counted in electrons, as everywhere here (unit/quantity.h), so that an ampere is
// a number of electrons a second, which is how the SI defines it.
//   Source   BIPM, The International System of Units, 9th ed. (2019), 2.3.1: e = 1.602176634e-19 C, exact
//   Checked  electricity_test.cpp
#pragma once
#include "unit/quantity.h"

namespace sightfall {

using Charge = Quantity<Dim{.e = 1}>;
using Current = Quantity<Dim{.s = -1, .e = 1}>;
using Potential = Quantity<Dim{.s = 1, .W = 1, .e = -1}>;
using Resistance = Quantity<Dim{.s = 2, .W = 1, .e = -2}>;
using Energy = Quantity<Dim{.s = 1, .W = 1}>;
/// Of a conductor, per length.
using Resistivity = Quantity<Dim{.m = -1, .s = 2, .W = 1, .e = -2}>;

namespace units {
inline constexpr Charge coulomb{1 / 1.602176634e-19};
inline constexpr Time hour{3600}, day{86400};
inline constexpr Current A = coulomb / s;
inline constexpr Charge Ah = A * hour;
inline constexpr Potential V = W / A;
inline constexpr Resistance ohm = V / A;
inline constexpr Energy joule{1}, kWh{3.6e6};
}  // namespace units
}  // namespace sightfall
