// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/ranges.h"

#include <algorithm>
#include <cmath>

namespace sightfall::loads {

Ranged<double> spread(const std::vector<Ranged<double>>& inputs,
                      const std::function<double(const std::vector<double>&)>& of) {
  std::vector<double> at;
  at.reserve(inputs.size());
  for (const Ranged<double>& one : inputs) at.push_back(one.nominal);
  const double nominal = of(at);
  double down = 0, up = 0;
  for (size_t i = 0; i < inputs.size(); ++i) {
    double less = 0, more = 0;
    for (const double end : {inputs[i].low, inputs[i].high}) {
      at[i] = end;
      const double moved = std::log(of(at) / nominal);
      less = std::min(less, moved);
      more = std::max(more, moved);
    }
    at[i] = inputs[i].nominal;
    down += less * less;
    up += more * more;
  }
  return {nominal * std::exp(-std::sqrt(down)), nominal, nominal * std::exp(std::sqrt(up))};
}

Ranged<double> product(std::initializer_list<Ranged<double>> factors) {
  return spread(factors, [](const std::vector<double>& at) {
    double result = 1;
    for (const double one : at) result *= one;
    return result;
  });
}

}  // namespace sightfall::loads
