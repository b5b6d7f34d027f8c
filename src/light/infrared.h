// SPDX-License-Identifier: GPL-3.0-or-later
// Infrared lamps: intensity and beam, from what a sheet says; how near they are safe.
//   Model    I(theta) = I0 cos^n theta, n = ln 0.5 / ln cos(half-angle at half power); I0 = eff W (n + 1) / 2 pi
//   Source   docs/models.md section 4. Exposure limits: IEC 62471 / ICNIRP 2013, cornea and lens, 780-3000 nm:
//            18 000 t^-0.75 W/m2 up to 1000 s, 100 W/m2 beyond (from memory: the long limit)
//   Checked  infrared_test.cpp; tests/outside/eye_safety_test.cpp
#pragma once
#include "unit/quantity.h"

namespace sightfall::light {

/// n of a beam, from the full width at half power in (0, pi).
double beam_exponent(Angle full_width);

/// Intensity at an angle from the axis over that on the axis; zero from a quarter turn on.
double relative_intensity(double exponent, double cosine);

/// On-axis intensity of a lamp of that radiant power whose beam is cos^n.
RadiantIntensity on_axis(Power radiant, double exponent);

/// Power radiated by a beam: the inverse of on_axis.
Power radiated(RadiantIntensity intensity, double exponent);

/// Exposure limit of cornea and lens for a time of looking.
Irradiance eye_limit(Time exposure);

/// Distance inside which a small lamp exceeds the limit for that time.
Length eye_distance(RadiantIntensity intensity, Time exposure);

/// Whether a dark-adapted eye that looks at the lamp sees it glow: 850 nm glows red, 940 nm does not (from memory).
bool glows(Length wavelength);

}  // namespace sightfall::light
