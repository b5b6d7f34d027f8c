// SPDX-License-Identifier: GPL-3.0-or-later
// Hyperfocal distance, depth of field and modulation transfer as published.
#include <gtest/gtest.h>

#include <cmath>

#include "camera/focus.h"
#include "detail/delivered.h"
#include "detail/transfer.h"

namespace sightfall {
namespace {

using namespace units;
using camera::depth_of_field;
using camera::hyperfocal;
using camera::ThinLens;

constexpr Length kInch = 25.4 * mm;

// US Army course SS0507: f^2 / (N c) for 2 inches, f/8, a circle of 0.002 inch is 20.8 ft, and a lens set there is
// sharp from 10.4 ft. Its form leaves out the focal length itself, 2 inches.
TEST(HyperfocalDistance, OfTheArmyCourse) {
  const ThinLens lens{2.0 * kInch, 8};
  const Length circle = 0.002 * kInch;
  EXPECT_NEAR((hyperfocal(lens, circle) - lens.focal).in(ft), 20.833, 0.001);
  EXPECT_NEAR(depth_of_field(lens, hyperfocal(lens, circle), circle).near.in(ft), 10.4, 0.11);
}

// Hawkins and Avon, Photography (1979), as quoted on a photographers' list: the same form.
TEST(HyperfocalDistance, OfAPhotographyHandbook) {
  const Length circle = 0.021 * mm;
  EXPECT_NEAR((hyperfocal({70.0 * mm, 8}, circle) - 70.0 * mm).in(mm), 29167, 0.5);
  EXPECT_NEAR((hyperfocal({70.0 * mm, 22}, circle) - 70.0 * mm).in(mm), 10606, 0.5);
  EXPECT_NEAR(depth_of_field({70.0 * mm, 22}, hyperfocal({70.0 * mm, 22}, circle), circle).near.in(m), 5.3, 0.05);
}

// Textbook form f^2 / (N c) + f, from memory.
TEST(HyperfocalDistance, OfTheExactForm) {
  EXPECT_NEAR(hyperfocal({50.0 * mm, 8}, 0.03 * mm).in(mm), 10466.7, 0.05);
  EXPECT_NEAR(hyperfocal({4.0 * mm, 1.6}, 0.003 * mm).in(mm), 3337.3, 0.1);
  EXPECT_NEAR(hyperfocal({8.0 * mm, 1.6}, 0.003 * mm).in(mm), 13341.3, 0.1);
  EXPECT_NEAR(hyperfocal({12.0 * mm, 2}, 0.003 * mm).in(mm), 24012.0, 0.1);
  EXPECT_NEAR(hyperfocal({2.8 * mm, 2}, 0.003 * mm).in(mm), 1309.5, 0.1);
}

// Textbook form n = s (H - f) / (H + s - 2 f), F = s (H - f) / (H - s), from memory.
TEST(DepthOfField, OfTheTextbook) {
  const auto field = depth_of_field({50.0 * mm, 8}, 5000.0 * mm, 0.03 * mm);
  EXPECT_NEAR(field.near.in(mm), 3389.4, 0.5);
  EXPECT_NEAR(field.far.in(mm), 9527.4, 0.5);
}

// (2/pi)(acos v - v sqrt(1 - v^2)), the optical transfer function of a circular pupil in an encyclopaedia's article;
// the table is computed from it.
TEST(Diffraction, OfTheCircularPupil) {
  struct Row {
    double v, transfer;
  };
  for (const auto& [v, transfer] :
       {Row{0.1, 0.8729}, Row{0.2, 0.7471}, Row{0.25, 0.6850}, Row{0.3, 0.6238}, Row{0.4, 0.5046}, Row{0.5, 0.3910},
        Row{0.6, 0.2848}, Row{0.7, 0.1881}, Row{0.75, 0.1443}, Row{0.8, 0.1041}, Row{0.9, 0.0374}})
    EXPECT_NEAR(detail::diffraction_transfer(1, v), transfer, 1e-4) << v;
}

// W. J. Smith, Modern Lens Design (1997), as reported by a photomacrography forum: half the contrast is left near 40 %
// of the cut-off and a tenth near 80 %. 30 % is left at 70 % of it only behind a square pupil; a circular one: 0.585.
TEST(Diffraction, HalfAndTenthOfTheContrast) {
  EXPECT_NEAR(detail::diffraction_transfer(1, 0.40397), 0.5, 1e-4);
  EXPECT_NEAR(detail::diffraction_transfer(1, 0.80538), 0.1, 1e-4);
  EXPECT_NEAR(detail::diffraction_transfer(1, 0.585), 0.3, 2e-3);
}

// Cut-off 1 / (lambda N) in line pairs a millimetre at 550 nm, from memory. On pixels of 2 um a cut-off of 454.5 lp/mm
// is 0.909 cycles a pixel.
TEST(Diffraction, CutsOffWhereTheTextbookSays) {
  struct Row {
    double f_number, cut_off_per_mm;
  };
  constexpr double kPitchMm = 0.002;
  for (const auto& [f_number, cut_off_per_mm] : {Row{1.4, 1298.7}, Row{2, 909.1}, Row{4, 454.5}, Row{8, 227.3}}) {
    const double inverse = detail::kDaylightWavelength.in(mm)*f_number / kPitchMm, at = cut_off_per_mm * kPitchMm;
    EXPECT_GT(detail::diffraction_transfer(inverse, 0.999 * at), 0) << f_number;
    EXPECT_EQ(detail::diffraction_transfer(inverse, 1.001 * at), 0) << f_number;
  }
}

// The ideal pixel as a slanted-edge laboratory's pages use it for reference: sinc.
TEST(PixelAperture, OfTheIdealPixel) {
  EXPECT_NEAR(detail::sinc_transfer(1, 0.25), 0.90032, 1e-5);
  EXPECT_NEAR(detail::sinc_transfer(1, 0.5), 0.63662, 1e-5);
  EXPECT_NEAR(detail::sinc_transfer(1, 0.60335), 0.5, 1e-5);
}

// exp(-2 pi^2 sigma^2 f^2), from memory: frequency of half the contrast, contrast at 0.25 and 0.5 cycles a pixel.
TEST(GaussianBlur, OfTheClosedForm) {
  struct Row {
    double sigma, half_at, at_quarter;
  };
  for (const auto& [sigma, half_at, at_quarter] :
       {Row{0.3, 0.62464, 0.89491}, Row{0.5, 0.37478, 0.73460}, Row{0.75, 0.24985, 0.49960}, Row{1, 0.18739, 0.29121},
        Row{1.5, 0.12493, 0.06230}, Row{2, 0.09370, 0.00719}}) {
    EXPECT_NEAR(detail::gaussian_transfer(sigma, half_at), 0.5, 5e-5) << sigma;
    EXPECT_NEAR(detail::gaussian_transfer(sigma, 0.25), at_quarter, 1e-5) << sigma;
  }
  EXPECT_NEAR(detail::gaussian_transfer(0.5, 0.5), 0.29121, 1e-5);
}

}  // namespace
}  // namespace sightfall
