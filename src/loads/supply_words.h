// SPDX-License-Identifier: GPL-3.0-or-later
// The voltages that a sheet names in words, such as `12 V DC`, `12-24 V` or `24 V AC / 12 V DC`, beside a supply.
//   Model    a device bears what its sheet names with the tolerance that stands behind it, such as `12 V DC +-25 %`;
//            without one kLargestDrop below and kLargestRise above
//   Limits   words in another language or unit are not read
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
  std::optional<bool> alternating = {};  ///< unset: either
  std::optional<double> tolerance = {};  ///< a share of it, to either side; unset: none is stated
};

/// In their order; none where no voltage is named.
std::vector<NamedVoltage> voltages_in_words(std::string_view supply);

/// Whether a device that names it runs on that supply.
bool bears(const NamedVoltage& named, const site::Feed& supply);

/// The least that it bears at its end of a run from that supply, which it bears: the low end of a range that the supply
/// lies well within, else what its tolerance, or kLargestDrop, leaves of what is named.
Potential least_borne(const NamedVoltage& named, const site::Feed& supply);

}  // namespace sightfall::loads
