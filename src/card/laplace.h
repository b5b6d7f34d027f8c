// SPDX-License-Identifier: GPL-3.0-or-later
// A posterior of many unknowns, each standard normal before anything was seen: its mode and its spread about it.
//   Model    Newton's steps with the information that is expected of each datum (Fisher scoring), halved until they
//            climb; the posterior is taken as Gaussian about the mode (Laplace)
//   Domain   finite predictions
//   Checked  seen_test.cpp
#pragma once
#include <functional>
#include <vector>

namespace sightfall::card {

/// A datum against what is predicted of it.
struct Datum {
  enum class Kind { kValue, kReading } kind = Kind::kValue;
  double seen = 0;   ///< the value, or 1 for yes and 0 for no
  double error = 1;  ///< standard deviation of a value; a reading's prediction is the logit of a yes
};

/// One prediction for each datum.
using Predict = std::function<std::vector<double>(const std::vector<double>& unknowns)>;

struct Posterior {
  std::vector<double> mode, deviation;
};
Posterior laplace(size_t unknowns, const std::vector<Datum>& data, const Predict& predict);

}  // namespace sightfall::card
