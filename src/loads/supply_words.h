// SPDX-License-Identifier: GPL-3.0-or-later
// The voltages that a sheet names in words, such as `12 V DC`, `12-24 V` or `24 V AC / 12 V DC`, beside a supply.
//   Limits   words in another language or unit, and tolerances beside them, are not read
//   Checked  supply_words_test.cpp
#pragma once
#include <optional>
#include <string_view>
#include <vector>

#include "site/carriers.h"

namespace sightfall::loads {

/// How far a supply's nominal voltage may lie above what a sheet names: 13.8 V of a floating battery of 12 V. Common
/// practice, no published source.
inline constexpr double kLargestRise = 0.15;

struct NamedVoltage {
  Potential low, high;
  std::optional<bool> alternating;  ///< unset: either
};

/// In their order; none where no voltage is named.
std::vector<NamedVoltage> voltages_in_words(std::string_view supply);

/// Whether a device that names it runs on that supply: within kLargestDrop below and kLargestRise above.
bool bears(const NamedVoltage& named, const site::Feed& supply);

}  // namespace sightfall::loads
