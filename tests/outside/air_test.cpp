// SPDX-License-Identifier: GPL-3.0-or-later
// What air takes of the light, as published.
#include "light/air.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace sightfall::light {
namespace {

using namespace units;

struct Row {
  Length visibility;
  double passed;
};

// Illuminating Engineering Society, definition of Koschmieder's law: the meteorological range is where 5 % is left,
// T = 0.05^(d / V). The table for 50 m is computed from it.
TEST(Transmission, ByTheRangeOfFivePercent) {
  for (const Length visibility : {50.0 * m, 800.0 * m, 10.0 * km}) {
    EXPECT_NEAR(extinction(visibility, Band::kVisible) * visibility.si(), 2.9957, 5e-5);
    EXPECT_NEAR(transmission(extinction(visibility, Band::kVisible), visibility), 0.05, 1e-12);
  }
  for (const Row& row : {Row{50.0 * m, 0.0500}, Row{100.0 * m, 0.2236}, Row{200.0 * m, 0.4729}, Row{500.0 * m, 0.7411},
                         Row{1000.0 * m, 0.8609}, Row{2000.0 * m, 0.9278}})
    EXPECT_NEAR(transmission(extinction(row.visibility, Band::kVisible), 50.0 * m), row.passed, 5e-5);
}

// Koschmieder's own 2 %: sigma = 3.912 / V. The table for 50 m is computed from it.
TEST(Transmission, ByTheRangeOfTwoPercent) {
  EXPECT_NEAR(extinction_two_percent(1.0 * km, Band::kVisible) * 1000, 3.912, 5e-4);
  for (const Row& row : {Row{50.0 * m, 0.0200}, Row{100.0 * m, 0.1414}, Row{200.0 * m, 0.3761}, Row{500.0 * m, 0.6762},
                         Row{1000.0 * m, 0.8223}, Row{2000.0 * m, 0.9068}})
    EXPECT_NEAR(transmission(extinction_two_percent(row.visibility, Band::kVisible), 50.0 * m), row.passed, 5e-5);
}

// The two thresholds give extinctions that differ by ln 0.02 / ln 0.05 = 1.30587: which one a range means matters.
TEST(Transmission, TheTwoRangesDifferByThirtyPercent) {
  for (const Band band : kBands)
    EXPECT_NEAR(extinction_two_percent(2.0 * km, band) / extinction(2.0 * km, band), 1.30587, 5e-6);
}

// A lamp at the camera: out and back is the square, as the square of Koschmieder's 2 % rule.
TEST(Transmission, OutAndBackIsTheSquare) {
  const double passed = transmission(extinction_two_percent(200.0 * m, Band::kVisible), 50.0 * m);
  EXPECT_NEAR(passed * passed, 0.1414, 5e-5);
}

// Kim, McArthur and Korevaar, Proc. SPIE 4214 (2001): q by visibility, from memory; the table, per km at 550, 850 and
// 940 nm, is computed from it with the 2 % range.
TEST(Extinction, OfKimsLaw) {
  struct KimRow {
    double km;
    std::array<double, kBandCount> per_km;
  };
  for (const KimRow& row :
       {KimRow{0.5, {7.824, 7.824, 7.824}}, KimRow{1, {3.912, 3.147, 2.992}}, KimRow{2, {1.956, 1.468, 1.373}},
        KimRow{6, {0.652, 0.370, 0.325}}, KimRow{10, {0.391, 0.222, 0.195}}})
    for (const Band band : kBands)
      EXPECT_NEAR(extinction_two_percent(row.km * km, band) * 1000, row.per_km[static_cast<size_t>(band)], 6e-4)
          << row.km << " km, band " << static_cast<int>(band);
}

}  // namespace
}  // namespace sightfall::light
