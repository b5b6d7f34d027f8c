// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/supply_words.h"

#include <algorithm>
#include <cctype>
#include <cstdlib>
#include <string>

#include "base/small_letters.h"
#include "loads/power.h"

namespace sightfall::loads {
namespace {

using namespace units;

/// A number, a word in small letters, or a sign; dashes of every length are `-`.
struct Token {
  std::optional<double> number;
  std::string word;

  bool is(std::string_view text) const { return word == text; }
};

/// How far below what is named a device bears.
double share_below(const NamedVoltage& named) { return named.tolerance.value_or(kLargestDrop); }

bool letter(char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0; }
bool digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }

std::vector<Token> tokens_of(std::string_view text) {
  constexpr std::string_view kEnDash = "\u2013", kPlusMinus = "\u00b1";
  std::vector<Token> tokens;
  for (size_t at = 0; at < text.size();) {
    size_t end = at;
    if (digit(text[at])) {
      while (end < text.size() &&
             (digit(text[end]) || (text[end] == '.' && end + 1 < text.size() && digit(text[end + 1]))))
        ++end;
      tokens.push_back({std::strtod(std::string(text.substr(at, end - at)).c_str(), nullptr), {}});
    } else if (letter(text[at])) {
      while (end < text.size() && letter(text[end])) ++end;
      tokens.push_back({{}, in_small_letters(text.substr(at, end - at))});
    } else if (text.substr(at, kEnDash.size()) == kEnDash) {
      end = at + kEnDash.size();
      tokens.push_back({{}, "-"});
    } else if (text.substr(at, kPlusMinus.size()) == kPlusMinus) {
      end = at + kPlusMinus.size();
      tokens.insert(tokens.end(), {{{}, "+"}, {{}, "-"}});
    } else {
      end = at + 1;
      if (text[at] != ' ') tokens.push_back({{}, std::string(1, text[at])});
    }
    at = end;
  }
  return tokens;
}

/// What `ac` and `dc` at a token say; `AC/DC` says either.
std::optional<bool> current_at(const std::vector<Token>& tokens, size_t at) {
  const auto kind = [&](size_t i) -> std::optional<bool> {
    if (i >= tokens.size()) return std::nullopt;
    if (tokens[i].is("ac") || tokens[i].is("vac")) return true;
    if (tokens[i].is("dc") || tokens[i].is("vdc")) return false;
    return std::nullopt;
  };
  const auto first = kind(at);
  if (first && at + 2 < tokens.size() && tokens[at + 1].is("/")) {
    const auto second = kind(at + 2);
    if (second && *second != *first) return std::nullopt;
  }
  return first;
}

/// The share of `+- 10 %` or `+/-10 %` whose number is that token.
std::optional<double> tolerance_at(const std::vector<Token>& tokens, size_t at) {
  const auto is = [&](size_t i, const char* text) { return i < tokens.size() && tokens[i].is(text); };
  const bool signs = at >= 2 && is(at - 1, "-") && (is(at - 2, "+") || (at >= 3 && is(at - 2, "/") && is(at - 3, "+")));
  if (!signs || !is(at + 1, "%") || *tokens[at].number >= 100) return std::nullopt;
  return *tokens[at].number / 100;
}

bool names_volts(const Token& token) {
  return token.is("v") || token.is("vac") || token.is("vdc") || token.is("volt") || token.is("volts");
}

}  // namespace

std::vector<NamedVoltage> voltages_in_words(std::string_view supply) {
  const std::vector<Token> tokens = tokens_of(supply);
  std::vector<NamedVoltage> named, open;
  std::optional<bool> before;  // of `DC 12 V`
  for (size_t i = 0; i < tokens.size(); ++i) {
    const Token& token = tokens[i];
    // The class of power over Ethernet is no voltage.
    const bool of_class = i > 0 && (tokens[i - 1].is("class") || tokens[i - 1].is("type"));
    if (const auto tolerance = token.number ? tolerance_at(tokens, i) : std::nullopt) {
      for (NamedVoltage& one : named)
        if (!one.tolerance) one.tolerance = tolerance;
    } else if (token.number && !of_class) {
      const Potential volts = *token.number * V;
      const bool joined = i > 0 && !open.empty();
      if (joined && (tokens[i - 1].is("-") || tokens[i - 1].is("to")))
        open.back().high = std::max(open.back().high, volts);
      else if (joined)
        open.push_back({volts, volts, {}});
      else
        open = {{volts, volts, {}}}, before = i > 0 ? current_at(tokens, i - 1) : std::nullopt;
    } else if (names_volts(token)) {
      const auto after = token.is("vac") || token.is("vdc") ? current_at(tokens, i) : current_at(tokens, i + 1);
      for (NamedVoltage& one : open) one.alternating = after ? after : before;
      named.insert(named.end(), open.begin(), open.end());
      open.clear();
    } else if (!token.is("-") && !token.is("to") && !token.is("/") && !token.is(",") && !token.is("or")) {
      open.clear();
    }
  }
  return named;
}

bool bears(const NamedVoltage& named, const site::Feed& supply) {
  constexpr double kRounding = 1 + 1e-9;
  return *supply.voltage * kRounding >= (1 - share_below(named)) * named.low &&
         *supply.voltage <= kRounding * (1 + named.tolerance.value_or(kLargestRise)) * named.high &&
         named.alternating.value_or(supply.alternating) == supply.alternating;
}

Potential least_borne(const NamedVoltage& named, const site::Feed& supply) {
  const bool well_within = named.low < named.high && named.low <= (1 - kLargestDrop) * *supply.voltage;
  return well_within ? named.low : (1 - share_below(named)) * named.low;
}

}  // namespace sightfall::loads
