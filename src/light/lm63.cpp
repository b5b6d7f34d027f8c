// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "light/lamp_file.h"
#include "light/lamp_table.h"
#include "light/lamp_text.h"

namespace sightfall::light {
namespace {

constexpr Allowed kFactors{1e-6, 1e6}, kCandelas{0, 1e12}, kAnything{-1e12, 1e12}, kCounts{2, kMostAngles};

struct Labels {
  std::string name;
  bool early = true;  ///< of 1986 or 1991, whose second ballast factor counts
  std::string tilt;   ///< what the line TILT= says
};

/// What follows a keyword in brackets; nothing where another keyword stands.
std::optional<std::string_view> after(std::string_view line, std::string_view keyword) {
  if (line.substr(0, keyword.size()) != keyword) return std::nullopt;
  line.remove_prefix(keyword.size());
  return line.substr(std::min(line.find_first_not_of(' '), line.size()));
}

/// The lines up to TILT=. The name is the keyword LUMINAIRE; failing that LUMCAT, or the first label of 1986.
Labels read_labels(LampText& text) {
  Labels labels;
  std::string catalogue, first;
  for (bool at_first = true; const auto line = text.line(); at_first = false) {
    if (begins_with_tilt(*line)) {
      labels.tilt = line->substr(line->find('=') + 1);
      if (labels.name.empty()) labels.name = catalogue.empty() ? first : catalogue;
      return labels;
    }
    if (at_first && line->substr(0, 3) == "IES") {
      labels.early = line->substr(0, 7) == "IESNA91";
      continue;
    }
    if (const auto name = after(*line, "[LUMINAIRE]")) labels.name = name_of(*name);
    if (const auto number = after(*line, "[LUMCAT]")) catalogue = name_of(*number);
    if (first.empty() && line->substr(0, 1) != "[") first = name_of(*line);
  }
  text.refuse(ErrorKind::kSyntax, "TILT", "the file ends here; a line TILT= must come before the numbers");
  return labels;
}

/// Factors for a lamp that is tilted out of the position it is rated in. The lamp is taken to be in that position.
void skip_tilt(LampText& text, std::string tilt) {
  tilt.erase(std::remove(tilt.begin(), tilt.end(), ' '), tilt.end());
  std::transform(tilt.begin(), tilt.end(), tilt.begin(),
                 [](char c) { return c >= 'a' && c <= 'z' ? c - 'a' + 'A' : c; });
  if (tilt == "NONE" || text.failed()) return;
  if (tilt != "INCLUDE")
    return text.refuse(ErrorKind::kField, "TILT",
                       "found " + quoted(tilt) + ", another file; allowed is NONE, or INCLUDE with the factors here");
  text.whole("lamp position for tilt", {1, 3});
  const int pairs = text.whole("number of tilt angles", {1, kMostAngles});
  text.rising("tilt angles", pairs, {-360, 360});
  text.list("tilt factors", static_cast<size_t>(pairs), {0, 1e3});
}

struct Lm63Head {
  int lamps = 1;
  double lumens = 0, factor = 1;
  int vertical = 0, horizontal = 0, type = 1;
  Length width, length, height;
};

/// Sizes below zero stand for round shapes; a round one may leave its length out.
void read_lm63_sizes(LampText& text, Lm63Head& head) {
  const Length unit = text.whole("units", {1, 2}) == 1 ? units::ft : units::m;
  const double width = text.number("width", {-1e3, 1e3}), length = text.number("length", {-1e3, 1e3});
  head.width = std::abs(width) * unit;
  head.length = std::abs(width < 0 && length == 0 ? width : length) * unit;
  head.height = std::abs(text.number("height", {-1e3, 1e3})) * unit;
}

Lm63Head read_head(LampText& text, bool early) {
  Lm63Head head;
  head.lamps = text.whole("number of lamps", {1, 1e4});
  head.lumens = text.number("lumens per lamp", {-1, 1e9});
  if (head.lumens < 0 && head.lumens != -1)
    text.refuse(ErrorKind::kField, "lumens per lamp",
                "found a number below zero; allowed is -1, absolute, or 0 and more");
  head.factor = text.number("candela multiplier", kFactors);
  head.vertical = text.whole("number of vertical angles", kCounts);
  head.horizontal = text.whole("number of horizontal angles", {1, kMostAngles});
  head.type = text.whole("photometric type", {1, 3});
  read_lm63_sizes(text, head);
  head.factor *= text.number("ballast factor", kFactors);
  // From 1995 on the next field is kept for the future, and says nothing of light.
  const double second = text.number("ballast-lamp factor", early ? kFactors : kAnything);
  if (early) head.factor *= second;
  text.number("watts", kAnything);
  return head;
}

/// Type C: the last horizontal angle tells what the planes stand for.
Candela of_type_c(LampText& text, AngleTable table, double factor) {
  const double first = table.planes.front(), last = table.planes.back();
  if (table.planes.size() == 1) {
    table.planes = {0};
  } else if (stands_for(first, 0) && stands_for(last, 90)) {
    table = all_round(mirrored(mirrored(table, last), 2 * last));
  } else if ((stands_for(first, 0) && stands_for(last, 180)) || (stands_for(first, 90) && stands_for(last, 270))) {
    table = all_round(mirrored(table, last));
  } else if (stands_for(first, 0) && last > 180) {
    table = all_round(table);
  } else {
    text.refuse(
        ErrorKind::kField, "horizontal angles",
        fmt::format("found {} to {}; allowed is 0 alone, 0 to 90, 0 to 180, 0 to 360 or 90 to 270", first, last));
    return matt_lamp({});
  }
  return in_candela(std::move(table), factor, Goniometer::kTypeC);
}

/// Types A and B: what begins at 0 is the same on the other side of it.
Candela of_type_a_or_b(AngleTable table, double factor, int type) {
  if (table.planes.front() == 0) table = mirrored(table, 0);
  table = transposed(table);
  if (table.planes.front() == 0) table = mirrored(table, 0);
  if (type == 3) table = transposed(table);
  for (double& polar : table.gammas) polar += 90;
  for (double& azimuth : table.planes) azimuth += 180;
  return in_candela(std::move(table), factor, type == 3 ? Goniometer::kTypeA : Goniometer::kTypeB);
}

AngleTable read_table(LampText& text, const Lm63Head& head) {
  // Type B turns its vertical angle, type A its horizontal one, about an axis; the other lies between its ends.
  const Allowed about{-180, 180}, between{-90, 90};
  AngleTable table;
  table.gammas = text.rising("vertical angles", head.vertical,
                             head.type == 1   ? Allowed{0, 180}
                             : head.type == 2 ? about
                                              : between);
  table.planes = text.rising("horizontal angles", head.horizontal,
                             head.type == 1   ? Allowed{0, 360}
                             : head.type == 2 ? between
                                              : about);
  if (head.type != 1 && head.horizontal < 2)
    text.refuse(ErrorKind::kField, "number of horizontal angles", "found 1; types A and B need 2 and more");
  table.values = text.list("intensities", table.gammas.size() * table.planes.size(), kCandelas);
  text.expect_end();
  return table;
}

}  // namespace

Result<LampFile> parse_lm63(std::string_view given, const std::string& file_name) {
  if (const auto error = too_large(given, file_name)) return tl::make_unexpected(*error);
  LampText text{given, file_name, LampText::Cut::kWords};
  const Labels labels = read_labels(text);
  skip_tilt(text, labels.tilt);
  const Lm63Head head = read_head(text, labels.early);
  AngleTable table = read_table(text, head);
  if (text.failed()) return text.error();
  Candela candela = head.type == 1 ? of_type_c(text, std::move(table), head.factor)
                                   : of_type_a_or_b(std::move(table), head.factor, head.type);
  if (text.failed()) return text.error();
  const LuminousFlux lamps{std::max(0.0, head.lumens) * head.lamps};
  return LampFile{labels.name, std::move(candela), lamps, head.width, head.length, head.height};
}

}  // namespace sightfall::light
