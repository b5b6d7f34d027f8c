// SPDX-License-Identifier: GPL-3.0-or-later
// ZIP archives that tests put together byte by byte, so that they can lie. Nothing in them is compressed.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace sightfall::import {

struct ZipPart {
  std::string name, bytes;
  std::optional<uint32_t> says = {};  ///< its size in the directory, where that is a lie
  bool encrypted = false;
};

/// CRC-32 of ISO/IEC 3309, as archives have it.
inline uint32_t crc_32(const std::string& bytes) {
  uint32_t crc = 0xFFFFFFFFU;
  for (const char c : bytes) {
    crc ^= static_cast<unsigned char>(c);
    for (int bit = 0; bit < 8; ++bit) crc = (crc >> 1U) ^ ((crc & 1U) != 0 ? 0xEDB88320U : 0U);
  }
  return ~crc;
}

inline std::string zip_number(uint32_t number, int length) {
  std::string bytes;
  for (int i = 0; i < length; ++i) bytes += static_cast<char>((number >> (8U * static_cast<unsigned>(i))) & 0xFFU);
  return bytes;
}

inline std::string zip_of(const std::vector<ZipPart>& parts) {
  std::string body, directory;
  for (const ZipPart& part : parts) {
    const auto size = static_cast<uint32_t>(part.bytes.size());
    const std::string facts = zip_number(part.encrypted ? 1 : 0, 2) + zip_number(0, 2) + zip_number(0, 4) +
                              zip_number(crc_32(part.bytes), 4) + zip_number(size, 4) +
                              zip_number(part.says.value_or(size), 4) +
                              zip_number(static_cast<uint32_t>(part.name.size()), 2) + zip_number(0, 2);
    directory += "PK\1\2" + zip_number(20, 2) + zip_number(20, 2) + facts + std::string(10, '\0') +
                 zip_number(static_cast<uint32_t>(body.size()), 4) + part.name;
    body += "PK\3\4" + zip_number(20, 2) + facts + part.name + part.bytes;
  }
  const auto count = static_cast<uint32_t>(parts.size() & 0xFFFFU);
  return body + directory + "PK\5\6" + zip_number(0, 4) + zip_number(count, 2) + zip_number(count, 2) +
         zip_number(static_cast<uint32_t>(directory.size()), 4) + zip_number(static_cast<uint32_t>(body.size()), 4) +
         zip_number(0, 2);
}

}  // namespace sightfall::import
