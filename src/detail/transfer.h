// SPDX-License-Identifier: GPL-3.0-or-later
// Modulation transfer: how much contrast of a bar pattern each cause leaves, by frequency in cycles per pixel.
//   Domain   frequency >= 0; widths in pixels; every function is 1 at frequency 0 or width 0
//   Source   diffraction of a circular pupil: J. W. Goodman, Introduction to Fourier Optics, section 6.4; disc:
//            2 J1(x)/x; pixel aperture and straight motion: sinc; docs/models.md section 6
//   Checked  transfer_test.cpp; tests/outside/optics_test.cpp (published diffraction table)
#pragma once

namespace sightfall::detail {

/// Square aperture or straight motion of a width: |sin(pi w x)/(pi w x)|.
double sinc_transfer(double width, double frequency);

/// The same with its sign: beyond a zero a pattern is seen reversed.
double sinc_with_sign(double width, double frequency);

/// Gaussian blur of standard deviation sigma: exp(-2 pi^2 sigma^2 x^2).
double gaussian_transfer(double sigma, double frequency);

/// A uniform disc of a diameter: |2 J1(pi c x)/(pi c x)|.
double disc_transfer(double diameter, double frequency);

/// The same with its sign.
double disc_with_sign(double diameter, double frequency);

/// A circular pupil; `inverse_cut_off` is lambda N / pitch, the pixels of one cycle at the cut-off.
double diffraction_transfer(double inverse_cut_off, double frequency);

}  // namespace sightfall::detail
