// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/poe.h"

#include <array>
#include <string>

#include "base/check.h"
#include "base/small_letters.h"
#include "loads/copper.h"

namespace sightfall::loads {

using namespace units;

namespace {

constexpr std::string_view kStandard = "802.3";

/// The one digit that stands behind a word; nothing of a number of more.
std::optional<int> digit_after(std::string_view plain, std::string_view word) {
  const size_t found = plain.find(word);
  if (found == std::string_view::npos) return std::nullopt;
  size_t at = found + word.size();
  while (at < plain.size() && plain[at] == ' ') ++at;
  const auto is_digit = [&](size_t i) { return i < plain.size() && plain[i] >= '0' && plain[i] <= '9'; };
  if (!is_digit(at) || is_digit(at + 1)) return std::nullopt;
  return plain[at] - '0';
}

/// Of `802.3af`, `802.3 af/at` or `PoE+` the highest class of the latest amendment.
std::optional<int> class_of_amendment(std::string_view plain) {
  const auto has = [&](const std::string& text) { return plain.find(text) != std::string_view::npos; };
  const auto names = [&](const std::string& letters) {
    const std::string standard(kStandard);
    return has(standard + letters) || has(standard + " " + letters) || (has(standard) && has("/" + letters));
  };
  if (names("bt") || has("poe++")) return digit_after(plain, "type") == 3 ? 6 : kHighestClass;
  if (names("at") || has("poe+")) return 4;
  return names("af") ? std::optional(3) : std::nullopt;
}

}  // namespace

const PowerClass& power_class(int number) {
  static constexpr std::array<PowerClass, 9> kTable{{{15.4 * W, 12.95 * W, 44.0 * V, 20.0 * ohm, 2},
                                                     {4.0 * W, 3.84 * W, 44.0 * V, 20.0 * ohm, 2},
                                                     {7.0 * W, 6.49 * W, 44.0 * V, 20.0 * ohm, 2},
                                                     {15.4 * W, 12.95 * W, 44.0 * V, 20.0 * ohm, 2},
                                                     {30.0 * W, 25.5 * W, 50.0 * V, 12.5 * ohm, 2},
                                                     {45.0 * W, 40.0 * W, 50.0 * V, 6.25 * ohm, 4},
                                                     {60.0 * W, 51.0 * W, 50.0 * V, 6.25 * ohm, 4},
                                                     {75.0 * W, 62.0 * W, 52.0 * V, 6.25 * ohm, 4},
                                                     {90.0 * W, 71.3 * W, 52.0 * V, 6.25 * ohm, 4}}};
  CHECK_LE(kLowestClass, number);
  CHECK_LE(number, kHighestClass);
  return kTable.at(static_cast<size_t>(number));
}

std::optional<int> class_for(Power drawn) {
  for (int number = 1; number <= kHighestClass; ++number)
    if (drawn <= power_class(number).device) return number;
  return std::nullopt;
}

std::optional<int> class_in_words(std::string_view supply) {
  const std::string plain = in_small_letters(supply);
  if (!names_poe(supply)) return std::nullopt;
  if (const auto stated = digit_after(plain, "class")) return stated <= kHighestClass ? stated : std::nullopt;
  return class_of_amendment(plain);
}

bool names_poe(std::string_view supply) {
  const std::string plain = in_small_letters(supply);
  return plain.find("poe") != std::string::npos || plain.find(kStandard) != std::string::npos;
}

std::optional<Power> at_port(const PowerClass& of, Resistance loop, Power drawn) {
  const auto device = fed(of.least, loop, drawn);
  if (!device) return std::nullopt;
  return drawn + device->lost;
}

}  // namespace sightfall::loads
