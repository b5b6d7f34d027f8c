// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/words.h"

#include <fmt/format.h>

#include <cmath>

#include "need/check.h"

namespace sightfall::need {

using namespace units;

std::string length_words(Length length, need::Units units) {
  if (std::isinf(length.si())) return "infinity";
  return units == need::Units::kFeet ? fmt::format("{:.0f} ft", length.in(ft)) : fmt::format("{:.1f} m", length.in(m));
}

std::string measured_words(Length length, Units units) {
  if (units == Units::kFeet) {
    const long inches = std::lround(12 * std::abs(length.in(ft)));
    const char* sign = length < Length{0} && inches > 0 ? "-" : "";
    return inches < 12 ? fmt::format("{}{} in", sign, inches)
                       : fmt::format("{}{} ft {} in", sign, inches / 12, inches % 12);
  }
  std::string digits = fmt::format("{:.2f}", length.in(m));
  if (digits.ends_with('0')) digits.pop_back();
  return digits + " m";
}

std::string density_number(PixelDensity density, need::Units units) {
  return units == need::Units::kFeet ? fmt::format("{:.1f}", density.in(px / ft))
                                     : fmt::format("{:.0f}", density.in(px / m));
}

std::string density_words(PixelDensity density, need::Units units) {
  return density_number(density, units) + (units == need::Units::kFeet ? " px/ft" : " px/m");
}

std::string density_words(const Ranged<PixelDensity>& density, need::Units units) {
  return fmt::format("{} ({} to {})", density_words(density.nominal, units), density_number(density.low, units),
                     density_number(density.high, units));
}

std::string share_words(double share) {
  // 99.7 % must not read as 100 % when all is asked for.
  const double percent = 100 * share;
  return percent > 99 && percent < 100 ? fmt::format("{:.1f} %", std::floor(10 * percent) / 10)
                                       : fmt::format("{:.0f} %", percent);
}

double frames_told(double mean) { return mean < 10 ? std::floor(10 * mean) / 10 : std::floor(mean); }

std::string frames_words(const PassageFrames& frames) {
  const auto count = [](double mean) { return fmt::format("{:g}", frames_told(mean)); };
  const std::string low = count(frames.predicted.low), high = count(frames.predicted.high);
  std::string words = count(frames.predicted.nominal);
  if (low != high) words += fmt::format(" ({} to {})", low, high);
  return words + fmt::format(" of {} frame{}", frames.asked, frames.asked == 1 ? "" : "s");
}

std::string_view worst_name(const WorstPlace& worst) {
  if (!worst.frames) return "worst place";
  return worst.camera.empty() ? "worst passage" : "best moment of the worst passage";
}

std::string worst_words(const WorstPlace& worst, need::Units units) {
  if (worst.camera.empty()) return "no camera sees it";
  std::string words = density_words(worst.delivered, units);
  if (worst.frames) words += "; " + frames_words(*worst.frames);
  return words;
}

}  // namespace sightfall::need
