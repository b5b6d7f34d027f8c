// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/feet.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <regex>
#include <string_view>

#include "need/words.h"

namespace sightfall::papers {
namespace {

/// A unit of a length, or of pixels on one, with what it is told in, and how many of that come to one.
struct InFeet {
  const char *unit, *told;
  double factor;
};
constexpr InFeet kLength{" m", " ft", 1 / 0.3048}, kDensity{" px/m", " px/ft", 0.3048};

std::string number_in_feet(const std::string& metric, double factor) {
  const double feet = std::strtod(metric.c_str(), nullptr) * factor;
  return feet < 1000 ? fmt::format("{:.3g}", feet) : fmt::format("{:.0f}", feet);
}

/// The text with every match of a pattern told anew.
template <class Told>
std::string with_each(const std::regex& pattern, const std::string& text, const Told& told) {
  std::string words;
  auto end = text.begin();
  for (auto at = std::sregex_iterator(text.begin(), text.end(), pattern); at != std::sregex_iterator(); ++at) {
    words.append(end, text.begin() + at->position());
    words += told(at->str());
    end = text.begin() + at->position() + at->length();
  }
  return words.append(end, text.end());
}

/// A quantity with its range and what it is held to: every number of it, and its unit.
std::string quantity_in_feet(const std::string& quantity, const InFeet& unit) {
  static const std::regex kNumber(R"(\d+(?:\.\d+)?)");
  std::string words =
      with_each(kNumber, quantity, [&](const std::string& one) { return number_in_feet(one, unit.factor); });
  return words.replace(words.find(unit.unit), std::string_view{unit.unit}.size(), unit.told);
}

std::regex pattern_of(const InFeet& unit) {
  const std::string number = R"(\d+(?:\.\d+)?)", range = R"((?: \()" + number + " to " + number + R"(\))?)";
  return std::regex(number + "(?: to " + number + ")?" + range + "(?: of " + number + ")?" + unit.unit +
                    R"((?![\w/]))" + range);
}

/// What is dug, climbed or set out with a tape: `3.4 m up`.
std::string measured_in_feet(const std::string& words) {
  static const std::regex kMeasured(R"((\d+(?:\.\d+)?) m(?= (?:deep|out for|up|above ground)\b))");
  return with_each(kMeasured, words, [](const std::string& one) {
    return need::measured_words(Length{std::strtod(one.c_str(), nullptr)}, need::Units::kFeet);
  });
}

/// What stands outside quotation marks.
std::string plain_in_feet(const std::string& words) {
  static const std::regex kLengths = pattern_of(kLength), kDensities = pattern_of(kDensity);
  const std::string told = with_each(kLengths, measured_in_feet(words),
                                     [](const std::string& one) { return quantity_in_feet(one, kLength); });
  return with_each(kDensities, told, [](const std::string& one) { return quantity_in_feet(one, kDensity); });
}

void tell(std::string& sentence) { sentence = in_feet(sentence); }

void tell(std::vector<std::string>& sentences) {
  for (std::string& one : sentences) tell(one);
}

void tell(std::vector<need::Caution>& cautions) {
  for (need::Caution& one : cautions) tell(one.text);
}

void tell(std::vector<Assumption>& assumptions) {
  for (Assumption& one : assumptions) tell(one.what), tell(one.settle);
}

}  // namespace

std::string in_feet(const std::string& sentence) {
  std::string told;
  bool quoted = false;
  for (size_t at = 0; at <= sentence.size(); quoted = !quoted) {
    const size_t mark = std::min(sentence.find('"', at), sentence.size());
    const std::string piece = sentence.substr(at, mark - at);
    told += quoted ? piece : plain_in_feet(piece);
    if (mark < sentence.size()) told += '"';
    at = mark + 1;
  }
  return told;
}

void tell_in_feet(Verdicts& verdicts) {
  loads::Loads& loads = verdicts.loads;
  for (loads::LaidRun& run : loads.cable.runs) tell(run.flags), tell(run.reach.remedy), tell(run.otherwise);
  for (loads::ConduitFill& conduit : loads.cable.conduits) tell(conduit.fill.remedy);
  for (loads::HeldMount& held : loads.mount.mounts) {
    tell(held.access), tell(held.pull.remedy);
    if (held.pole) tell(held.pole->stress.remedy);
  }
  for (auto* cautions : {&loads.cable.cautions, &loads.mount.cautions, &loads.power.cautions, &loads.network.cautions,
                         &loads.storage.cautions, &verdicts.check.cautions})
    tell(*cautions);
  tell(loads.assumptions), tell(verdicts.check.assumptions);
  for (loads::Ask& ask : verdicts.asks) tell(ask.words), tell(ask.remedy), tell(ask.otherwise);
}

}  // namespace sightfall::papers
