// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/materials.h"

#include <fmt/format.h>

#include <algorithm>

#include "need/words.h"
#include "papers/documents.h"
#include "papers/fixing_words.h"
#include "papers/money.h"
#include "papers/told.h"

namespace sightfall::papers {
namespace {

using namespace units;

constexpr size_t kQuantity = 3, kPrice = 6, kRemarks = 7;  // columns

Cell money_of(const std::optional<double>& price, double pieces = 1) {
  return price ? rounded(pieces * *price, 2) : Cell{};
}

void append_words(std::string& all, const std::string& one) {
  if (!one.empty()) all += (all.empty() ? "" : ", ") + one;
}

std::string camera_ask(const camera::Sheet& sheet) {
  std::string words = fmt::format("{} x {} pixels", sheet.columns, sheet.rows);
  append_words(words, sheet.zoom() ? fmt::format("{:g} to {:g} mm", sheet.focal.wide.in(mm), sheet.focal.tele.in(mm))
                                   : fmt::format("{:g} mm", sheet.focal.wide.in(mm)));
  append_words(words, sheet.power.supply.value_or("supply not stated"));
  if (sheet.power.largest) append_words(words, fmt::format("at most {:g} W", sheet.power.largest->in(W)));
  if (sheet.connector) append_words(words, "with " + *sheet.connector);
  append_words(words, sheet.ingress.value_or("grade against water not stated: ask, where it hangs outdoors"));
  return words;
}

constexpr const char* kNothingAsked =
    " (settle before buying: the needs that it shows best are missed as planned; whether others count on it, the "
    "report tells)";

/// Whether needs have their worst place before it, or would be mended by it, and all of them are missed.
bool shows_nothing_that_is_asked(const Job& job, const std::string& camera) {
  bool any = false;
  for (const need::Verdict& verdict : job.here.check.verdicts) {
    const bool its = std::any_of(verdict.conditions.begin(), verdict.conditions.end(),
                                 [&](const need::ConditionShare& one) { return one.camera == camera; }) ||
                     (verdict.remedy && verdict.remedy->camera == camera);
    if (its && verdict.answer != need::Answer::kMissed) return false;
    any = any || its;
  }
  return any;
}

void buy_cameras(const Job& job, Schedule& all) {
  for (const CameraPart& part : job.cameras)
    count(all, {"camera", part.sheet->name, camera_ask(*part.sheet), part.sheet->price,
                part.camera->name + (shows_nothing_that_is_asked(job, part.camera->name) ? kNothingAsked : "")});
}

void buy_brackets(const Job& job, Schedule& all) {
  for (const CameraPart& part : job.cameras)
    count(all, {"bracket",
                "for " + part.sheet->name,
                part.mount->surface.empty() ? "to hang on what is there: look" : "to hang on " + part.mount->surface,
                {},
                part.mount->name});
}

void buy_boxes(const Job& job, Schedule& all) {
  const auto& cautions = job.here.loads.cable.cautions;
  for (const CameraPart& part : job.cameras) {
    const bool advised = std::any_of(cautions.begin(), cautions.end(), [&](const need::Caution& one) {
      return one.about == part.camera->name && one.text == loads::kTailOutdoors;
    });
    if (!advised && !part.mount->back_box) continue;
    count(all, {"back box",
                advised ? "advised, for tail and plug" : "for tail and plug",
                "tight against water where it hangs outdoors, to fit its bracket",
                {},
                part.mount->name});
    for (const loads::LaidRun& laid : job.here.loads.cable.runs)
      if (laid.run->to == part.camera->name)
        count(all, {"gland",
                    laid.to_lay().medium == site::CableMedium::kFibre
                        ? std::string("for the copper cord from the converter")
                        : fmt::format("for a cable of {:g} mm", laid.to_lay().outer.in(mm)),
                    "into the back box, from below",
                    {},
                    part.mount->name});
  }
}

void buy_fixings(const Job& job, Schedule& all) {
  for (const loads::HeldMount& held : job.here.loads.mount.mounts) {
    const site::Mount& mount = need::the_named(job.project().site.mounts, held.mount);
    const std::string ask = "in " + (mount.surface.empty() ? std::string{"what is there: look"} : mount.surface);
    const std::string where =
        held.pull.held == loads::Held::kMet
            ? held.mount
            : fmt::format("{} (settle before buying: {}{}{})", held.mount, loads::in_words(held.pull.held),
                          held.pull.remedy.empty() ? "" : ": ", held.pull.remedy);
    if (mount.fixing)
      count(all, {"fixing", fixing_words(*mount.fixing), ask, {}, where}, mount.fixing->count);
    else
      add_uncounted(all, {"fixing", held_by_words(job, mount), "", {}, where});
  }
}

std::string pole_ask(const site::Pole& pole, need::Units units) {
  const char* materials[] = {"steel", "aluminium", "wood"};
  return fmt::format("{}, {:g} mm across, wall {:g} mm, {} above where it is held",
                     materials[static_cast<int>(pole.material)], pole.outer.in(mm), pole.wall.in(mm),
                     need::measured_words(pole.height, units));
}

/// Poles are part of the site: they are looked at, not bought. Brackets at one place share one.
void buy_poles(const Job& job, Schedule& all) {
  std::vector<geom::PlanPoint> seen;
  for (const loads::HeldMount& held : job.here.loads.mount.mounts) {
    const site::Mount& mount = need::the_named(job.project().site.mounts, held.mount);
    if (!mount.pole || std::find(seen.begin(), seen.end(), mount.at) != seen.end()) continue;
    seen.push_back(mount.at);
    count(all, {"pole, there already",
                "as was entered: measure it",
                pole_ask(*mount.pole, job.project().settings.units),
                {},
                held.mount});
  }
}

std::string card_ask(const loads::CardStorage& card) {
  return fmt::format(
      "made for writing without a break: at the rate of this camera it is worn after {} years",
      ranged({card.lives.low.in(365.25 * day), card.lives.nominal.in(365.25 * day), card.lives.high.in(365.25 * day)}));
}

void buy_cards(const Job& job, Schedule& all) {
  for (const loads::CardStorage& card : job.here.loads.storage.cards)
    count(all, {"card", fmt::format("{:g} GB", card.card.in(1e9 * byte)), card_ask(card), {}, card.camera});
}

std::string lamp_in_words(const site::Lamp& lamp) {
  const char* kinds[] = {"LED", "halogen", "sodium", "infrared, 850 nm", "infrared, 940 nm"};
  std::string words = fmt::format("{}: {}", lamp.name, kinds[static_cast<int>(lamp.light)]);
  if (lamp.lumens) words += fmt::format(", {:g} lm", lamp.lumens->in(lm));
  if (lamp.draw) words += fmt::format(", {:g} W", lamp.draw->in(W));
  return words;
}

/// Whole, for a name may be part of another.
bool is_listed(const std::string& told, const std::string& where) {
  return ("; " + told + "; ").find("; " + where + "; ") != std::string::npos;
}

/// Lamps are part of the site: they are looked at, not bought.
void buy_lamps(const Job& job, Schedule& all) {
  const need::Units units = job.project().settings.units;
  for (const site::Lamp& lamp : job.project().site.lamps)
    if (const std::string needs = relying_on(job, lamp.name); !needs.empty())
      count(all,
            {"lamp, there already",
             lamp_in_words(lamp),
             fmt::format("as was entered: {}, {} high, heading {}, {} below the horizon", place_on_plan(lamp.at, units),
                         need::measured_words(lamp.height, units), angle(lamp.heading), angle(lamp.tilt)),
             {},
             "relied on by: " + needs});
}

}  // namespace

void count(Schedule& all, const Material& one, double pieces, const std::string& unit) {
  for (auto& row : all.rows)
    if (row[0] == Cell{one.kind} && row[1] == Cell{one.what} && row[2] == Cell{one.ask} &&
        std::holds_alternative<double>(row[kQuantity])) {
      const double sum = std::get<double>(row[kQuantity]) + pieces;
      row[kQuantity] = sum;
      if (one.price) row[kPrice] = money_of(one.price, sum);
      auto& told = std::get<std::string>(row[kRemarks]);
      if (!one.where.empty() && !is_listed(told, one.where)) told += (told.empty() ? "" : "; ") + one.where;
      return;
    }
  const Cell price_each = one.price ? rounded(*one.price, 4) : Cell{};
  all.rows.push_back({one.kind, one.what, one.ask, pieces, unit, price_each, money_of(one.price, pieces), one.where});
}

void count_length(const Job& job, Schedule& all, const Material& one, Length length, const std::string& how) {
  const LengthsIn lengths{job.project().settings.units};
  Material by_unit = one;
  if (one.price) by_unit.price = lengths.price_each(*one.price);
  count(all, by_unit, std::get<double>(lengths.cell(length, 1)), lengths.unit() + " " + how);
}

void add_uncounted(Schedule& all, const Material& one) {
  all.rows.push_back({one.kind, one.what, one.ask, Cell{}, "pieces", Cell{}, Cell{},
                      one.where.empty() ? kOnTheSpot : one.where + "; " + kOnTheSpot});
}

Schedule materials_of(const Job& job) {
  Schedule all{"materials",
               {"kind", "what", "what to ask for", "quantity", "unit", "price each, " + currency_of(job.project()),
                "price, " + currency_of(job.project()), "remarks"},
               {}};
  buy_cameras(job, all);
  buy_feeds(job, all);
  buy_cable(job, all);
  buy_ends(job, all);
  buy_ways(job, all);
  buy_brackets(job, all);
  buy_boxes(job, all);
  buy_fixings(job, all);
  buy_poles(job, all);
  buy_cards(job, all);
  buy_lamps(job, all);
  if (!job.cameras.empty())
    add_uncounted(all, {"sign", "that there are cameras", "as the sign among these papers", {}, "at each way in"});
  return all;
}

}  // namespace sightfall::papers
