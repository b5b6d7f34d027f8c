// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/target.h"

#include <algorithm>

#include "file/utf8.h"

namespace sightfall::serve {
namespace {

std::optional<char> digit(char c) {
  if (c >= '0' && c <= '9') return static_cast<char>(c - '0');
  if (c >= 'a' && c <= 'f') return static_cast<char>(c - 'a' + 10);
  if (c >= 'A' && c <= 'F') return static_cast<char>(c - 'A' + 10);
  return std::nullopt;
}

/// A character written with more bytes than it needs, or half a surrogate: some readers take it for another.
bool is_disguised(std::string_view character) {
  const auto first = static_cast<unsigned char>(character[0]);
  const unsigned char second = character.size() > 1 ? static_cast<unsigned char>(character[1]) : 0;
  return (first == 0xE0 && second < 0xA0) || (first == 0xED && second >= 0xA0) || (first == 0xF0 && second < 0x90) ||
         (first == 0xF4 && second >= 0x90);
}

bool is_text(std::string_view text) {
  for (size_t i = 0; i < text.size();) {
    const size_t length = file::character_length(text.substr(i));
    const std::string_view character = text.substr(i, length);
    if (length == 0 || file::is_control(character) || is_disguised(character)) return false;
    i += length;
  }
  return true;
}

/// Percent signs decoded once; nothing when that leaves no text.
std::optional<std::string> decoded(std::string_view text) {
  std::string result;
  for (size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '%') {
      result += text[i];
      continue;
    }
    if (i + 2 >= text.size()) return std::nullopt;
    const auto high = digit(text[i + 1]), low = digit(text[i + 2]);
    if (!high || !low) return std::nullopt;
    result += static_cast<char>(*high * 16 + *low);
    i += 2;
  }
  return is_text(result) ? std::optional(result) : std::nullopt;
}

/// The text up to the mark, which is taken off with it.
std::string_view take_until(std::string_view& text, char mark) {
  const size_t at = text.find(mark);
  const std::string_view part = text.substr(0, at);
  text.remove_prefix(at == std::string_view::npos ? text.size() : at + 1);
  return part;
}

bool stays_inside(const std::string& segment) {
  return !segment.empty() && segment.front() != '.' && segment.find_first_of("/\\") == std::string::npos;
}

bool take_segments(std::string_view path, Target& target) {
  if (path.empty()) return true;
  if (path.back() == '/') return false;
  while (!path.empty()) {
    auto segment = decoded(take_until(path, '/'));
    if (!segment || !stays_inside(*segment)) return false;
    target.segments.push_back(std::move(*segment));
  }
  return true;
}

bool take_values(std::string_view query, Target& target) {
  while (!query.empty()) {
    std::string part(take_until(query, '&'));
    std::replace(part.begin(), part.end(), '+', ' ');
    std::string_view value = part;
    auto name = decoded(take_until(value, '='));
    auto text = decoded(value);
    if (!name || !text) return false;
    target.values.emplace_back(std::move(*name), std::move(*text));
  }
  return true;
}

}  // namespace

std::optional<std::string> Target::value(std::string_view name) const {
  const auto found = std::find_if(values.begin(), values.end(), [&](const auto& one) { return one.first == name; });
  return found == values.end() ? std::nullopt : std::optional(found->second);
}

std::string Target::path() const {
  std::string text = "/";
  for (const std::string& segment : segments) text += (text.size() > 1 ? "/" : "") + segment;
  return text;
}

std::optional<Target> parse_target(std::string_view text) {
  const bool plain = std::all_of(text.begin(), text.end(), [](char c) { return c > 0x20 && c < 0x7f && c != '#'; });
  if (!plain || text.empty() || text.front() != '/') return std::nullopt;
  text.remove_prefix(1);
  Target target;
  const std::string_view path = take_until(text, '?');
  if (!take_segments(path, target) || !take_values(text, target)) return std::nullopt;
  return target;
}

}  // namespace sightfall::serve
