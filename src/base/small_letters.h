// SPDX-License-Identifier: GPL-3.0-or-later
// Text in which capitals do not count.
//   Limits   letters of ASCII; the bytes of others stay as they are
#pragma once
#include <string>
#include <string_view>

namespace sightfall {

inline std::string in_small_letters(std::string_view text) {
  std::string small(text);
  for (char& letter : small)
    if (letter >= 'A' && letter <= 'Z') letter = static_cast<char>(letter - 'A' + 'a');
  return small;
}

}  // namespace sightfall
