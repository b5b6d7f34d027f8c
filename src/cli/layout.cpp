// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/layout.h"

#include <algorithm>

namespace sightfall::cli {
namespace {

constexpr size_t kGap = 2;

std::string blanks(size_t count) {
  std::string text(count, ' ');
  return text;
}

std::string without_trailing_blanks(const std::string& line) { return line.substr(0, line.find_last_not_of(' ') + 1); }

std::vector<size_t> widths_of(const std::vector<Row>& rows) {
  std::vector<size_t> widths;
  for (const Row& row : rows) {
    widths.resize(std::max(widths.size(), row.size()));
    for (size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], columns_of(row[i]));
  }
  return widths;
}

/// Narrows the first column until the table fits, as far as it can still be read.
void fit(std::vector<size_t>& widths, size_t width_allowed) {
  constexpr size_t kNarrowest = 16;
  size_t all = 0;
  for (const size_t width : widths) all += width + kGap;
  const size_t allowed = width_allowed + kGap;
  if (widths.empty() || all <= allowed) return;
  const size_t excess = std::min(all - allowed, widths[0]);
  widths[0] = std::max(widths[0] - excess, std::min(kNarrowest, widths[0]));
}

std::string cell(const std::string& text, size_t width, bool right) {
  const std::string fill = blanks(width - std::min(width, columns_of(text)));
  return right ? fill + text : text + fill;
}

}  // namespace

size_t columns_of(std::string_view text) {
  constexpr unsigned kContinuation = 0x80, kContinuationMask = 0xC0;
  return static_cast<size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & kContinuationMask) != kContinuation;
  }));
}

std::vector<std::string> broken(std::string_view text, size_t width) {
  std::vector<std::string> lines{""};
  for (size_t from = 0; from < text.size();) {
    const size_t end = std::min(text.find_first_of(" \n", from), text.size());
    const std::string_view word = text.substr(from, end - from);
    const bool room = lines.back().empty() || columns_of(lines.back()) + 1 + columns_of(word) <= width;
    if (!word.empty() && !room) lines.emplace_back();
    if (!word.empty()) lines.back() += (lines.back().empty() ? "" : " ") + std::string(word);
    if (end < text.size() && text[end] == '\n') lines.emplace_back();
    from = end + 1;
  }
  return lines;
}

std::string wrapped(std::string_view text, size_t indent, size_t width) {
  std::string result;
  for (const std::string& line : broken(text, width - std::min(width, indent))) result += blanks(indent) + line + "\n";
  return result;
}

std::vector<std::string> table_rows(const std::vector<Row>& rows, const std::vector<size_t>& right, size_t width) {
  std::vector<size_t> widths = widths_of(rows);
  fit(widths, width);
  std::vector<std::string> result;
  for (const Row& row : rows) {
    const std::vector<std::string> first = broken(row.front(), widths.front());
    const auto flush_right = [&](size_t i) { return std::find(right.begin(), right.end(), i) != right.end(); };
    std::string line = cell(first.front(), widths[0], flush_right(0));
    for (size_t i = 1; i < row.size(); ++i) line += blanks(kGap) + cell(row[i], widths[i], flush_right(i));
    std::string& text = result.emplace_back(without_trailing_blanks(line) + "\n");
    for (size_t i = 1; i < first.size(); ++i) text += first[i] + "\n";
  }
  return result;
}

std::string table(const std::vector<Row>& rows, const std::vector<size_t>& right) {
  std::string text;
  for (const std::string& row : table_rows(rows, right)) text += row;
  return text;
}

std::string described_list(const std::vector<Row>& rows, size_t width) {
  constexpr size_t kIndent = 2, kLeastMeaning = 24;
  const size_t terms = widths_of(rows).front();
  const size_t behind = kIndent + terms + kGap;
  const size_t meanings = std::max(width, behind + kLeastMeaning) - behind;
  std::string text;
  for (const Row& row : rows) {
    const std::vector<std::string> lines = broken(row.at(1), meanings);
    for (size_t i = 0; i < lines.size(); ++i)
      text +=
          without_trailing_blanks(blanks(kIndent) + cell(i == 0 ? row.front() : "", terms + kGap, false) + lines[i]) +
          "\n";
  }
  return text;
}

}  // namespace sightfall::cli
