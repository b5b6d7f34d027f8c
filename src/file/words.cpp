// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>
#include <vector>

namespace sightfall::file {
namespace {

constexpr size_t kLongestQuote = 60;  // bytes
constexpr size_t kMostListed = 16;

/// Cut at a character, not within it.
std::string_view cut(std::string_view text, size_t length) {
  while (length > 0 && length < text.size() && (text[length] & 0xC0) == 0x80) --length;
  return text.substr(0, length);
}

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

/// A name without its unit, such as `heading` for `heading_deg`, or the other way round.
bool same_but_for_unit(std::string_view a, std::string_view b) {
  if (a.size() > b.size()) std::swap(a, b);
  return a.size() >= 2 && b.substr(0, a.size()) == a && b.size() > a.size() && b[a.size()] == '_';
}

}  // namespace

std::string in_quotes(std::string_view text) {
  const bool longer = text.size() > kLongestQuote;
  std::string result = print_text(longer ? cut(text, kLongestQuote) : text);
  if (longer) result.insert(result.size() - 1, "...");
  return result;
}

std::string found(const Value& value) {
  if (value.null()) return "null";
  if (const bool* flag = value.as<bool>()) return *flag ? "true" : "false";
  if (const double* number = value.as<double>()) return print_number(*number);
  if (const auto* text = value.as<std::string>()) return "the text " + in_quotes(*text);
  if (const List* list = value.as<List>()) return fmt::format("a list of {}", list->size());
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
    if (same_but_for_unit(name, candidate)) return candidate;
    if (name.size() > kLongestCompared || candidate.size() > kLongestCompared) continue;
    const size_t letters = distance(name, candidate);
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
