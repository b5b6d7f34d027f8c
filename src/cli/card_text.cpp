// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/card_text.h"

#include <fmt/format.h>

#include <cmath>

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
  return text + wrapped(
                    "A face walking at the camera, by day with ample light, clear air, before compression. "
                    "Levels: " +
                        request.tables.front().source + ".",
                    0);
}

std::string marks_table(const CardRequest& request, const RangeCard& card) {
  std::vector<Row> rows{
      {"m", "ft", "picture m", "px/m", "delivered px/m", "level of " + request.tables.front().name, "limit"}};
  for (const card::Mark& mark : card.marks) {
    const bool seen = mark.density > PixelDensity{0};
    const std::string level = mark.day.levels.front().empty() ? "-" : mark.day.levels.front();
    rows.push_back({fmt::format("{:g}", mark.distance.in(m)), fmt::format("{:.0f}", mark.distance.in(ft)),
                    fmt::format("{:.1f} x {:.1f}", mark.width.in(m), mark.height.in(m)),
                    seen ? fmt::format("{:.0f}", mark.density.si()) : "-",
                    seen ? fmt::format("{:.0f} ({:.0f} to {:.0f})", mark.day.delivered.nominal.si(),
                                       mark.day.delivered.low.si(), mark.day.delivered.high.si())
                         : "-",
                    level, std::string(detail::in_words(mark.day.limit))});
  }
  return table(rows, {0, 1, 2, 3});
}

std::string reach_table(const CardRequest& request, const RangeCard& card) {
  std::vector<Row> rows{{"level", "from", "to"}};
  for (const card::LevelReach& reach : card.reach) {
    if (reach.table != request.tables.front().name) continue;
    if (reach.nearest)
      rows.push_back({reach.level, both(*reach.nearest), both(*reach.farthest)});
    else
      rows.push_back({reach.level, "nowhere", ""});
  }
  return table(rows);
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
  std::string text = heading(request, card) + "\n" + marks_table(request, card);
  text += "\nReach by day\n" + reach_table(request, card);
  text += fmt::format("\nFocus\n  blur of at most one pixel: {}\n  focus alone keeps 70 % of the density: {}\n",
                      between(card.one_pixel), between(card.seventy_percent));
  if (!card.claims.empty()) text += "\nThe sheet's claims\n" + claims_table(card);
  if (!card.assumptions.empty()) text += "\nAssumed\n";
  for (const Assumption& one : card.assumptions) text += wrapped(one.what + "; to settle it: " + one.settle, 2);
  if (!card.cautions.empty()) text += "\nBefore drilling\n";
  for (const std::string& caution : card.cautions) text += wrapped(caution, 2);
  return text;
}

}  // namespace sightfall::cli
