// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/utf8.h"

namespace sightfall::file {
namespace {

unsigned byte(std::string_view text, size_t i) { return static_cast<unsigned char>(text[i]); }

/// Length by the first byte; 0 for a byte that begins no character.
size_t announced(unsigned first) {
  if (first < 0x80) return 1;
  if (first >= 0xC2 && first <= 0xDF) return 2;
  if (first >= 0xE0 && first <= 0xEF) return 3;
  if (first >= 0xF0 && first <= 0xF4) return 4;
  return 0;
}

}  // namespace

size_t character_length(std::string_view text) {
  if (text.empty()) return 0;
  const size_t length = announced(byte(text, 0));
  if (length == 0 || length > text.size()) return 0;
  for (size_t i = 1; i < length; ++i)
    if ((byte(text, i) & 0xC0) != 0x80) return 0;
  return length;
}

bool is_control(std::string_view character) {
  const unsigned first = byte(character, 0);
  if (character.size() == 1) return first < 0x20 || first == 0x7F;
  return character.size() == 2 && first == 0xC2 && byte(character, 1) < 0xA0;
}

}  // namespace sightfall::file
