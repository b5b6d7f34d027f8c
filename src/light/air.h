// SPDX-License-Identifier: GPL-3.0-or-later
// What air does: it dims on the way, and gives back light of its own.
//   Model    extinction 2.996 / V for a reported meteorological range V (5 % contrast), 3.912 / V where 2 % is named;
//            Kim's law for longer waves above 500 m. Light of the sky scattered in: L_sky (1 - exp(-sigma d)). Of a
//            lamp at the camera: I0 (sigma / S) integral from r0 to d of exp(-2 sigma r) / r^2 dr
//   Source   docs/models.md section 4; beside each number in air.cpp
//   Checked  air_test.cpp; tests/outside/air_test.cpp (Koschmieder, Kim)
#pragma once
#include "light/band.h"
#include "unit/quantity.h"

namespace sightfall::light {

enum class AirName { kClear, kHaze, kFog, kRain };

/// Usual meteorological range of each kind of air.
Length visibility_of(AirName air);

/// Extinction, 1/m, of air of a reported meteorological range (5 % contrast).
double extinction(Length visibility, Band band);

/// The same where the range is told by 2 % contrast.
double extinction_two_percent(Length visibility, Band band);

/// Share of light that gets through a distance.
double transmission(double extinction, Length distance);

/// Integral of exp(-2 sigma r) / r^2 from r0 to d, 1/m; zero when d <= r0. Relative error at most kScatterError
/// where d >= 1.001 r0.
inline constexpr double kScatterError = 1e-4;
double round_trip_integral(double extinction, Length from, Length upto);

/// Radiance scattered back per radiant intensity of the lamp beside the lens, 1/(m2 sr): sigma / S times the integral.
double backscatter(double extinction, double solid_angle_sr, Length overlap, Length upto);

/// Distance at which a beam and a view of these half-angles, side by side at an offset, begin to overlap.
Length overlap_begins(Length offset, Angle beam_half, Angle view_half);

}  // namespace sightfall::light
