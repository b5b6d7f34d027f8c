// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/base64.h"

#include <sodium.h>

namespace sightfall::serve {

std::string base64(std::string_view bytes) {
  constexpr int kWithPadding = sodium_base64_VARIANT_ORIGINAL;
  std::string text(sodium_base64_encoded_len(bytes.size(), kWithPadding), '\0');
  sodium_bin2base64(text.data(), text.size(), reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size(),
                    kWithPadding);
  text.pop_back();  // the end of a C string
  return text;
}

}  // namespace sightfall::serve
