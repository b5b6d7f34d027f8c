// SPDX-License-Identifier: GPL-3.0-or-later
#include "import/height_text.h"

#include <array>
#include <charconv>
#include <cmath>

#include "import/limits.h"

namespace sightfall::import {
using namespace sightfall::units;
namespace {

constexpr Length kInch = ft / 12;

std::string_view without_spaces(std::string_view text) {
  const size_t first = text.find_first_not_of(" \t\r\n");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1);
}

/// Takes a finite number off the front of the text.
std::optional<double> take_number(std::string_view& text) {
  double value = 0;
  const auto [end, problem] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (problem != std::errc{} || !std::isfinite(value)) return std::nullopt;
  text.remove_prefix(static_cast<size_t>(end - text.data()));
  text = without_spaces(text);
  return value;
}

std::optional<Length> unit_of_text(std::string_view text) {
  struct Named {
    std::string_view name;
    Length unit;
  };
  constexpr std::array kUnits{Named{"", m},      Named{"m", m},      Named{"metre", m}, Named{"metres", m},
                              Named{"meter", m}, Named{"meters", m}, Named{"ft", ft},   Named{"foot", ft},
                              Named{"feet", ft}, Named{"'", ft}};
  for (const Named& named : kUnits)
    if (named.name == text) return named.unit;
  return std::nullopt;
}

/// Takes one quoted word off the front of a tag list.
std::optional<std::string> take_quoted(std::string_view& text) {
  if (text.empty() || text.front() != '"') return std::nullopt;
  std::string word;
  for (size_t i = 1; i < text.size(); ++i) {
    if (text[i] == '"') {
      text.remove_prefix(i + 1);
      return word;
    }
    if (text[i] == '\\' && i + 1 < text.size()) ++i;
    word += text[i];
  }
  return std::nullopt;
}

}  // namespace

std::optional<Length> length_of_text(std::string_view text) {
  text = without_spaces(text);
  const std::optional<double> number = take_number(text);
  if (!number) return std::nullopt;
  if (const std::optional<Length> unit = unit_of_text(text)) return *number * *unit;
  if (text.front() != '\'' || text.back() != '"') return std::nullopt;
  text = without_spaces(text.substr(1, text.size() - 2));
  const std::optional<double> inches = take_number(text);
  if (!inches || !text.empty() || *inches < 0 || *inches >= 12) return std::nullopt;
  return *number * ft + *inches * kInch;
}

std::optional<Length> height_of_text(std::string_view text) {
  const std::optional<Length> height = length_of_text(text);
  return height && height->si() > 0 && *height <= kMostHeight ? height : std::nullopt;
}

std::optional<std::string> tag_value(std::string_view tags, std::string_view key) {
  constexpr std::string_view kArrow = "=>";
  while (const std::optional<std::string> name = take_quoted(tags)) {
    if (tags.substr(0, kArrow.size()) != kArrow) return std::nullopt;
    tags.remove_prefix(kArrow.size());
    std::optional<std::string> value = take_quoted(tags);
    if (!value) return std::nullopt;
    if (*name == key) return value;
    tags.remove_prefix(std::min(tags.size(), tags.find_first_not_of(" ,")));
  }
  return std::nullopt;
}

}  // namespace sightfall::import
