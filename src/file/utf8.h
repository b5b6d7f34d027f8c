// SPDX-License-Identifier: GPL-3.0-or-later
// Characters of UTF-8: how long one is, and whether it commands a terminal instead of showing.
#pragma once
#include <cstddef>
#include <string_view>

namespace sightfall::file {

/// Bytes of the character the text begins with; 0 when it begins with none.
size_t character_length(std::string_view text);

/// Whether the character is a control character (C0, delete, C1).
bool is_control(std::string_view character);

}  // namespace sightfall::file
