// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/base64.h"

#include <algorithm>
#include <cstdint>

namespace sightfall::serve {

std::string base64(std::string_view bytes) {
  constexpr std::string_view kLetters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string text;
  text.reserve((bytes.size() + 2) / 3 * 4);
  for (size_t i = 0; i < bytes.size(); i += 3) {
    const size_t count = std::min<size_t>(3, bytes.size() - i);
    uint32_t bits = 0;
    for (size_t k = 0; k < 3; ++k) bits = bits << 8 | (k < count ? static_cast<uint8_t>(bytes[i + k]) : 0U);
    for (size_t k = 0; k < 4; ++k) text += k <= count ? kLetters[bits >> (18 - 6 * k) & 63U] : '=';
  }
  return text;
}

}  // namespace sightfall::serve
