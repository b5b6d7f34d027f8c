// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "light/lamp_file.h"
#include "light/lamp_table.h"
#include "light/lamp_text.h"

namespace sightfall::light {
namespace {

enum Symmetry { kNone = 0, kRound = 1, kAboutC0 = 2, kAboutC90 = 3, kAboutBoth = 4 };

struct EulumdatHead {
  int symmetry = 0, planes = 0, gammas = 0;
  std::string name;
  Length length, width, height;
  double factor = 1;  ///< from what is listed to cd
  double lumens = 0;  ///< of the lamps; zero where the file is absolute
};

/// A round luminous area has no width.
void read_eulumdat_sizes(LampText& text, EulumdatHead& head) {
  constexpr Allowed kMillimetres{0, 1e6};
  head.length = text.number("length of the luminous area", kMillimetres) * units::mm;
  head.width = text.number("width of the luminous area", kMillimetres) * units::mm;
  if (head.width.si() == 0) head.width = head.length;
  for (const char* side : {"C0", "C90", "C180", "C270"}) {
    const auto field = fmt::format("height of the luminous area at {}", side);
    head.height = std::max(head.height, text.number(field, kMillimetres) * units::mm);
  }
}

/// The first set; the others are lamps to be had instead. Fewer than none: the flux is the luminaire's own.
void read_lamps(LampText& text, EulumdatHead& head) {
  const int sets = text.whole("number of lamp sets", {1, 100});
  const int lamps = text.whole("number of lamps", {-1e4, 1e4});
  if (lamps == 0) text.refuse(ErrorKind::kField, "number of lamps", "found 0; allowed is 1 and more, or -1 and less");
  text.skip_lines(1);  // their type
  const double lumens = text.number("flux of the lamps", {1e-3, 1e9});
  head.factor *= lumens / 1000;  // cd per 1000 lm
  head.lumens = lamps > 0 ? lumens : 0;
  text.skip_lines(3 + 6 * (sets - 1));  // colour, its rendering, watts; the other sets
}

EulumdatHead read_head(LampText& text) {
  EulumdatHead head;
  text.skip_lines(1);
  text.whole("type", kEulumdatTypes);
  head.symmetry = text.whole("symmetry", kEulumdatSymmetries);
  head.planes = text.whole("number of C planes", {1, kMostAngles});
  text.skip_lines(1);  // the distance between them: they are listed too
  head.gammas = text.whole("number of intensities in a plane", {2, kMostAngles});
  text.skip_lines(2);  // the distance between them; report
  if (const auto name = text.line()) head.name = name_of(*name);
  text.skip_lines(6);  // number, file, date; the housing's size
  read_eulumdat_sizes(text, head);
  text.skip_lines(2);  // share of light downwards, share that leaves the luminaire: both follow from the table
  head.factor = text.number("factor of intensities", {1e-6, 1e6});
  text.skip_lines(1);  // tilt while it was measured
  read_lamps(text, head);
  text.skip_lines(10);  // direct ratios of rooms
  return head;
}

/// The planes that are kept, of those that the file lists: as many, from that one on, past the end to the beginning.
struct Kept {
  size_t first = 0, count = 1;
  double begins = 0, ends = 0;  ///< degrees, where the count of planes must put them
};

Kept kept(int symmetry, size_t planes) {
  switch (symmetry) {
    case kRound:
      return {};
    case kAboutC0:
      return {0, planes / 2 + 1, 0, 180};
    case kAboutC90:
      return {3 * planes / 4, planes / 2 + 1, 270, 90};
    case kAboutBoth:
      return {0, planes / 4 + 1, 0, 90};
    default:
      return {0, planes, 0, 0};
  }
}

/// The C planes of the intensities, rising; the file lists more where they are symmetric.
std::vector<double> planes_kept(LampText& text, const std::vector<double>& listed, int symmetry) {
  if (symmetry == kRound) return {0};
  const Kept part = kept(symmetry, listed.size());
  std::vector<double> planes;
  for (size_t i = 0; i < part.count; ++i) {
    const size_t at = part.first + i;
    planes.push_back(listed[at % listed.size()] + (at < listed.size() ? 0 : 360));
  }
  if (symmetry != kNone &&
      !(stands_for(planes.front(), part.begins) && stands_for(std::fmod(planes.back(), 360), part.ends)))
    text.refuse(ErrorKind::kField, "C planes",
                fmt::format("found intensities from {} to {}; symmetry {} needs them from {} to {}", planes.front(),
                            std::fmod(planes.back(), 360), symmetry, part.begins, part.ends));
  return planes;
}

Candela whole(AngleTable table, int symmetry, double factor) {
  const double last = table.planes.back();
  if (symmetry == kAboutC0 || symmetry == kAboutC90) table = all_round(mirrored(table, last));
  if (symmetry == kAboutBoth) table = all_round(mirrored(mirrored(table, last), 2 * last));
  if (symmetry == kNone && table.planes.size() > 1) table = all_round(table);
  if (table.planes.size() == 1) table.planes = {0};
  return in_candela(std::move(table), factor, Goniometer::kCGamma);
}

}  // namespace

Result<LampFile> parse_eulumdat(std::string_view given, const std::string& file_name) {
  if (const auto error = too_large(given, file_name)) return tl::make_unexpected(*error);
  LampText text{given, file_name, LampText::Cut::kLines};
  const EulumdatHead head = read_head(text);
  const std::vector<double> listed = text.rising("C planes", head.planes, {0, 360});
  AngleTable table;
  table.gammas = text.rising("gammas", head.gammas, {0, 180});
  if (text.failed()) return text.error();
  table.planes = planes_kept(text, listed, head.symmetry);
  table.values = text.list("intensities", table.planes.size() * table.gammas.size(), {0, 1e12});
  text.expect_end();
  if (text.failed()) return text.error();
  Candela candela = whole(std::move(table), head.symmetry, head.factor);
  return LampFile{head.name, std::move(candela), LuminousFlux{head.lumens}, head.width, head.length, head.height};
}

}  // namespace sightfall::light
