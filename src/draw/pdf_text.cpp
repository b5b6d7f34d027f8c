// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/pdf_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <optional>
#include <string_view>
#include <utility>

namespace sightfall::draw {
namespace {

constexpr std::string_view kCatalog = "<< /Type /Catalog", kFigure = "<< /Type /StructElem\n   /S /Figure",
                           kMarked = "/MarkInfo", kLanguage = "/Lang", kTable = "\nxref\n0 ", kStart = "startxref\n";
constexpr std::string_view kMarkedEntry = "\n   /MarkInfo << /Marked true >>";
constexpr std::string_view kCatalogEntries = "\n   /Lang (en)\n   /ViewerPreferences << /DisplayDocTitle true >>";
constexpr size_t kEntryLength = 20, kOffsetDigits = 10, kUsedAt = 17;  // in the table

std::optional<size_t> number_at(std::string_view text, size_t at) {
  size_t number = 0;
  if (at >= text.size()) return std::nullopt;
  const auto [end, fault] = std::from_chars(text.data() + at, text.data() + text.size(), number);
  return fault == std::errc{} ? std::optional{number} : std::nullopt;
}

/// The table of cross-references: where it lies, and where it says that objects do.
struct References {
  size_t table = 0, start = 0;  ///< of its word, and of the number after `startxref`
  size_t entries = 0, count = 0;
  std::vector<size_t> objects;  ///< offsets of those in use, in the file's order
};

std::optional<References> references_of(std::string_view pdf) {
  References all;
  all.table = pdf.rfind(kTable);
  all.start = pdf.rfind(kStart);
  if (all.table == std::string::npos || all.start == std::string::npos || all.table > all.start) return std::nullopt;
  ++all.table;  // past the line's end before it
  all.start += kStart.size();
  const std::optional<size_t> count = number_at(pdf, all.table + kTable.size() - 1);
  if (!count || number_at(pdf, all.start) != all.table) return std::nullopt;
  all.count = *count;
  all.entries = pdf.find('\n', all.table + kTable.size() - 1) + 1;
  if (all.count > (pdf.size() - all.entries) / kEntryLength) return std::nullopt;
  for (size_t i = 0; i < all.count; ++i) {
    const size_t at = all.entries + i * kEntryLength;
    if (pdf[at + kUsedAt] != 'n') continue;
    const std::optional<size_t> offset = number_at(pdf, at);
    if (!offset || *offset >= all.table) return std::nullopt;
    all.objects.push_back(*offset);
  }
  std::sort(all.objects.begin(), all.objects.end());
  return all;
}

/// A text to put in at an offset.
using Insertion = std::pair<size_t, std::string>;

/// Behind the first words of each object that begins with them.
std::vector<size_t> ends_of(std::string_view pdf, const References& references, std::string_view words) {
  std::vector<size_t> ends;
  for (const size_t object : references.objects) {
    const size_t begin = pdf.find('\n', object) + 1;  // past `7 0 obj`
    if (begin > 0 && pdf.substr(begin, words.size()) == words) ends.push_back(begin + words.size());
  }
  return ends;
}

/// `insertions` from the file's beginning to its end, none of them in the table.
std::string with(std::string pdf, const References& references, const std::vector<Insertion>& insertions) {
  const auto moved = [&](size_t offset) {
    size_t shift = 0;
    for (const auto& [at, text] : insertions) shift += at <= offset ? text.size() : 0;
    return offset + shift;
  };
  pdf.replace(references.start, pdf.find('\n', references.start) - references.start,
              std::to_string(moved(references.table)));
  for (size_t i = 0; i < references.count; ++i) {
    const size_t at = references.entries + i * kEntryLength;
    if (pdf[at + kUsedAt] == 'n')
      pdf.replace(at, kOffsetDigits, fmt::format("{:0{}}", moved(*number_at(pdf, at)), kOffsetDigits));
  }
  std::string whole;
  size_t told = 0;
  for (const auto& [at, text] : insertions) {
    whole.append(pdf, told, at - told).append(text);
    told = at;
  }
  return whole.append(pdf, told);
}

/// The code points of valid UTF-8, which every text of a document is.
std::u32string code_points(std::string_view utf8) {
  std::u32string points;
  while (!utf8.empty()) {
    const auto lead = static_cast<unsigned char>(utf8.front());
    const size_t length = std::min<size_t>(utf8.size(), lead < 0x80 ? 1 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4);
    char32_t point = lead & (length == 1 ? 0x7FU : 0x7FU >> length);
    for (const char byte : utf8.substr(1, length - 1)) point = point << 6 | (static_cast<unsigned char>(byte) & 0x3FU);
    points.push_back(point);
    utf8.remove_prefix(length);
  }
  return points;
}

}  // namespace

std::string pdf_string(const std::string& utf8) {
  std::string digits = "<FEFF";
  for (const char32_t point : code_points(utf8)) {
    if (point < 0x10000) {
      digits += fmt::format("{:04X}", static_cast<uint32_t>(point));
      continue;
    }
    const uint32_t rest = point - 0x10000;
    digits += fmt::format("{:04X}{:04X}", 0xD800 + (rest >> 10), 0xDC00 + (rest & 0x3FFU));
  }
  return digits + ">";
}

std::string with_entries_for_readers(const std::string& pdf, const std::vector<std::string>& figures) {
  const std::optional<References> references = references_of(pdf);
  if (!references) return pdf;
  const std::vector<size_t> catalogs = ends_of(pdf, *references, kCatalog);
  if (catalogs.size() != 1) return pdf;
  const size_t rest = std::min(pdf.find("endobj", catalogs.front()), references->table);
  const std::string_view catalog = std::string_view{pdf}.substr(catalogs.front(), rest - catalogs.front());
  if (catalog.find(kLanguage) != std::string::npos) return pdf;
  // The library writes this one itself where a single element holds all others.
  std::string entries{catalog.find(kMarked) == std::string::npos ? kMarkedEntry : ""};
  std::vector<Insertion> insertions{{catalogs.front(), entries.append(kCatalogEntries)}};
  const std::vector<size_t> drawn = ends_of(pdf, *references, kFigure);
  for (size_t i = 0; i < drawn.size() && drawn.size() == figures.size(); ++i)
    insertions.emplace_back(drawn[i], "\n   /Alt " + pdf_string(figures[i]));
  std::sort(insertions.begin(), insertions.end());
  return with(pdf, *references, insertions);
}

}  // namespace sightfall::draw
