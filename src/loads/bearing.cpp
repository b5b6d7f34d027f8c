// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/bearing.h"

#include <algorithm>
#include <array>

namespace sightfall::loads {

std::string_view in_words(Held held) {
  constexpr std::array<std::string_view, 4> kWords{"met", "marginal", "missed", "unknown"};
  return kWords.at(static_cast<size_t>(held));
}

Held worse(Held a, Held b) {
  constexpr std::array kWorstFirst{Held::kMissed, Held::kUnknown, Held::kMarginal, Held::kMet};
  return *std::find_if(kWorstFirst.begin(), kWorstFirst.end(), [&](Held one) { return one == a || one == b; });
}

}  // namespace sightfall::loads
