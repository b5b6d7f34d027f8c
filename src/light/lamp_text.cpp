// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/lamp_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "light/lamp_file.h"

namespace sightfall::light {
namespace {

constexpr size_t kLongestName = 120, kLongestQuote = 40;  // bytes
constexpr std::string_view kBlanks = " \t\r\v\f\x1a";     // the last one ends a text of old systems

std::string_view trimmed(std::string_view text) {
  const size_t first = text.find_first_not_of(kBlanks);
  return first == std::string_view::npos ? std::string_view{}
                                         : text.substr(first, text.find_last_not_of(kBlanks) - first + 1);
}

std::optional<double> number_in(std::string_view text) {
  if (text.size() > 1 && text[0] == '+' && text[1] != '-') text.remove_prefix(1);
  double value = 0;
  const auto [end, problem] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (problem != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

/// A number that fills a line may have a comma for its decimal mark, unless it could part thousands too: `1,234`.
std::optional<double> number_in_line(std::string_view text) {
  const size_t comma = text.find(',');
  if (comma == std::string_view::npos) return number_in(text);
  const std::string_view whole = text.substr(0, comma);
  const bool decimal = text.find_first_of(".,eE", comma + 1) == std::string_view::npos &&
                       whole.find('.') == std::string_view::npos &&
                       (text.size() - comma - 1 != 3 || number_in(whole) == 0.0);
  if (!decimal) return std::nullopt;
  std::string pointed{text};
  pointed[comma] = '.';
  return number_in(pointed);
}

/// Bytes of the character of UTF-8 that a text begins with; none: it begins with no such character.
size_t character(std::string_view text) {
  const auto lead = static_cast<unsigned char>(text[0]);
  const size_t size = lead < 0x80 ? 1 : lead < 0xc2 ? 0 : lead < 0xe0 ? 2 : lead < 0xf0 ? 3 : lead < 0xf5 ? 4 : 0;
  if (size < 2 || text.size() < size) return size < 2 ? size : 0;
  const auto second = static_cast<unsigned char>(text[1]);
  // Overlong forms, surrogates and what is beyond the last character show in the second byte.
  if ((lead == 0xe0 && second < 0xa0) || (lead == 0xed && second > 0x9f) || (lead == 0xf0 && second < 0x90) ||
      (lead == 0xf4 && second > 0x8f))
    return 0;
  const auto follows = [](char byte) { return (static_cast<unsigned char>(byte) & 0xc0) == 0x80; };
  return std::all_of(text.begin() + 1, text.begin() + static_cast<std::ptrdiff_t>(size), follows) ? size : 0;
}

/// Whether a character shows, and does not command a terminal or turn the text after it.
bool shows(std::string_view one) {
  const auto byte = [&](size_t i) { return static_cast<unsigned char>(one[i]); };
  if (one.size() == 1) return byte(0) >= 0x20 && byte(0) != 0x7f;
  if (byte(0) == 0xc2) return byte(1) >= 0xa0;
  if (byte(0) != 0xe2) return true;
  const bool marks = byte(1) == 0x80 && ((byte(2) >= 0x8b && byte(2) <= 0x8f) || (byte(2) >= 0xa8 && byte(2) <= 0xae));
  return !marks && !(byte(1) == 0x81 && byte(2) >= 0xa0 && byte(2) <= 0xaf);
}

}  // namespace

LampText::LampText(std::string_view text, std::string file, Cut cut) : rest_{text}, file_{std::move(file)}, cut_{cut} {
  if (rest_.substr(0, 3) == "\xef\xbb\xbf") rest_.remove_prefix(3);
}

std::optional<std::string_view> LampText::line() {
  if (rest_.empty()) return std::nullopt;
  const size_t end = rest_.find('\n');
  const std::string_view found = rest_.substr(0, end);
  rest_.remove_prefix(end == std::string_view::npos ? rest_.size() : end + 1);
  ++line_;
  return trimmed(found);
}

void LampText::skip_lines(int count) {
  for (int i = 0; i < count; ++i)
    if (!line()) return refuse(ErrorKind::kSyntax, "", "the file ends here; more lines are to follow");
}

/// Up to the next blank, comma or end of line.
std::optional<std::string_view> LampText::word() {
  for (; !rest_.empty(); rest_.remove_prefix(1)) {
    if (at_line_start_) ++line_;
    at_line_start_ = rest_[0] == '\n';
    if (rest_[0] != '\n' && rest_[0] != ',' && kBlanks.find(rest_[0]) == std::string_view::npos) break;
  }
  if (rest_.empty()) return std::nullopt;
  const std::string_view found = rest_.substr(0, rest_.find_first_of(" \t\r\v\f\x1a\n,"));
  rest_.remove_prefix(found.size());
  return found;
}

double LampText::number(const std::string& field, Allowed allowed) {
  if (failed()) return allowed.least;
  const auto found = cut_ == Cut::kWords ? word() : line();
  const auto value = !found ? std::nullopt : cut_ == Cut::kWords ? number_in(*found) : number_in_line(*found);
  if (value && *value >= allowed.least && *value <= allowed.most) return *value;
  const std::string what = fmt::format("allowed is a number from {} to {}", allowed.least, allowed.most);
  if (!found)
    refuse(ErrorKind::kSyntax, field, "the file ends here; " + what);
  else if (!value && found->find(',') != std::string_view::npos)
    refuse(ErrorKind::kField, field, "found " + quoted(*found) + ", whose comma can be read in two ways; " + what);
  else
    refuse(ErrorKind::kField, field, "found " + quoted(*found) + "; " + what);
  return allowed.least;
}

int LampText::whole(const std::string& field, Allowed allowed) {
  const double value = number(field, allowed);
  if (value != std::floor(value))
    refuse(ErrorKind::kField, field, fmt::format("found {}; allowed is a whole number", value));
  return static_cast<int>(value);
}

/// Whether so many numbers can be in what is left: each takes a character and one that parts it from the next.
bool LampText::holds(size_t count, const std::string& field) {
  if (!failed() && count > rest_.size() / 2 + 1)
    refuse(ErrorKind::kSyntax, field, fmt::format("the file is too short for the {} numbers that it announces", count));
  return !failed();
}

std::vector<double> LampText::list(const std::string& field, size_t count, Allowed allowed) {
  std::vector<double> values;
  if (!holds(count, field)) return values;
  values.reserve(count);
  for (size_t i = 0; i < count && !failed(); ++i) values.push_back(number(field, allowed));
  return values;
}

std::vector<double> LampText::rising(const std::string& field, int count, Allowed allowed) {
  std::vector<double> values;
  if (!holds(static_cast<size_t>(count), field)) return values;
  values.reserve(static_cast<size_t>(count));
  for (int i = 0; i < count && !failed(); ++i) {
    const double value = number(field, allowed);
    if (!values.empty() && value - values.back() < kLeastStep)
      refuse(ErrorKind::kField, field, fmt::format("found {} after {}; they must rise", value, values.back()));
    values.push_back(value);
  }
  return values;
}

void LampText::expect_end() {
  while (!failed()) {
    const auto found = cut_ == Cut::kWords ? word() : line();
    if (!found) return;
    if (found->empty()) continue;
    if (!number_in(*found)) return;
    refuse(ErrorKind::kSyntax, "", "found " + quoted(*found) + " after the last intensity that the file announces");
  }
}

void LampText::refuse(ErrorKind kind, const std::string& field, std::string text) {
  if (!failed()) error_ = Error{kind, std::move(text), {file_, fmt::format("line {}", std::max(line_, 1)), field}};
}

std::string quoted(std::string_view found) {
  std::string text{found.substr(0, kLongestQuote)};
  for (char& letter : text)
    if (letter < ' ' || letter > '~') letter = '?';
  return '"' + text + (found.size() > kLongestQuote ? "...\"" : "\"");
}

std::string name_of(std::string_view text) {
  std::string name;
  while (!text.empty() && name.size() < kLongestName) {
    const size_t size = character(text);
    const auto byte = static_cast<unsigned char>(text[0]);
    const std::string latin{static_cast<char>(0xc0 | (byte >> 6)), static_cast<char>(0x80 | (byte & 0x3f))};
    const std::string one = size > 0 ? std::string{text.substr(0, size)} : latin;
    if (shows(one)) name += one;
    text.remove_prefix(std::max<size_t>(size, 1));
  }
  return name;
}

bool begins_with_tilt(std::string_view line) {
  constexpr std::string_view kTilt = "TILT=";
  return line.size() >= kTilt.size() && std::equal(kTilt.begin(), kTilt.end(), line.begin(), [](char a, char b) {
           return a == (b >= 'a' && b <= 'z' ? b - 'a' + 'A' : b);
         });
}

std::optional<Error> too_large(std::string_view text, const std::string& file) {
  if (text.size() <= kLargestLampFile) return std::nullopt;
  return Error{ErrorKind::kTooLarge,
               fmt::format("has {} bytes; at most {} are allowed", text.size(), kLargestLampFile),
               {file, {}, {}}};
}

}  // namespace sightfall::light
