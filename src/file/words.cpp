// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <numeric>
#include <vector>

#include "file/utf8.h"

namespace sightfall::file {
namespace {

constexpr size_t kLongestQuote = 60;  // bytes
constexpr size_t kMostListed = 16;

/// Letters to add, drop, change or swap to get from one word to the other (optimal string alignment).
size_t distance(std::string_view a, std::string_view b) {
  std::vector<size_t> before_last(b.size() + 1), last(b.size() + 1), now(b.size() + 1);
  std::iota(last.begin(), last.end(), size_t{0});
  for (size_t i = 1; i <= a.size(); ++i) {
    now[0] = i;
    for (size_t j = 1; j <= b.size(); ++j) {
      now[j] = std::min({last[j] + 1, now[j - 1] + 1, last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1)});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        now[j] = std::min(now[j], before_last[j - 2] + 1);
    }
    std::swap(before_last, last);
    std::swap(last, now);
  }
  return last[b.size()];
}

/// A name without its unit, such as `heading` for `heading_deg`.
std::string_view stem(std::string_view name) {
  constexpr std::array<std::string_view, 12> kUnits{"_m_s", "_deg", "_m", "_mm", "_nm",  "_s",
                                                    "_ms",  "_hz",  "_w", "_kg", "_lux", "_px"};
  for (const std::string_view unit : kUnits)
    if (name.ends_with(unit)) return name.substr(0, name.size() - unit.size());
  return name;
}

/// How differently two names are spelt; those that differ in their unit alone hardly do.
size_t difference(std::string_view a, std::string_view b) {
  return std::min(distance(a, b), distance(stem(a), stem(b)));
}

/// A list of a few numbers and texts, as it was written; otherwise how long it is.
std::string found_list(const List& list) {
  constexpr size_t kMostShown = 4;
  std::string items;
  for (const Value& item : list) {
    if (list.size() > kMostShown || item.as<List>() != nullptr || item.as<Object>() != nullptr)
      return fmt::format("a list of {}", list.size());
    const auto* text = item.as<std::string>();
    items += (items.empty() ? "" : ", ") + (text != nullptr ? in_quotes(*text) : found(item));
  }
  return "[" + items + "]";
}

}  // namespace

std::string in_quotes(std::string_view text) {
  std::string result;
  size_t taken = 0;
  while (taken < text.size() && taken < kLongestQuote) {
    const std::string_view rest = text.substr(taken);
    const size_t length = character_length(rest);
    const std::string_view character = rest.substr(0, std::max<size_t>(length, 1));
    if (length > 1 && !is_control(character))
      result += character;
    else if (length == 1)
      result += print_character(character.front());
    else
      for (const char c : character)
        result += fmt::format("\\x{:02x}", static_cast<unsigned>(static_cast<unsigned char>(c)));
    taken += character.size();
  }
  return '"' + result + (taken < text.size() ? "...\"" : "\"");
}

std::string plain_or_quoted(std::string_view name) {
  const auto plain = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
  };
  const bool all_plain = !name.empty() && name.size() <= kLongestQuote && std::all_of(name.begin(), name.end(), plain);
  return all_plain ? std::string(name) : in_quotes(name);
}

std::string found(const Value& value) {
  if (value.null()) return "null";
  if (const auto* flag = value.as<bool>()) return *flag ? "true" : "false";
  if (const auto* number = value.as<double>()) return print_number(*number);
  if (const auto* text = value.as<std::string>()) return "the text " + in_quotes(*text);
  if (const auto* list = value.as<List>()) return found_list(*list);
  return "an object";
}

std::string listed(std::span<const std::string_view> names) {
  std::string all;
  for (size_t i = 0; i < std::min(names.size(), kMostListed); ++i) all += (i == 0 ? "" : ", ") + in_quotes(names[i]);
  if (names.size() > kMostListed) all += fmt::format(" and {} more", names.size() - kMostListed);
  return all;
}

std::optional<std::string_view> nearest(std::string_view name, std::span<const std::string_view> candidates) {
  constexpr size_t kLongestCompared = 100;
  std::optional<std::string_view> best;
  size_t least = std::max<size_t>(1, name.size() / 3) + 1;
  for (const std::string_view candidate : candidates) {
    if (name.size() > kLongestCompared || candidate.size() > kLongestCompared) continue;
    const size_t letters = difference(name, candidate);
    if (letters >= least) continue;
    least = letters;
    best = candidate;
  }
  return best;
}

std::string suggestion(std::string_view name, std::span<const std::string_view> candidates) {
  if (const auto meant = nearest(name, candidates)) return "; did you mean " + in_quotes(*meant) + "?";
  return candidates.empty() ? "; none is allowed" : "; allowed: " + listed(candidates);
}

}  // namespace sightfall::file
