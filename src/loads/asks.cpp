// SPDX-License-Identifier: GPL-3.0-or-later
// Every load as a line (loads.h).
#include <fmt/format.h>

#include <algorithm>

#include "loads/loads.h"
#include "need/lit_project.h"

namespace sightfall::loads {
namespace {

using namespace units;

/// The load with its range, and what carries it, in one unit.
template <class T>
std::string words(const Bearing<T>& bearing, T unit, const char* name, const char* form = "{:.3g}") {
  const auto number = [&](T value) {
    const double plain = value.in(unit);
    return plain < 1000 ? fmt::format(fmt::runtime(form), plain) : fmt::format("{:.0f}", plain);
  };
  const std::string low = number(bearing.load.low), nominal = number(bearing.load.nominal),
                    high = number(bearing.load.high);
  std::string text = low == high ? nominal : fmt::format("{} ({} to {})", nominal, low, high);
  if (bearing.capacity) text += " of " + number(*bearing.capacity);
  return text + " " + name;
}

template <class T>
Ask ask(const char* part, std::string about, const Bearing<T>& bearing, T unit, const char* name,
        std::vector<std::string> of = {}) {
  return {part, std::move(about), words(bearing, unit, name), bearing.held, bearing.remedy, std::move(of)};
}

std::string joined(const std::string& one, const std::string& other) {
  return one + (one.empty() || other.empty() ? "" : "; ") + other;
}

Ask battery_ask(const BatteryLife& battery) {
  const std::string hours =
      fmt::format("carries its feeds for {:.1f} hours ({:.1f} to {:.1f})", battery.lasts.nominal.in(hour),
                  battery.lasts.low.in(hour), battery.lasts.high.in(hour));
  if (battery.wanted.rule.empty()) return {"power", battery.battery, hours, Held::kMet, {}};
  return {"power", battery.battery,
          fmt::format("{}; {} for the {:g} hours wanted", hours, words(battery.wanted, 1.0 * Ah, "Ah"),
                      battery.wanted_for.in(hour)),
          battery.wanted.held, battery.wanted.remedy};
}

void add_power(const PowerLoads& power, std::vector<Ask>& asks) {
  for (const PortLoad& port : power.ports) {
    const std::string about =
        fmt::format("{} at {}{}", port.to, port.feed, port.port ? fmt::format(" port {}", *port.port) : "");
    asks.push_back(
        {"power",
         about,
         fmt::format("{}, class {}; {} at the port", words(port.device, 1.0 * W, "W", "{:.4g}"), port.power_class,
                     words(port.at_port, 1.0 * W, "W", "{:.4g}")),
         port.held,
         port.device.held == Held::kMet ? joined(port.device.remedy, port.at_port.remedy) : port.device.remedy,
         {port.to}});
  }
  for (const SupplyRun& run : power.supply_runs)
    asks.push_back({"power",
                    run.to + " at " + run.feed,
                    words(run.drop, 1.0 * V, "V lost on the way"),
                    run.held,
                    joined(run.mismatch, run.drop.remedy),
                    {run.to}});
  for (const FeedLoad& feed : power.feeds)
    if (feed.budget.load.nominal > Power{0})
      asks.push_back(ask("power", feed.feed, feed.budget, 1.0 * W,
                         feed.apparent ? "VA for all its runs" : "W for all its ports or runs"));
  for (const BatteryLife& battery : power.batteries) asks.push_back(battery_ask(battery));
  for (const std::string& battery : power.idle)
    asks.push_back({"power", battery, "carries nothing", Held::kUnknown, "name it as the battery of a feed", {}});
  for (const std::string& camera : power.unfed)
    asks.push_back(
        {"power", camera, "nothing feeds it", Held::kUnknown, "draw a run from a powered port or a supply", {camera}});
}

void add_cable(const Cabling& cable, std::vector<Ask>& asks) {
  for (const LaidRun& laid : cable.runs) {
    std::string remedy = laid.reach.remedy;
    for (const std::string& flag : laid.flags) remedy = joined(remedy, flag);
    asks.push_back({"cable",
                    laid.run->name + " to " + laid.run->to,
                    words(laid.reach, Length{1}, "m"),
                    laid.held,
                    remedy,
                    {laid.run->to},
                    laid.otherwise});
  }
  for (const ConduitFill& conduit : cable.conduits) {
    if (conduit.cables == 0) continue;
    const auto percent = [](double share) { return fmt::format("{:.0f}", 100 * share); };
    asks.push_back({"cable", conduit.way,
                    fmt::format("{} of {} % filled by {}", percent(conduit.fill.load.nominal),
                                conduit.fill.capacity ? percent(*conduit.fill.capacity) : "?",
                                conduit.cables == 1 ? "one cable" : fmt::format("{} cables", conduit.cables)),
                    conduit.fill.held, conduit.fill.remedy});
  }
}

void add_network(const NetworkLoads& network, std::vector<Ask>& asks) {
  constexpr DataRate kUnit{1e6};
  for (const PortsUse& use : network.ports) {
    std::string words = fmt::format("{} of {} ports", use.taken, use.ports);
    if (use.powered > 0) words += fmt::format(", {} of {} with power", use.fed, use.powered);
    asks.push_back({"network", use.feed + ", its ports", words, use.held, use.remedy});
  }
  for (const LinkLoad& link : network.links)
    asks.push_back(ask("network", fmt::format("{} ({} to {})", link.run, link.from, link.to), link.rate, kUnit,
                       link.assumed.empty() ? "Mbit/s" : "Mbit/s, which is assumed of a port", {link.to}));
  for (const IntakeLoad& intake : network.intakes)
    asks.push_back(ask("network", intake.recorder + ", intake", intake.rate, kUnit, "Mbit/s"));
  for (const LinkLoad& out : network.ways_out)
    asks.push_back({"network", out.from + ", out of the site",
                    words(out.rate, kUnit, "Mbit/s") +
                        (out.streams == 1 ? " for one viewer" : fmt::format(" for {} viewers", out.streams)),
                    out.rate.held, out.rate.remedy});
  for (const std::string& camera : network.unrecorded)
    asks.push_back({"network", camera, "not recorded", Held::kUnknown, "draw runs from it to a recorder", {camera}});
}

/// Days as they are told: without a range where the law's cap has cut all of it.
std::string days_words(const Ranged<Time>& told, bool cut) {
  if (cut) return fmt::format("{:g} days, the most that is allowed", told.high.in(day));
  return fmt::format("{:.1f} days ({:.1f} to {:.1f})", told.nominal.in(day), told.low.in(day), told.high.in(day));
}

/// Of a card that outlives what it hangs in only the soonest is told.
std::string life_words(const Ranged<Time>& lives) {
  constexpr Time kYear = 365.25 * day;
  constexpr double kOutlives = 20;
  const double nominal = lives.nominal / kYear;
  if (nominal > kOutlives) return fmt::format("{:.1f} years at the soonest", lives.low / kYear);
  return fmt::format("{:.1f} years ({:.1f} to {:.1f})", nominal, lives.low / kYear, lives.high / kYear);
}

void add_storage(const StorageLoads& storage, std::vector<Ask>& asks) {
  constexpr DataSize kTerabyte = 1e12 * byte;
  for (const RecorderStorage& one : storage.recorders) {
    if (!one.lacks.empty()) {
      asks.push_back({"storage", one.recorder, one.lacks, one.held, one.remedy});
      continue;
    }
    const std::string days = days_words(one.told, one.told.low < one.kept.low);
    if (one.wanted.rule.empty())
      asks.push_back({"storage", one.recorder, days, Held::kMet, {}});
    else
      asks.push_back({"storage", one.recorder,
                      fmt::format("{}; {} for the {:g} days wanted", days, words(one.wanted, kTerabyte, "TB"),
                                  one.wanted_for.in(day)),
                      one.wanted.held, one.wanted.remedy});
  }
  for (const CardStorage& card : storage.cards)
    asks.push_back({"storage",
                    card.camera + ", its card",
                    fmt::format("{}, worn in {}", days_words(card.kept, card.cut), life_words(card.lives)),
                    card.held,
                    card.remedy,
                    {card.camera}});
}

void add_mount(const Mounting& mount, std::vector<Ask>& asks) {
  for (const Exposed& one : mount.exposed)
    asks.push_back({"mount", one.camera + " in the rain", one.ingress, Held::kMissed, one.remedy, {one.camera}});
  for (const HeldMount& held : mount.mounts) {
    const bool overhead = held.held_by == site::HeldBy::kCeiling;
    asks.push_back(ask("mount", held.mount, held.pull, 1.0 * N,
                       overhead ? "N on one fixing overhead" : "N on one upper fixing", {held.mount}));
    if (held.across.high > Force{0})
      asks.back().words +=
          fmt::format("; {:.3g} N across each at the most, which is not judged", held.across.high.in(N));
    if (held.pole)
      asks.push_back(
          ask("mount", held.mount + ", its pole", held.pole->stress, 1.0 * MPa, "MPa at the foot", {held.mount}));
  }
}

}  // namespace

std::vector<Ask> asks_of(const Loads& loads) {
  std::vector<Ask> asks;
  add_power(loads.power, asks);
  add_cable(loads.cable, asks);
  add_network(loads.network, asks);
  add_storage(loads.storage, asks);
  add_mount(loads.mount, asks);
  return asks;
}

std::optional<std::vector<Ask>> asks_if_said(const need::LitProject& lit) {
  const site::Site& site = lit.project().site;
  const bool fixed = std::any_of(site.mounts.begin(), site.mounts.end(),
                                 [](const site::Mount& one) { return one.fixing || one.pole; });
  const bool said = !site.feeds.empty() || !site.runs.empty() || fixed || lit.project().keeping.wanted;
  if (!said) return std::nullopt;
  return asks_of(loads(lit, {{}, false, false}));
}

}  // namespace sightfall::loads
