// SPDX-License-Identifier: GPL-3.0-or-later
// What burning out leaves of a subject of many tones, skin say, where bars have two.
//   Model    contrast is the standard deviation of the tones over their mean. They lie between dark and bright with the
//            density 1 - v^2, most about the middle, and are cut at full scale; the scale makes it the bars' own
//            contrast, swing over mean, where nothing is cut
//   Limits   the density was chosen of three (even, this one, a peak) by how a machine finds burnt-out faces:
//            docs/reading.md
//   Domain   swing in [0, mean], full scale >= 0
//   Checked  tones_test.cpp
#pragma once

namespace sightfall::detail {

/// Tones from mean - swing to mean + swing, cut at full scale.
double contrast_of_tones(double mean, double swing, double full_scale);

}  // namespace sightfall::detail
