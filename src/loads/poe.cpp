// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/poe.h"

#include <array>
#include <cctype>

#include "base/check.h"
#include "loads/copper.h"

namespace sightfall::loads {

using namespace units;

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
  constexpr std::string_view kWord = "class";
  std::string plain;
  for (const char c : supply) plain += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  const size_t at = plain.find(kWord);
  if (plain.find("poe") == std::string::npos || at == std::string::npos) return std::nullopt;
  size_t digit = at + kWord.size();
  while (digit < plain.size() && plain[digit] == ' ') ++digit;
  if (digit >= plain.size() || plain[digit] < '0' || plain[digit] > '8') return std::nullopt;
  if (digit + 1 < plain.size() && std::isdigit(static_cast<unsigned char>(plain[digit + 1])) != 0) return std::nullopt;
  return plain[digit] - '0';
}

std::optional<Power> at_port(const PowerClass& of, Resistance loop, Power drawn) {
  const auto device = fed(of.least, loop, drawn);
  if (!device) return std::nullopt;
  return drawn + device->lost;
}

}  // namespace sightfall::loads
