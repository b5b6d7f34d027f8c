// SPDX-License-Identifier: GPL-3.0-or-later
#include "detail/limit.h"

#include <array>

namespace sightfall::detail {

std::string_view in_words(Limit limit) {
  constexpr std::array<std::string_view, 18> kWords{
      "none",     "pixels", "lens", "focus",       "motion", "shake",     "noise",  "clipping",    "glare",
      "contrast", "air",    "veil", "compression", "angle",  "occlusion", "colour", "out of view", "mask"};
  return kWords.at(static_cast<size_t>(limit));
}

}  // namespace sightfall::detail
