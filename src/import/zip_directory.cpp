// SPDX-License-Identifier: GPL-3.0-or-later
#include "import/zip_directory.h"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <optional>
#include <string_view>

#include "import/limits.h"

namespace sightfall::import {
namespace {

constexpr std::string_view kEndMark{"PK\5\6", 4}, kEntryMark{"PK\1\2", 4};
constexpr size_t kEndLength = 22, kEntryLength = 46, kLongestComment = 0xFFFF;
/// Names have room for 64 KiB each; those of maps are short.
constexpr size_t kLargestDirectory = size_t{1} << 20;
constexpr uint32_t kIn64 = 0xFFFFFFFF;

uint32_t number_at(std::string_view bytes, size_t at, size_t length) {
  uint32_t number = 0;
  for (size_t i = length; i-- > 0;) number = (number << 8U) | static_cast<unsigned char>(bytes[at + i]);
  return number;
}

std::string read_range(std::ifstream& stream, size_t from, size_t length) {
  std::string bytes(length, '\0');
  stream.clear();
  stream.seekg(static_cast<std::streamoff>(from));
  stream.read(bytes.data(), static_cast<std::streamsize>(length));
  bytes.resize(static_cast<size_t>(std::max<std::streamsize>(0, stream.gcount())));
  return bytes;
}

tl::unexpected<Error> no_archive() {
  return failure(ErrorKind::kSyntax, "it is no ZIP archive that can be read: it is damaged, or something else");
}

tl::unexpected<Error> too_many() {
  return failure(ErrorKind::kTooLarge,
                 fmt::format("it holds too many files; allowed: {}, of which the parts of a Shapefile are taken (.shp, "
                             ".shx, .dbf, .prj)",
                             kMostParts));
}

/// One entry, and how long it is in the directory; nothing where none begins.
std::optional<size_t> read_entry(std::string_view bytes, ZipEntry& entry) {
  if (!bytes.starts_with(kEntryMark) || bytes.size() < kEntryLength) return std::nullopt;
  const size_t name = number_at(bytes, 28, 2);
  const size_t length = kEntryLength + name + number_at(bytes, 30, 2) + number_at(bytes, 32, 2);
  if (length > bytes.size()) return std::nullopt;
  entry.encrypted = (number_at(bytes, 8, 2) & 1U) != 0;
  entry.size = number_at(bytes, 24, 4);
  entry.name = bytes.substr(kEntryLength, name);
  std::replace(entry.name.begin(), entry.name.end(), '\\', '/');
  while (entry.name.starts_with("./")) entry.name.erase(0, 2);
  return length;
}

Result<std::vector<ZipEntry>> entries_of(std::string_view bytes) {
  std::vector<ZipEntry> entries;
  for (size_t seen = 0; !bytes.empty(); ++seen) {
    ZipEntry entry;
    const std::optional<size_t> length = read_entry(bytes, entry);
    if (!length) return no_archive();
    if (seen == kMostParts) return too_many();
    bytes.remove_prefix(*length);
    if (!entry.name.ends_with('/')) entries.push_back(std::move(entry));
  }
  return entries;
}

}  // namespace

Result<std::vector<ZipEntry>> zip_directory(const std::string& file) {
  std::ifstream stream(file, std::ios::binary | std::ios::ate);
  const auto size = static_cast<size_t>(std::max<std::streamoff>(0, stream.tellg()));
  const size_t from = size - std::min(size, kEndLength + kLongestComment);
  const std::string tail = read_range(stream, from, size - from);
  const size_t end = tail.rfind(kEndMark);
  if (end == std::string::npos || tail.size() - end < kEndLength) return no_archive();
  const uint32_t length = number_at(tail, end + 12, 4), start = number_at(tail, end + 16, 4);
  if (length == kIn64 || start == kIn64) return too_many();
  if (start > size || length > size - start) return no_archive();
  if (length > kLargestDirectory) return too_many();
  return entries_of(read_range(stream, start, length));
}

}  // namespace sightfall::import
