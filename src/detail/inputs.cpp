// SPDX-License-Identifier: GPL-3.0-or-later
#include "detail/inputs.h"

#include "detail/pattern.h"

namespace sightfall::detail {

Values::Values(const std::array<double, kInputCount>& values)
    : values_{values}, reference_{reference_frequency(values_[static_cast<size_t>(Input::kThreshold)])} {}

Values Values::with(Input input, double value) const {
  Values changed = *this;
  changed.values_[static_cast<size_t>(input)] = value;
  if (input == Input::kThreshold) changed.reference_ = reference_frequency(value);
  return changed;
}

Values nominal(const RangedInputs& inputs) {
  std::array<double, kInputCount> values{};
  for (size_t i = 0; i < kInputCount; ++i) values[i] = inputs[i].nominal;
  return Values{values};
}

RangedValues::RangedValues(const RangedInputs& inputs) : inputs_{inputs}, nominal_{detail::nominal(inputs)} {
  for (size_t i = 0; i < kInputCount; ++i) {
    begin_[i] = ends_.size();
    if (inputs[i].low == inputs[i].high) continue;
    for (const double end : {inputs[i].low, inputs[i].high}) ends_.push_back(nominal_.with(static_cast<Input>(i), end));
  }
}

std::span<const Values> RangedValues::with_at_ends(Input input) const {
  const Ranged<double>& range = of(input);
  return std::span{ends_}.subspan(begin_[static_cast<size_t>(input)], range.low == range.high ? 0 : 2);
}

}  // namespace sightfall::detail
