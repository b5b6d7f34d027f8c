// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/direction.h"

#include <glib.h>

#include <algorithm>
#include <array>
#include <utility>

namespace sightfall::draw {
namespace {

constexpr const char* kLeftToRightMark = "\u200E";
constexpr gunichar kMark = 0x200E;

constexpr std::array<std::pair<gunichar, gunichar>, 5> kRightToLeft{
    {{0x0590, 0x08FF}, {0xFB1D, 0xFDFF}, {0xFE70, 0xFEFF}, {0x10800, 0x10FFF}, {0x1E800, 0x1EFFF}}};

bool runs_to_left(gunichar letter) {
  return std::any_of(kRightToLeft.begin(), kRightToLeft.end(),
                     [&](const auto& block) { return letter >= block.first && letter <= block.second; });
}

}  // namespace

std::string kept_in_order(const std::string& text) {
  if (g_utf8_validate(text.data(), static_cast<gssize>(text.size()), nullptr) == FALSE) return text;
  std::string all;
  size_t behind = std::string::npos;  // the last letter that runs the other way, until one of ours comes
  const char* const end = text.data() + text.size();
  for (const char* at = text.data(); at < end;) {
    const gunichar letter = g_utf8_get_char(at);
    const char* const next = g_utf8_next_char(at);
    const bool digit = letter < 0x80 && g_ascii_isdigit(static_cast<char>(letter));
    if (digit && behind != std::string::npos) all.insert(behind, kLeftToRightMark);
    all.append(at, next);
    if (runs_to_left(letter))
      behind = all.size();
    else if (digit || letter == kMark || g_unichar_isalpha(letter))
      behind = std::string::npos;
    at = next;
  }
  return all;
}

}  // namespace sightfall::draw
