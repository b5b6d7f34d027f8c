// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/told.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

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

std::string north_words(const need::Project& project) {
  const auto& anchor = project.site.anchor;
  const std::string lies = !anchor ? "How the plan's north lies to true north was not entered."
                           : anchor->turn == Angle{}
                               ? "The plan's north is true north."
                               : fmt::format("True north is {} clockwise of the plan's.", angle(anchor->turn));
  return lies + " A compass shows magnetic north, and near steel not that.";
}

std::string taped_words(Length length, need::Units units) {
  return units == need::Units::kFeet ? need::measured_words(length, units) : need::length_words(length, units);
}

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

std::string caution_words(const need::Caution& caution) {
  return caution.about.empty() ? caution.text : caution.about + ": " + caution.text;
}

std::vector<Said> said_once(const std::vector<need::Caution>& cautions) {
  std::vector<Said> once;
  for (const need::Caution& one : cautions) {
    auto said = std::find_if(once.begin(), once.end(), [&](const Said& other) { return other.text == one.text; });
    if (said == once.end()) said = once.insert(once.end(), {{}, one.text});
    const bool named = std::find(said->about.begin(), said->about.end(), one.about) != said->about.end();
    if (!one.about.empty() && !named) said->about.push_back(one.about);
  }
  return once;
}

std::string caution_words(const Said& said) {
  return caution_words(need::Caution{
      (said.about.size() > 1 ? "Each of " : "") + fmt::format("{}", fmt::join(said.about, ", ")), said.text});
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

std::string counted(size_t count, const std::string& one) {
  return fmt::format("{} {}{}", count, one, count == 1 ? "" : "s");
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
