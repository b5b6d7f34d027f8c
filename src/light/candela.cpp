// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/candela.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <utility>

#include "base/check.h"
#include "light/infrared.h"

namespace sightfall::light {
namespace {

using geom::Vec3;
using std::numbers::pi;

constexpr double kEdge = 1e-9;  // rad: a direction so near the edge of a table is in it, as rounded vectors are

void check_rising(const std::vector<double>& angles, double most) {
  CHECK_LE(0, angles.front());
  CHECK_LE(angles.back(), most);
  for (size_t i = 1; i < angles.size(); ++i) CHECK_LT(angles[i - 1], angles[i]);
}

double arc_cosine(double cosine) { return std::acos(std::clamp(cosine, -1.0, 1.0)); }

double once_round(double angle) {
  const double rest = std::fmod(angle, 2 * pi);
  return rest < 0 ? rest + 2 * pi : rest;
}

/// Where an angle lies in a rising list: between first and first + 1, at that share of the way.
struct Spot {
  size_t first = 0;
  double share = 0;
  bool inside = false;
};

Spot spot_of(double angle, const std::vector<double>& angles) {
  if (angles.size() < 2 || angle < angles.front() - kEdge || angle > angles.back() + kEdge) return {};
  const auto after = std::upper_bound(angles.begin() + 1, angles.end() - 1, angle);
  const double low = *(after - 1), high = *after;
  return {static_cast<size_t>(after - angles.begin()) - 1, std::clamp((angle - low) / (high - low), 0.0, 1.0), true};
}

/// Integral of I(g) sin g from one angle to the next, I linear between its values there.
double ring(double from, double upto, double first, double last) {
  const double slope = (last - first) / (upto - from);
  return first * std::cos(from) - last * std::cos(upto) + slope * (std::sin(upto) - std::sin(from));
}

/// cos^n sampled up to where it is next to nothing. The steps shorten outwards, where a wide beam ends steeply.
Candela cosine_lamp(LuminousFlux flux, double exponent) {
  constexpr int kSteps = 256;
  constexpr double kNothing = 1e-9;
  const double edge = exponent > 1 ? std::acos(std::pow(kNothing, 1 / exponent)) : pi / 2;
  const double axis = flux.si() * (exponent + 1) / (2 * pi);
  std::vector<double> gammas, values;
  for (int i = 0; i <= kSteps; ++i) {
    gammas.push_back(i < kSteps ? edge * std::sin(pi / 2 * i / kSteps) : edge);
    values.push_back(axis * relative_intensity(exponent, std::cos(gammas.back())));
  }
  return {std::move(gammas), {0}, std::move(values)};
}

}  // namespace

Candela::Candela(std::vector<double> gammas, std::vector<double> planes, std::vector<double> values, Goniometer angles)
    : gammas_{std::move(gammas)}, planes_{std::move(planes)}, values_{std::move(values)}, angles_{angles} {
  CHECK_LT(size_t{1}, gammas_.size());
  CHECK_LT(size_t{0}, planes_.size());
  CHECK_EQ(values_.size(), gammas_.size() * planes_.size());
  check_rising(gammas_, pi);
  check_rising(planes_, 2 * pi);
  for (const double value : values_) {
    CHECK_LE(0, value);
    CHECK_LE(value, std::numeric_limits<double>::max());
  }
}

double Candela::between(double polar, double azimuth) const {
  const Spot tilt = spot_of(polar, gammas_);
  if (!tilt.inside) return 0;
  const auto along = [&](size_t plane) {
    const size_t i = plane * gammas_.size() + tilt.first;
    return (1 - tilt.share) * values_[i] + tilt.share * values_[i + 1];
  };
  if (planes_.size() == 1) return along(0);
  const Spot turn = spot_of(azimuth, planes_);
  return turn.inside ? (1 - turn.share) * along(turn.first) + turn.share * along(turn.first + 1) : 0;
}

Intensity Candela::at(Angle gamma, Angle plane) const {
  const double g = gamma.si(), c = plane.si();
  const double right = std::sin(g) * std::cos(c), up = std::sin(g) * std::sin(c), forward = std::cos(g);
  switch (angles_) {
    case Goniometer::kCGamma:
      return Intensity{between(g, once_round(c))};
    case Goniometer::kTypeC:
      return Intensity{between(g, once_round(c - pi / 2))};
    case Goniometer::kTypeB:
      return Intensity{between(arc_cosine(-right), pi + std::atan2(up, forward))};
    case Goniometer::kTypeA:
      return Intensity{between(arc_cosine(-up), pi + std::atan2(right, forward))};
  }
  return {};
}

LuminousFlux Candela::flux() const {
  std::vector<double> of_plane(planes_.size());
  for (size_t p = 0; p < planes_.size(); ++p)
    for (size_t g = 1; g < gammas_.size(); ++g) {
      const size_t i = p * gammas_.size() + g;
      of_plane[p] += ring(gammas_[g - 1], gammas_[g], values_[i - 1], values_[i]);
    }
  if (planes_.size() == 1) return LuminousFlux{2 * pi * of_plane[0]};
  double all = 0;
  for (size_t p = 1; p < planes_.size(); ++p)
    all += (planes_[p] - planes_[p - 1]) * (of_plane[p - 1] + of_plane[p]) / 2;
  return LuminousFlux{all};
}

Intensity Candela::largest() const { return Intensity{*std::max_element(values_.begin(), values_.end())}; }

Intensity intensity_towards(const Candela& candela, Vec3 way_lamp) {
  const double level = std::hypot(way_lamp.x, way_lamp.y);
  return candela.at(Angle{std::atan2(level, way_lamp.z)}, Angle{std::atan2(-way_lamp.y, way_lamp.x)});
}

Illuminance illuminance(const Candela& candela, Vec3 place_lamp, Vec3 normal_lamp) {
  const double distance = geom::norm(place_lamp);
  CHECK_LT(0, distance);
  const double cosine = std::max(0.0, -dot(place_lamp, normal_lamp) / distance);
  return Illuminance{intensity_towards(candela, place_lamp).si() * cosine / (distance * distance)};
}

Candela plain_lamp(LuminousFlux flux, Angle beam_full_width) {
  return cosine_lamp(flux, beam_exponent(beam_full_width));
}

Candela matt_lamp(LuminousFlux flux) { return cosine_lamp(flux, 1); }

}  // namespace sightfall::light
