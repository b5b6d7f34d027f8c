// SPDX-License-Identifier: GPL-3.0-or-later
#include "card/laplace.h"

#include <algorithm>
#include <cmath>

namespace sightfall::card {
namespace {

using Row = std::vector<double>;

double yes(double logit) { return 1 / (1 + std::exp(-logit)); }

double log_posterior(const Row& z, const std::vector<Datum>& data, const Row& predicted) {
  double sum = 0;
  for (const double one : z) sum -= one * one / 2;
  for (size_t i = 0; i < data.size(); ++i) {
    if (data[i].kind == Datum::Kind::kValue)
      sum -= std::pow((data[i].seen - predicted[i]) / data[i].error, 2) / 2;
    else
      sum -= std::log1p(std::exp(data[i].seen > 0.5 ? -predicted[i] : predicted[i]));
  }
  return sum;
}

/// Solves and inverts a symmetric positive matrix by Gauss and Jordan: the prior's one on the diagonal is its pivot.
std::vector<Row> inverse(std::vector<Row> a) {
  const size_t n = a.size();
  std::vector<Row> b(n, Row(n, 0));
  for (size_t i = 0; i < n; ++i) b[i][i] = 1;
  for (size_t k = 0; k < n; ++k) {
    const double pivot = a[k][k];
    for (size_t j = 0; j < n; ++j) a[k][j] /= pivot, b[k][j] /= pivot;
    for (size_t i = 0; i < n; ++i) {
      const double times = i == k ? 0 : a[i][k];
      if (times == 0) continue;
      for (size_t j = 0; j < n; ++j) a[i][j] -= times * a[k][j], b[i][j] -= times * b[k][j];
    }
  }
  return b;
}

/// How the predictions move with each unknown.
std::vector<Row> slopes(const Row& z, const Predict& predict) {
  constexpr double kStep = 0.02;
  std::vector<Row> rows;
  for (size_t k = 0; k < z.size(); ++k) {
    Row up = z, down = z;
    up[k] += kStep;
    down[k] -= kStep;
    Row slope = predict(up);
    const Row below = predict(down);
    for (size_t i = 0; i < slope.size(); ++i) slope[i] = (slope[i] - below[i]) / (2 * kStep);
    rows.push_back(std::move(slope));
  }
  return rows;
}

/// The curvature and the climb at a place.
struct Hill {
  std::vector<Row> information;
  Row climb;
};

Hill hill_at(const Row& z, const std::vector<Datum>& data, const Row& predicted, const Predict& predict) {
  const std::vector<Row> slope = slopes(z, predict);
  Hill hill{std::vector<Row>(z.size(), Row(z.size(), 0)), z};
  for (size_t k = 0; k < z.size(); ++k) hill.information[k][k] = 1, hill.climb[k] = -z[k];
  for (size_t i = 0; i < data.size(); ++i) {
    const bool value = data[i].kind == Datum::Kind::kValue;
    const double p = value ? 0 : yes(predicted[i]);
    const double weight = value ? 1 / (data[i].error * data[i].error) : p * (1 - p);
    const double force = value ? (data[i].seen - predicted[i]) * weight : data[i].seen - p;
    for (size_t k = 0; k < z.size(); ++k) {
      hill.climb[k] += force * slope[k][i];
      for (size_t l = 0; l < z.size(); ++l) hill.information[k][l] += weight * slope[k][i] * slope[l][i];
    }
  }
  return hill;
}

}  // namespace

Posterior laplace(size_t unknowns, const std::vector<Datum>& data, const Predict& predict) {
  constexpr int kSteps = 25, kHalvings = 6;
  constexpr double kSettled = 1e-3;
  Row z(unknowns, 0), predicted = predict(z);
  for (int step = 0; step < kSteps; ++step) {
    const Hill hill = hill_at(z, data, predicted, predict);
    const std::vector<Row> covariance = inverse(hill.information);
    Row move(unknowns, 0);
    double longest = 0;
    for (size_t k = 0; k < unknowns; ++k) {
      for (size_t l = 0; l < unknowns; ++l) move[k] += covariance[k][l] * hill.climb[l];
      longest = std::max(longest, std::abs(move[k]));
    }
    const double height = log_posterior(z, data, predicted);
    double part = std::min(1.0, 2 / std::max(longest, 1e-9));  // beyond two deviations a line is no guide
    bool climbed = false;
    for (int halving = 0; halving < kHalvings && !climbed; ++halving) {
      Row next = z;
      for (size_t k = 0; k < unknowns; ++k) next[k] += part * move[k];
      Row there = predict(next);
      climbed = log_posterior(next, data, there) > height;
      if (climbed) z = std::move(next), predicted = std::move(there);
      part /= 2;
    }
    if (!climbed || longest < kSettled) break;
  }
  const std::vector<Row> covariance = inverse(hill_at(z, data, predicted, predict).information);
  Posterior posterior{z, Row(unknowns, 0)};
  for (size_t k = 0; k < unknowns; ++k) posterior.deviation[k] = std::sqrt(covariance[k][k]);
  return posterior;
}

}  // namespace sightfall::card
