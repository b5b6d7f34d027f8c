// SPDX-License-Identifier: GPL-3.0-or-later
// A colour sensor sees one colour a pixel: the mosaic that it sees through, and the picture's three colours taken from
// between its pixels.
//   Model    Bayer's mosaic, red in the first pixel, twice as many green ones as red or blue. A surface's hue shares
//            out what a pixel would collect without one so that the four pixels of a cell collect it on the mean: the
//            verdict's electrons and noise hold there. Missing colours: bilinear, corrected by the gradient of the
//            colour that is there
//   Source   H. S. Malvar, L. He, R. Cutler, High-quality linear interpolation for demosaicing of Bayer-patterned color
//            images, ICASSP 2004, figure 2 (from memory)
//   Limits   pixels of all colours collect the same of grey; real red and blue ones collect less, and are amplified. A
//            hue has edges as sharp as a pixel. Reconstruction in cameras differs, and is their maker's secret
//   Checked  mosaic_test.cpp
#pragma once
#include <span>
#include <vector>

#include "walk/fourier.h"
#include "walk/stage.h"

namespace sightfall::walk {

/// What the pixel at a place of the mosaic sees: 0 red, 1 green, 2 blue.
constexpr size_t colour_at(int column, int row) { return static_cast<size_t>(column % 2 + row % 2); }

/// What red, green and blue pixels collect of a hue, over what they would without a mosaic.
Hue shares_of(const Hue& hue);

/// The mosaic laid over what pixels would collect without it; `hue` is by pixel, of hues().
void lay_mosaic(Plane& mean, const std::vector<uint8_t>& hue);

/// Red, green and blue in turn of each pixel of a row of what the mosaic let through. Beyond its edges the picture is
/// taken as mirrored. At least three columns and rows.
void reconstruct_row(const Plane& raw, int row, std::span<float> colours);

}  // namespace sightfall::walk
