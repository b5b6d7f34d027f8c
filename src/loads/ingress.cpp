// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/ingress.h"

#include <algorithm>
#include <string>

#include "base/small_letters.h"

namespace sightfall::loads {

std::optional<int> against_water(std::string_view ingress) {
  constexpr std::string_view kCode = "ip";
  std::string plain = in_small_letters(ingress);
  std::erase(plain, ' ');
  std::optional<int> highest;
  for (size_t at = plain.find(kCode); at != std::string::npos; at = plain.find(kCode, at + 1)) {
    const std::string digits = plain.substr(at + kCode.size(), 2);
    if (digits.size() == 2 && (digits[0] == 'x' || (digits[0] >= '0' && digits[0] <= '6')) && digits[1] >= '0' &&
        digits[1] <= '9')
      highest = std::max(highest.value_or(0), digits[1] - '0');
  }
  return highest;
}

}  // namespace sightfall::loads
