// SPDX-License-Identifier: GPL-3.0-or-later
#include "import/shape_archive.h"

#include <cpl_vsi.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <map>
#include <memory>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

#include "base/small_letters.h"
#include "import/zip_directory.h"

namespace sightfall::import {
namespace {

constexpr std::string_view kOutline = ".shp", kProjection = ".prj";
/// Besides the outlines: where each begins, what is known of it, and where on the earth; in which letters.
constexpr std::array<std::string_view, 2> kNeeded{".shx", ".dbf"};
constexpr std::array<std::string_view, 5> kTaken{kOutline, ".shx", ".dbf", kProjection, ".cpg"};

struct CloseHandle {
  void operator()(VSILFILE* handle) const { VSIFCloseL(handle); }
};
using Handle = std::unique_ptr<VSILFILE, CloseHandle>;

/// Parts by stem and ending, both in small letters.
using Parts = std::map<std::string, std::map<std::string, ZipEntry>>;

std::string_view last_word(std::string_view name) { return name.substr(name.rfind('/') + 1); }

std::string_view stem_of(const ZipEntry& part) {
  const std::string_view word = last_word(part.name);
  return word.substr(0, word.rfind('.'));
}

/// A name in an error: short, and without what a terminal would obey.
std::string shown(std::string_view name) {
  constexpr size_t kLongest = 60;
  std::string text;
  for (const char c : name.substr(0, kLongest)) text += static_cast<unsigned char>(c) < 0x20 || c == 0x7F ? '?' : c;
  return text;
}

bool leads_out(std::string_view name) {
  const bool drive = name.size() > 1 && name[1] == ':';
  return name.starts_with('/') || drive || name == ".." || name.starts_with("../") || name.ends_with("/..") ||
         name.find("/../") != std::string_view::npos || name.find('\0') != std::string_view::npos;
}

Result<Parts> shape_parts(const std::vector<ZipEntry>& entries) {
  Parts parts;
  for (const ZipEntry& entry : entries) {
    if (leads_out(entry.name))
      return failure(ErrorKind::kField, fmt::format("found a part called \"{}\", which leads out of the archive; "
                                                    "allowed: plain names, in folders or not",
                                                    shown(entry.name)));
    const std::string_view word = last_word(entry.name);
    const size_t dot = word.rfind('.');
    const std::string ending = dot == std::string_view::npos ? "" : in_small_letters(word.substr(dot));
    // What begins with a dot was put there by the system that packed it.
    if (word.starts_with('.') || std::find(kTaken.begin(), kTaken.end(), ending) == kTaken.end()) continue;
    if (entry.encrypted)
      return failure(ErrorKind::kField,
                     fmt::format("\"{}\" is encrypted; allowed: parts that anybody can read", shown(entry.name)));
    if (!parts[in_small_letters(stem_of(entry))].emplace(ending, entry).second)
      return failure(ErrorKind::kField,
                     fmt::format("it holds more than one \"{}\"; allowed: each part once", shown(word)));
  }
  return parts;
}

std::string listed(const std::vector<ZipEntry>& entries) {
  constexpr size_t kShown = 5;
  std::string names;
  for (size_t i = 0; i < std::min(kShown, entries.size()); ++i)
    names += (i == 0 ? "" : ", ") + shown(last_word(entries[i].name));
  return entries.empty() ? "nothing" : names + (entries.size() > kShown ? ", ..." : "");
}

std::optional<Error> missing_part(const Parts& parts, const std::vector<ZipEntry>& entries, bool crs_named) {
  bool any = false;
  for (const auto& [stem, own] : parts) {
    if (!own.contains(std::string(kOutline))) continue;
    any = true;
    const std::string called = shown(stem_of(own.at(std::string(kOutline))));
    std::string missing;
    for (const std::string_view ending : kNeeded)
      if (!own.contains(std::string(ending))) missing += (missing.empty() ? "" : ", ") + called + std::string(ending);
    if (!missing.empty())
      return Error{ErrorKind::kField,
                   fmt::format("beside {}.shp is missing: {}; a Shapefile is .shp, .shx, .dbf and .prj together",
                               called, missing),
                   {}};
    if (!crs_named && !own.contains(std::string(kProjection)))
      return Error{ErrorKind::kField,
                   fmt::format("beside {}.shp is missing: {}.prj, which says the map projection of its coordinates; "
                               "add it, or name the projection (EPSG:28992)",
                               called, called),
                   {}};
  }
  if (any) return std::nullopt;
  return Error{
      ErrorKind::kField,
      fmt::format("it holds no outlines: found {}; allowed: the parts of a Shapefile, .shp, .shx, .dbf and .prj",
                  listed(entries)),
      {}};
}

Error damaged(const ZipEntry& part) {
  return {ErrorKind::kSyntax, fmt::format("\"{}\" in it is damaged", shown(part.name)), {}};
}

/// How many bytes may be unpacked, and how many of them are left.
struct Room {
  size_t whole, left;
};

/// Copies one part.
std::optional<Error> unpack_part(const std::string& archive, const ZipEntry& part, const std::string& to, Room& room) {
  const Handle from{VSIFOpenL((archive + "/" + part.name).c_str(), "rb")};
  const Handle into{VSIFOpenL(to.c_str(), "wb")};
  if (from == nullptr || into == nullptr) return damaged(part);
  std::vector<char> some(size_t{1} << 16U);
  size_t got = 0, whole = 0;
  while ((got = VSIFReadL(some.data(), 1, some.size(), from.get())) > 0) {
    whole += got;
    if (got > room.left)
      return Error{ErrorKind::kTooLarge,
                   fmt::format("its parts are larger than {} MiB when unpacked: cut it down first", room.whole >> 20U),
                   {}};
    room.left -= got;
    if (whole > part.size || VSIFWriteL(some.data(), 1, got, into.get()) != got) return damaged(part);
  }
  return whole == part.size ? std::nullopt : std::optional(damaged(part));
}

std::optional<Error> unpack_all(const std::string& file, const Parts& parts, const std::string& folder, size_t most) {
  const std::string archive = "/vsizip/{" + file + "}";
  Room room{most, most};
  for (const auto& [stem, own] : parts) {
    const auto outline = own.find(std::string(kOutline));
    if (outline == own.end()) continue;
    std::string unpacked = folder + "/";
    unpacked += stem_of(outline->second);
    for (const auto& [ending, part] : own)
      if (auto error = unpack_part(archive, part, unpacked + ending, room)) return error;
  }
  return std::nullopt;
}

}  // namespace

bool is_archive(const std::string& file) { return in_small_letters(file).ends_with(".zip"); }

Result<ShapeArchive> ShapeArchive::unpack(const std::string& file, bool crs_named, size_t most) {
  const Result<std::vector<ZipEntry>> entries = zip_directory(file);
  if (!entries) return tl::make_unexpected(entries.error());
  const Result<Parts> parts = shape_parts(*entries);
  if (!parts) return tl::make_unexpected(parts.error());
  if (const auto error = missing_part(*parts, *entries, crs_named)) return tl::make_unexpected(*error);
  static std::atomic<int> made{0};
  ShapeArchive archive(fmt::format("/vsimem/sightfall_shapes_{}", made++));
  VSIMkdir(archive.folder_.c_str(), 0700);
  if (const auto error = unpack_all(file, *parts, archive.folder_, most)) return tl::make_unexpected(*error);
  return archive;
}

ShapeArchive::ShapeArchive(ShapeArchive&& other) noexcept : folder_{std::exchange(other.folder_, {})} {}

ShapeArchive::~ShapeArchive() {
  if (!folder_.empty()) VSIRmdirRecursive(folder_.c_str());
}

}  // namespace sightfall::import
