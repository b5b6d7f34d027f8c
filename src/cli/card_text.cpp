// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/card_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "camera/stream_in_force.h"
#include "cli/layout.h"

namespace sightfall::cli {
namespace {

using namespace units;
using card::CardRequest;
using card::RangeCard;

/// Three digits that count, or all before the point.
std::string three_digits(double value) {
  const double size = std::abs(value);
  return fmt::format("{:.{}f}", value, size < 9.995 ? 2 : size < 99.95 ? 1 : 0);
}

std::string both(Length length) {
  if (std::isinf(length.si())) return "infinity";
  return fmt::format("{} m ({} ft)", three_digits(length.in(m)), three_digits(length.in(ft)));
}

std::string between(const card::FocusReach& reach) {
  if (reach.far <= Length{0}) return "nowhere";
  return fmt::format("{} to {}", both(reach.near), both(reach.far));
}

std::string heading(const CardRequest& request, const RangeCard& card) {
  std::string text = fmt::format("{}\n", card.camera);
  text += fmt::format("{:g} mm at f/{:.2g}, focused at {}, picture {:.1f} x {:.1f} degrees\n", card.focal.in(mm),
                      card.f_number, both(card.focus), card.horizontal_view.in(deg), card.vertical_view.in(deg));
  text += request.height
              ? fmt::format("mounted at {}, tilted {:.1f} degrees {}; distances run along flat ground\n",
                            both(*request.height), std::abs(card.tilt.in(deg)), card.tilt < Angle{0} ? "up" : "down")
              : std::string("on the axis; the subject's plane is normal to it\n");
  text += wrapped(fmt::format("A face walking at the camera over open ground, {}. Levels: {}.",
                              camera::compression_in_words(request.sheet), request.tables.front().source),
                  0);
  text += wrapped("By day: ample light, clear air.", 2);
  return text + wrapped(fmt::format("By night: a black sky, {}, {}.",
                                    card.infrared ? "its own infrared" : "no light of its own",
                                    card.monochrome ? "monochrome" : "in colour"),
                        2);
}

std::string seeing_words(const card::Seeing& seeing) {
  if (seeing.shutter <= Time{0}) return "-";
  return fmt::format("{:.0f} ({:.0f} to {:.0f})", seeing.delivered.nominal.si(), seeing.delivered.low.si(),
                     seeing.delivered.high.si());
}

std::string level_words(const card::Seeing& seeing) {
  return seeing.levels.front().empty() ? "-" : seeing.levels.front();
}

std::string marks_table(const RangeCard& card) {
  std::vector<Row> rows{{"m", "ft", "px/m", "by day px/m", "level", "limit", "by night px/m", "level", "limit"}};
  for (const card::Mark& mark : card.marks)
    rows.push_back({fmt::format("{:g}", mark.distance.in(m)), fmt::format("{:.0f}", mark.distance.in(ft)),
                    mark.density > PixelDensity{0} ? fmt::format("{:.0f}", mark.density.si()) : "-",
                    seeing_words(mark.day), level_words(mark.day), std::string(detail::in_words(mark.day.limit)),
                    seeing_words(mark.night), level_words(mark.night),
                    std::string(detail::in_words(mark.night.limit))});
  return table(rows, {0, 1, 2});
}

std::string reach_words(const card::LevelReach& reach) {
  return reach.nearest ? fmt::format("{} to {}", both(*reach.nearest), both(*reach.farthest)) : "nowhere";
}

/// A gap has a line of its own under the reach.
std::string gap_words(const std::vector<card::Gap>& gaps, size_t which) {
  if (which >= gaps.size()) return "";
  const auto [from, to] = gaps[which];
  return fmt::format("but not {} to {} m ({} to {} ft)", three_digits(from.in(m)), three_digits(to.in(m)),
                     three_digits(from.in(ft)), three_digits(to.in(ft)));
}

std::string reach_table(const CardRequest& request, const RangeCard& card) {
  std::vector<Row> rows{{"level", "by day", "by night"}};
  for (size_t i = 0; i < card.reach.size(); ++i)
    if (card.reach[i].table == request.tables.front().name) {
      rows.push_back({card.reach[i].level, reach_words(card.reach[i]), reach_words(card.reach_night[i])});
      const auto &day = card.reach[i].gaps, &night = card.reach_night[i].gaps;
      for (size_t k = 0; k < std::max(day.size(), night.size()); ++k)
        rows.push_back({"", gap_words(day, k), gap_words(night, k)});
    }
  return table(rows);
}

std::string within(const std::optional<Length>& distance) {
  return distance ? "nearer than " + both(*distance) : std::string("nowhere");
}

std::string exposure_of(Time shutter) {
  return shutter < Time{0.3} ? fmt::format("1/{:.0f} s", 1 / shutter.si()) : fmt::format("{:.1f} s", shutter.si());
}

std::string infrared_text(const RangeCard& card) {
  std::string text;
  if (card.eye_distance)
    text += wrapped(
        fmt::format("a face's bright parts burn out {} with fixed power, {} with power that adapts (tilt {:.1f} "
                    "degrees, ground gives back {:.0f} %, black sky, gain up to {:.0f} dB)",
                    within(card.clipping.fixed), within(card.clipping.adaptive), card.tilt.in(deg),
                    100 * card.clipping.ground_reflectance, card.clipping.largest_gain),
        2);
  if (card.eye_distance)
    text += wrapped(card.glows ? "its lamp is seen to glow dull red" : "its lamp is not seen to glow", 2);
  return text.empty() ? "  none of its own\n" : text;
}

std::string shutter_text(const RangeCard& card) {
  std::string text;
  for (const card::ShutterNeed& need : card.shutters)
    text += wrapped(
        fmt::format("a {} at {:.1f} m/s that crosses the picture at {}, where it has {:.0f} px/m, stays within a "
                    "pixel at {}; signal to noise by night {:.1f} with it, {:.1f} with the automatic one; as rows are "
                    "read in turn it leans by {:.2g} degrees ({:.2g} to {:.2g})",
                    need.mover, need.speed.si(), both(need.distance), card::kShutterDensity.si(),
                    exposure_of(need.shutter), need.noise_ratio, need.noise_ratio_automatic, need.lean.nominal.in(deg),
                    need.lean.low.in(deg), need.lean.high.in(deg)),
        2);
  return text;
}

std::string claims_table(const RangeCard& card) {
  std::string text;
  for (const card::Claim& claim : card.claims) {
    text +=
        wrapped(fmt::format("{}: stated {}{} -> {}", claim.claim, claim.stated,
                            claim.computed.empty() ? "" : ", computed " + claim.computed, card::in_words(claim.holds)),
                2);
    text += wrapped(claim.assumption, 6);
  }
  return text;
}

}  // namespace

std::string card_text(const CardRequest& request, const RangeCard& card) {
  std::string text = heading(request, card) + "\n" + marks_table(card);
  text += "\nReach\n" + reach_table(request, card);
  text += fmt::format("\nFocus\n  blur of at most one pixel: {}\n  focus alone keeps 70 % of the density: {}\n",
                      between(card.one_pixel), between(card.seventy_percent));
  text += "\nInfrared by night\n" + infrared_text(card);
  text += "\nShutter\n" + shutter_text(card);
  if (!card.claims.empty()) text += "\nThe sheet's claims\n" + claims_table(card);
  if (!card.assumptions.empty()) text += "\nAssumed\n";
  for (const Assumption& one : card.assumptions) text += wrapped(one.what + "; to settle it: " + one.settle, 2);
  if (!card.cautions.empty()) text += "\nBefore drilling\n";
  for (const std::string& caution : card.cautions) text += wrapped(caution, 2);
  return text;
}

}  // namespace sightfall::cli
