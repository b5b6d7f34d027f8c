// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/loads_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "cli/layout.h"

namespace sightfall::cli {
namespace {

using namespace units;
using loads::Ask;
using loads::Held;
using loads::Loads;

std::string heading(const need::Project& project, const std::vector<Ask>& asks) {
  const auto count = [&](Held held) {
    return std::count_if(asks.begin(), asks.end(), [&](const Ask& one) { return one.held == held; });
  };
  return fmt::format("{}\n\n{} loads: {} met, {} marginal, {} missed, {} unknown\n", project.name, asks.size(),
                     count(Held::kMet), count(Held::kMarginal), count(Held::kMissed), count(Held::kUnknown)) +
         wrapped(
             "These figures advise and certify nothing: local codes and licensed trades decide. A load is a 90 % "
             "range; "
             "it is met when even its high end is carried.",
             0);
}

/// The part's loads, with what to do under each that asks for something.
std::string part_text(const std::string& part, const std::vector<Ask>& asks) {
  std::vector<Row> rows;
  for (const Ask& ask : asks)
    if (ask.part == part)
      rows.push_back({"  " + std::string(in_words(ask.held)),
                      fmt::format("{}: {}{}{}{}{}", ask.about, ask.words, ask.remedy.empty() ? "" : "\n", ask.remedy,
                                  ask.otherwise.empty() ? "" : "\notherwise: ", ask.otherwise)});
  return rows.empty() ? std::string{} : fmt::format("\n{}\n", part) + described_list(rows);
}

std::string rates_text(const loads::NetworkLoads& network) {
  if (network.rates.empty()) return {};
  const auto in_mbit = [](const loads::RateInLight& light) {
    const auto number = [](DataRate rate) { return fmt::format("{:.3g}", rate.in(Mbit / s)); };
    return fmt::format("{} ({} to {}){}", number(light.rate.nominal), number(light.rate.low), number(light.rate.high),
                       light.measured     ? ", measured"
                       : light.at_ceiling ? ", at its ceiling"
                                          : "");
  };
  std::vector<Row> rows{{"rates, Mbit/s", "by day", "by night"}};
  for (const loads::StreamRate& rate : network.rates)
    rows.push_back({rate.camera, in_mbit(rate.day), in_mbit(rate.night)});
  return "\n" + table(rows);
}

std::string disks_text(const loads::StorageLoads& storage) {
  std::string text;
  for (const loads::RecorderStorage& one : storage.recorders)
    for (const std::string& words : {disks_in_words(one), doubled_in_words(one)})
      if (!words.empty()) text += wrapped(one.recorder + ": " + words, 2);
  return text;
}

std::string energy_text(const Loads& loads) {
  const Ranged<Energy>& year = loads.power.a_year;
  if (year.nominal <= Energy{0}) return {};
  return wrapped(
      fmt::format("{:.0f} kWh a year ({:.0f} to {:.0f})", year.nominal.in(kWh), year.low.in(kWh), year.high.in(kWh)),
      2);
}

std::string mask_text(const loads::Overlooked& thing, need::Units units) {
  const camera::Mask& mask = thing.mask;
  std::string text = fmt::format("a mask from {:.0f} to {:.0f} % across and {:.0f} to {:.0f} % down removes it",
                                 100 * mask.left, 100 * mask.right, 100 * mask.top, 100 * mask.bottom);
  if (!thing.judged) return text;
  if (thing.costs.empty()) return text + " and takes nothing from any need";
  text += " and costs: ";
  for (const loads::MaskCost& cost : thing.costs)
    text += (&cost == thing.costs.data() ? "" : "; ") + cost_words(cost, units);
  return text;
}

std::string overlook_text(const loads::Overlook& overlook, need::Units units) {
  std::string text = "\nwhat cameras show of others\n";
  if (overlook.no_boundary)
    text += wrapped("No boundary is drawn: ground beyond it is not looked at.", 2);
  else if (overlook.things.empty())
    text += wrapped("nothing", 2);
  for (size_t i = 0; i < overlook.things.size(); ++i) {
    text += wrapped(fmt::format("{}: {}", overlook.things[i].camera, overlook.cautions[i].text), 2);
    text += wrapped(mask_text(overlook.things[i], units), 4);
  }
  return text;
}

/// A caution, and all that it is about.
struct Told {
  std::string about, text;
  std::set<std::string> names;
};

/// What is said of several is said once.
void tell(const std::string& about, const std::string& text, std::vector<Told>& all) {
  auto same = std::find_if(all.begin(), all.end(), [&](const Told& one) { return one.text == text; });
  if (same == all.end()) same = all.insert(same, {"", text, {}});
  if (!same->names.insert(about).second) return;
  same->about += (same->about.empty() ? "" : ", ") + about;
}

std::string cautions_text(const Loads& loads) {
  std::vector<Told> all;
  for (const auto* list : {&loads.power.cautions, &loads.cable.cautions, &loads.network.cautions,
                           &loads.storage.cautions, &loads.mount.cautions})
    for (const loads::Caution& one : *list) tell(one.about, one.text, all);
  for (const loads::HeldMount& mount : loads.mount.mounts)
    for (const std::string& word : mount.access) tell(mount.mount, word, all);
  if (all.empty()) return {};
  std::string text = "\ncautions\n";
  for (const Told& one : all) text += wrapped(one.about.empty() ? one.text : one.about + ": " + one.text, 2);
  return text;
}

std::string assumptions_text(const Loads& loads) {
  if (loads.assumptions.empty()) return {};
  std::string text = "\nassumptions\n";
  for (const Assumption& one : loads.assumptions) {
    text += wrapped(one.what, 2);
    if (!one.settle.empty()) text += wrapped("to settle it: " + one.settle, 4);
  }
  return text;
}

}  // namespace

std::string loads_text(const need::Project& project, const Loads& loads) {
  const std::vector<Ask> asks = asks_of(loads);
  std::string text = heading(project, asks) + part_text("power", asks) + energy_text(loads) + part_text("cable", asks) +
                     part_text("network", asks);
  if (!loads.network.first_to_fail.empty()) text += wrapped(loads.network.first_to_fail + ".", 2);
  text += rates_text(loads.network) + part_text("storage", asks) + disks_text(loads.storage) + part_text("mount", asks);
  return text + overlook_text(loads.overlook, project.settings.units) + cautions_text(loads) + assumptions_text(loads);
}

}  // namespace sightfall::cli
