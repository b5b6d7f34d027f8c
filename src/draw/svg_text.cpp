// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/svg_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <string_view>

namespace sightfall::draw {
namespace {

/// XML text; control characters, which XML forbids, are dropped.
std::string escaped(const std::string& text) {
  std::string result;
  for (const char c : text) {
    if (c == '<')
      result += "&lt;";
    else if (c == '>')
      result += "&gt;";
    else if (c == '&')
      result += "&amp;";
    else if (static_cast<unsigned char>(c) >= 0x20 || c == '\n')
      result += c;
  }
  return result;
}

std::string counted(const std::string& svg, std::string_view word) {
  std::map<std::string, size_t> numbers;
  std::string result;
  size_t done = 0;
  for (size_t at = svg.find(word); at != std::string::npos; at = svg.find(word, at)) {
    const char before = at > 0 ? svg[at - 1] : ' ';
    at += word.size();
    const size_t end = std::min(svg.find_first_not_of("0123456789", at), svg.size());
    if (end == at || (before != '"' && before != '#')) continue;
    const size_t number = numbers.try_emplace(svg.substr(at, end - at), numbers.size() + 1).first->second;
    result += svg.substr(done, at - done) + std::to_string(number);
    done = at = end;
  }
  return result + svg.substr(done);
}

}  // namespace

std::string with_counted_ids(const std::string& svg) { return counted(counted(svg, "image"), "surface"); }

std::string with_words(const std::string& svg, const std::string& title, const std::string& description) {
  std::string result = svg;
  const size_t opened = result.find('>', result.find("<svg"));
  result.insert(opened + 1, fmt::format("\n<title>{}</title>\n<desc>{}</desc>", escaped(title), escaped(description)));
  return result;
}

}  // namespace sightfall::draw
