// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/map_words.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <optional>
#include <utility>

#include "file/utf8.h"

namespace sightfall::serve {
namespace {

constexpr std::string_view kProgressMark = "\033[K";
/// Errors that ask for an option without naming it, and its field.
constexpr std::array<std::pair<std::string_view, const char*>, 3> kToldByWords{
    {{"map projection", "crs"}, {"no layer \"", "layer"}, {"more than one layer", "layer"}}};

/// A line of another program as text: no control characters, nothing that is no UTF-8, not endless.
std::string clean(std::string_view line) {
  constexpr size_t kLongest = 600;
  std::string text;
  while (!line.empty() && text.size() < kLongest) {
    const size_t length = file::character_length(line);
    const std::string_view character = line.substr(0, std::max<size_t>(1, length));
    text += length == 0 || file::is_control(character) ? "?" : character;
    line.remove_prefix(character.size());
  }
  return text;
}

std::vector<std::string> lines_of(std::string_view text) {
  std::vector<std::string> lines;
  while (!text.empty()) {
    const size_t end = std::min(text.find('\n'), text.size());
    if (end > 0) lines.push_back(clean(text.substr(0, end)));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return lines;
}

/// What an error of the command line begins with, which the wire tells apart; nothing where a line goes on with the one
/// before.
std::optional<size_t> beginning_of(const std::string& line, const MapRequest& request) {
  for (const std::string& prefix :
       {request.file + ": ", kMapDocument + std::string(": "), std::string("command line: ")})
    if (line.starts_with(prefix)) return prefix.size();
  return std::nullopt;
}

/// The error as the command line said it, in the words of the wire: fields in place of options.
Error error_of(std::string line, const MapRequest& request) {
  Error error{ErrorKind::kSyntax, {}, {request.sent, {}, {}}};
  for (const MapOption& one : map_options()) {
    const std::string before = one.option + ": ", within = one.option + " METRES";
    if (line.starts_with(before)) {
      line.erase(0, before.size());
      error.where.field = one.field;
    } else if (const size_t at = line.find(within); at != std::string::npos) {
      line.replace(at, within.size(), one.field);
      if (error.where.field.empty()) error.where.field = one.field;
    }
  }
  for (const auto& [words, field] : kToldByWords)
    if (error.where.field.empty() && line.find(words) != std::string::npos) error.where.field = field;
  error.text = std::move(line);
  return error;
}

/// What is said after the last word of progress.
std::string_view said_at_the_end(std::string_view words) {
  const size_t mark = words.rfind(kProgressMark);
  return mark == std::string_view::npos ? words : words.substr(mark + kProgressMark.size());
}

}  // namespace

Errors map_errors(const ChildResult& result, const MapRequest& request) {
  constexpr int kBadInput = 2;
  Errors errors;
  std::vector<std::string> told;
  if (result.status == kBadInput)
    for (const std::string& line : lines_of(said_at_the_end(result.words))) {
      if (line.ends_with(" errors; nothing was done")) continue;
      const auto beginning = beginning_of(line, request);
      if (beginning || told.empty())
        told.push_back(line.substr(beginning.value_or(0)));
      else
        told.back() += " " + line;
    }
  for (std::string& text : told) errors.push_back(error_of(std::move(text), request));
  if (errors.empty()) errors.push_back({ErrorKind::kSyntax, kMapFailure, {request.sent, {}, {}}});
  return errors;
}

std::vector<std::string> map_told(const std::string& output) {
  std::vector<std::string> lines = lines_of(output);
  if (!lines.empty() && lines.back().starts_with("saved ")) lines.pop_back();
  return lines;
}

void tell_map(std::string_view words, const Progress& progress) {
  words = said_at_the_end(words);
  words.remove_prefix(std::min(words.find_first_not_of(' '), words.size()));
  int hundredths = 0;
  const auto [end, fault] = std::from_chars(words.data(), words.data() + words.size(), hundredths);
  const std::string_view rest = words.substr(static_cast<size_t>(end - words.data()));
  constexpr std::string_view kBetween = " %  ";
  if (fault == std::errc{} && rest.starts_with(kBetween))
    progress.tell(hundredths / 100.0, clean(rest.substr(kBetween.size())));
}

}  // namespace sightfall::serve
