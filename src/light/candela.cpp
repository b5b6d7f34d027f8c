// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/candela.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/check.h"
#include "light/infrared.h"

namespace sightfall::light {
namespace {

constexpr double kPi = std::numbers::pi;

bool rising(const std::vector<double>& values, double most) {
  constexpr double kSlack = 1e-9;  // rad
  return !values.empty() && values.front() >= -kSlack && values.back() <= most + kSlack &&
         std::is_sorted(values.begin(), values.end());
}

/// The interval that a value lies in and its share of it; nothing outside.
struct Between {
  size_t low = 0, high = 0;
  double share = 0;
  bool inside = false;
};

Between between(const std::vector<double>& grid, double value) {
  constexpr double kSlack = 1e-9;
  if (value < grid.front() - kSlack || value > grid.back() + kSlack) return {};
  const auto above = std::upper_bound(grid.begin(), grid.end(), value);
  const auto high = static_cast<size_t>(above - grid.begin());
  if (high == 0) return {0, 0, 0, true};
  if (high == grid.size()) return {high - 1, high - 1, 0, true};
  return {high - 1, high, (value - grid[high - 1]) / (grid[high] - grid[high - 1]), true};
}

/// Integral of a linear function over gamma, times sin gamma, in closed form.
double sine_integral(double g0, double v0, double g1, double v1) {
  if (g1 <= g0) return 0;
  const double slope = (v1 - v0) / (g1 - g0);
  return v0 * std::cos(g0) - v1 * std::cos(g1) + slope * (std::sin(g1) - std::sin(g0));
}

Candela power_of_cosine(double axis, double exponent) {
  constexpr int kSteps = 720;
  std::vector<double> gammas, values;
  for (int i = 0; i <= kSteps; ++i) {
    gammas.push_back(kPi / 2 * i / kSteps);
    values.push_back(axis * relative_intensity(exponent, std::cos(gammas.back())));
  }
  return {std::move(gammas), {0}, std::move(values)};
}

}  // namespace

Candela::Candela(std::vector<double> gammas, std::vector<double> planes, std::vector<double> values)
    : gammas_{std::move(gammas)}, planes_{std::move(planes)}, values_{std::move(values)} {
  CHECK_EQ(rising(gammas_, kPi) && rising(planes_, 2 * kPi), true);
  CHECK_EQ(values_.size(), gammas_.size() * planes_.size());
}

Intensity Candela::at(Angle gamma, Angle plane) const {
  const Between g = between(gammas_, gamma.si());
  if (!g.inside) return Intensity{0};
  const auto along = [&](size_t p) {
    const double* row = &values_[p * gammas_.size()];
    return row[g.low] + g.share * (row[g.high] - row[g.low]);
  };
  if (planes_.size() == 1) return Intensity{along(0)};
  const double turn = plane.si() - 2 * kPi * std::floor(plane.si() / (2 * kPi));
  const Between p = between(planes_, turn);
  if (!p.inside) return Intensity{0};
  return Intensity{along(p.low) + p.share * (along(p.high) - along(p.low))};
}

LuminousFlux Candela::flux() const {
  const auto of_plane = [&](size_t p) {
    double sum = 0;
    for (size_t i = 0; i + 1 < gammas_.size(); ++i)
      sum += sine_integral(gammas_[i], values_[p * gammas_.size() + i], gammas_[i + 1],
                           values_[p * gammas_.size() + i + 1]);
    return sum;
  };
  if (planes_.size() == 1) return LuminousFlux{2 * kPi * of_plane(0)};
  double sum = 0;
  for (size_t p = 0; p + 1 < planes_.size(); ++p)
    sum += (planes_[p + 1] - planes_[p]) * (of_plane(p) + of_plane(p + 1)) / 2;
  return LuminousFlux{sum};
}

Intensity Candela::largest() const { return Intensity{*std::max_element(values_.begin(), values_.end())}; }

Candela plain_lamp(LuminousFlux flux, Angle beam_full_width) {
  const double exponent = beam_exponent(beam_full_width);
  return power_of_cosine(flux.si() * (exponent + 1) / (2 * kPi), exponent);
}

Candela matt_lamp(LuminousFlux flux) { return power_of_cosine(flux.si() / kPi, 1); }

}  // namespace sightfall::light
