// SPDX-License-Identifier: GPL-3.0-or-later
// Bytes as text (RFC 4648, section 4, with padding).
//   Library  libsodium, only in base64.cpp
//   Checked  answers_test.cpp: the RFC's test vectors
#pragma once
#include <string>
#include <string_view>

namespace sightfall::serve {

std::string base64(std::string_view bytes);

}  // namespace sightfall::serve
