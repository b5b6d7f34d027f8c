// SPDX-License-Identifier: GPL-3.0-or-later
// The tone of delivered detail: more detail, deeper tone, on a log scale.
//   Source   the cividis table: J. R. Nunez, C. R. Anderton, R. S. Renslow, Optimizing colormaps with consideration for
//            color vision deficiency, PLoS ONE 13(7), 2018, as printed in matplotlib's _cm_listed.py (256 rows, read
//            2026); every 32nd row here, linear between. Read from its light end and mixed with paper, so that ink
//            stays legible on it
//   Checked  ramp_test.cpp: lightness falls evenly, also for a red-green blind eye; ink keeps its contrast everywhere
#pragma once
#include "draw/colour.h"
#include "unit/quantity.h"

namespace sightfall::draw {

/// The ends of the scale. Beyond them the tone stays as it is at the end.
inline constexpr PixelDensity kRampLow{10}, kRampHigh{1000};

/// Where on the ramp a density lies, 0 to 1.
double ramp_share(PixelDensity density);

/// The tone at a share of the ramp.
Colour ramp_tone(double share);

}  // namespace sightfall::draw
