// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/told.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "need/words.h"

namespace sightfall::papers {
namespace {

std::string capitals(std::string word) {
  std::transform(word.begin(), word.end(), word.begin(), [](char c) { return static_cast<char>(std::toupper(c)); });
  return word;
}

}  // namespace

using namespace units;

std::string number(double value, int digits_after) {
  if (!std::isfinite(value)) return value > 0 ? "infinite" : "-";
  std::string text = fmt::format("{:.{}f}", value, digits_after);
  const bool nothing = text.find_first_not_of("-0.") == std::string::npos;
  return nothing && text.front() == '-' ? text.substr(1) : text;
}

std::string ranged(const Ranged<double>& value, int digits_after) {
  const std::string low = number(value.low, digits_after), nominal = number(value.nominal, digits_after),
                    high = number(value.high, digits_after);
  return low == high ? nominal : fmt::format("{} ({} to {})", nominal, low, high);
}

std::string angle(Angle value) { return number(value.in(deg)) + " deg"; }

std::string place_on_plan(geom::PlanPoint at, need::Units units) {
  const bool feet = units == need::Units::kFeet;
  const auto told = [&](double metres) { return feet ? number(Length{metres}.in(ft)) + " ft" : number(metres) + " m"; };
  return fmt::format("{} east, {} north", told(at.x), told(at.y));
}

std::string shutter(Time value) {
  const double seconds = value.in(s);
  return seconds >= 0.5 ? fmt::format("{:g} s", seconds) : fmt::format("1/{:.0f} s", 1 / seconds);
}

std::string or_line(const std::string& text) { return text.empty() ? "____________________" : text; }

std::string for_installer(std::string text) {
  constexpr std::array<std::pair<const char*, const char*>, 3> kWords{
      {{", or say that they are", ""},
       {"the document says ", "the verdicts count with "},
       {": put in what the pole gives", ": have the verdicts worked out again with what the pole gives"}}};
  for (const auto& [from, to] : kWords)
    if (const size_t at = text.find(from); at != std::string::npos) text.replace(at, std::string_view{from}.size(), to);
  return text;
}

std::string caution_words(const need::Caution& caution) {
  const std::string text = for_installer(caution.text);
  return caution.about.empty() ? text : caution.about + ": " + text;
}

std::string limit_words(detail::Limit limit) {
  return limit == detail::Limit::kNone ? "-" : std::string(detail::in_words(limit));
}

std::string verdict_word(need::Answer answer) {
  const std::string word{need::in_words(answer)};
  return answer == need::Answer::kMet ? word : capitals(word);
}

std::string held_word(loads::Held held) {
  const std::string word{loads::in_words(held)};
  return held == loads::Held::kMet ? word : capitals(word);
}

std::string counts(const std::vector<need::Verdict>& verdicts) {
  const auto count = [&](need::Answer answer) {
    return std::count_if(verdicts.begin(), verdicts.end(), [&](const auto& one) { return one.answer == answer; });
  };
  return fmt::format("{} met, {} marginal, {} missed", count(need::Answer::kMet), count(need::Answer::kMarginal),
                     count(need::Answer::kMissed));
}

std::string sentence(const need::Need& need) {
  const char* subjects[] = {"a face", "a person", "a plate", "a vehicle", "an object"};
  std::string text =
      fmt::format("{} at \"{}\", to {}", subjects[static_cast<int>(need.subject)], need.place, need.level);
  if (need.once_a_passage)
    text += fmt::format(", in at least {} frames of a passage, for {} of passages", *need.once_a_passage,
                        need::share_words(need.share));
  else
    text += fmt::format(", on {} of it", need::share_words(need.share));
  if (need.colour) text += ", in colour";
  return text;
}

draw::Document titled(const need::Project& project, const std::string& title, const std::string& date) {
  draw::Document document;
  document.facts = {fmt::format("{}: {}", project.name, title), title, date};
  document.head = fmt::format("{}  |  {}{}", project.name, title, date.empty() ? "" : "  |  " + date);
  document.foot = kAdvice;
  return document;
}

}  // namespace sightfall::papers
