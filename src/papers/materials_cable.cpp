// SPDX-License-Identifier: GPL-3.0-or-later
// Cable, what its ends ask for, and what it lies in.
#include <fmt/format.h>

#include <algorithm>

#include "loads/conduit.h"
#include "loads/run_rules.h"
#include "need/words.h"
#include "papers/hazard.h"
#include "papers/materials.h"
#include "papers/run_words.h"
#include "papers/told.h"

namespace sightfall::papers {
namespace {

using namespace units;
using site::CableMedium;

/// Cable is bought by its longest likely length: what is too short is thrown away.
Length length_of(const loads::LaidRun& laid) { return Length{std::get<double>(rounded(laid.length.high.si(), 1))}; }

std::optional<double> metre_price_of(const Job& job, const std::string& cable) {
  for (const loads::CableNeed& need : job.here.loads.cable.to_buy)
    if (need.cable == cable) return need.metre_price;
  return std::nullopt;
}

/// A cord is bought with its plugs.
bool is_cord(const site::Cable& cable) {
  return cable.medium == CableMedium::kPairs && cable.longest && *cable.longest < loads::kFixedPart;
}

std::string cable_ask(const site::Cable& cable) {
  std::string words = cable.sunproof ? "sheath for sun and rain" : "for indoors";
  if (cable.medium == CableMedium::kPairs) words += cable.shielded ? ", shielded" : ", unshielded";
  if (is_cord(cable)) words += ", with plugs";
  return words + fmt::format(", {:g} mm across", cable.outer.in(mm));
}

std::string place_words(const loads::LaidRun& laid) {
  std::string words = fmt::format("{} to {}", laid.run->from, laid.run->to);
  if (laid.instead != nullptr) words += fmt::format("; in place of {}", laid.cable->name);
  return words;
}

/// The run's name, and whether something has to be settled before anything is bought for it.
std::string settled_name(const Job& job, const loads::LaidRun& laid) {
  return is_open(job, laid) ? fmt::format("{} (settle before buying: {})", laid.run->name,
                                          loads::in_words(cable_verdict(job, laid).held))
                            : laid.run->name;
}

void buy_run(const Job& job, const loads::LaidRun& laid, Schedule& all) {
  const site::Cable& cable = laid.to_lay();
  const std::string what = laid.run->name + ": " + cable.name;
  if (is_open(job, laid)) {
    const RunVerdict verdict = cable_verdict(job, laid);
    count_length(job, all,
                 {"settle before buying",
                  what,
                  cable_ask(cable),
                  {},
                  fmt::format("{}; {}: {}", place_words(laid), loads::in_words(verdict.held), verdict.remarks)},
                 length_of(laid), "at most");
    return;
  }
  std::string remarks = place_words(laid);
  if (laid.instead != nullptr) remarks += ", which is " + std::string(loads::in_words(laid.held)) + " there";
  count_length(job, all, {"cable", what, cable_ask(cable), metre_price_of(job, cable.name), remarks}, length_of(laid),
               "at most");
}

void buy_plugs(const Job& job, const loads::LaidRun& laid, Schedule& all) {
  const std::string cable = "for " + laid.to_lay().name, run = settled_name(job, laid);
  const bool camera = need::find_named(job.project().cameras, laid.run->to) != nullptr;
  const int devices = camera ? 1 : 2;
  count(all, {"outlet or panel port", cable, "where the run ends at a device", {}, run}, devices);
  count(all, {"patch cord", "from outlet to device", "length as the place asks", {}, run}, devices);
  if (camera) count(all, {"plug", cable, "to be put on at the camera, for solid conductors", {}, run});
}

/// Where an injector would stand among what may burn.
std::string aside_of(const Job& job, const std::string& camera) {
  const camera::Camera* found = need::find_named(job.project().cameras, camera);
  if (found == nullptr) return {};
  const site::Mount& mount = need::the_named(job.project().site.mounts, found->mount);
  return may_burst(job.project().site, mount.at, &mount) ? std::string("; there: ") + kHazardAside : std::string{};
}

/// The slower of the two ports sets the speed of both ends.
std::string speed_words(const Job& job, const std::string& run) {
  for (const loads::LinkLoad& link : job.here.loads.network.links)
    if (link.run == run && link.rate.capacity)
      return fmt::format("the same kind at both ends, for ports of {:g} Mbit/s; ", link.rate.capacity->in(Mbit / s));
  return "the same kind and speed at both ends; ";
}

void buy_fibre_ends(const Job& job, const loads::LaidRun& laid, Schedule& all) {
  constexpr int kEnds = 2;
  const std::string cable = "for " + laid.to_lay().name, run = settled_name(job, laid);
  count(all, {"fibre end", cable, "both fibres: made up before, or spliced", {}, run}, kEnds);
  count(all,
        {"module or media converter",
         cable,
         speed_words(job, laid.run->name) + "which of the two, the sheets of what stands there say",
         {},
         run},
        kEnds);
  count(all, {"fibre cord", cable, "from the fibre's end to the module, with the plugs that both have", {}, run},
        kEnds);
  const loads::PortLoad* load = laid.powered ? port_load(job, laid.run->name) : nullptr;
  if (load == nullptr) return;
  count(all, {"patch cord", "from converter to injector, and on to the camera", "length as the place asks", {}, run},
        kEnds);
  add_uncounted(all, {"enclosure", "for converter and injector", "with the mains that the injector asks for", {}, run});
  count(all, {"injector",
              fmt::format("of class {}, for {}", load->power_class, laid.run->to),
              "for where it stands: a box, or outdoors",
              {},
              fmt::format("{}: {}{}", run, loads::kNoPowerByFibre, aside_of(job, laid.run->to))});
}

void buy_protectors(const Job& job, const loads::LaidRun& laid, Schedule& all) {
  const Surge surge = surge_of(laid);
  if (surge == Surge::kNotNeeded) return;
  constexpr int kEnds = 2;
  count(all,
        {"surge protector",
         (surge == Surge::kStated ? "for " : "advised, for ") + laid.to_lay().name,
         fmt::format("with an earth at hand, which a licensed trade connects{}",
                     laid.powered ? "; it lets power over Ethernet pass" : ""),
         {},
         settled_name(job, laid)},
        kEnds);
}

/// What joins the conductors of a supply to a device.
std::string terminal_ask(const Job& job, const std::string& device) {
  const camera::Camera* camera = need::find_named(job.project().cameras, device);
  const auto connector = camera != nullptr ? need::the_named(job.project().catalogue, camera->sheet).connector
                                           : std::optional<std::string>{};
  return (connector ? fmt::format("the camera has {}; as the supply has them", *connector)
                    : std::string("as the device and the supply have them")) +
         "; fuses by a licensed trade";
}

/// What its fill and its bends ask for.
void buy_pulling(const Job& job, const site::Way& way, std::string& there, Schedule& all) {
  for (const loads::ConduitFill& conduit : job.here.loads.cable.conduits) {
    if (conduit.way != way.name) continue;
    if (!conduit.fill.remedy.empty()) there += "; settle before buying: " + conduit.fill.remedy;
    if (conduit.bends > loads::kMostBends)
      count(all, {"box to pull from", "for conduit", "where half of the bends lie behind", {}, way.name});
  }
}

void buy_way(const Job& job, const site::Way& way, Schedule& all) {
  std::string there = way.name;
  const Length length = geom::length(way.line);
  switch (way.kind) {
    case site::WayKind::kConduit:
      buy_pulling(job, way, there, all);
      count_length(job, all,
                   {"conduit",
                    way.bore ? fmt::format("{:g} mm inside", way.bore->in(mm)) : "its bore is not stated",
                    way.height < Length{} ? "for the ground, with a cord to pull by; unless it is there already"
                                          : "with a cord to pull by; unless it is there already",
                    {},
                    there},
                   length, "on the plan");
      break;
    case site::WayKind::kTray:
      count_length(job, all,
                   {"tray",
                    way.indoors ? "for indoors" : "for outdoors",
                    "with what holds it; unless it is there already",
                    {},
                    there},
                   length, "on the plan");
      break;
    case site::WayKind::kOverhead:
      count_length(job, all,
                   {"bearing wire", "for cable overhead", "as local codes ask for span, wind and ice", {}, way.name},
                   length, "on the plan");
      break;
    case site::WayKind::kTrench:
    case site::WayKind::kWall:
      break;
  }
  if (way.height < Length{} || way.kind == site::WayKind::kTrench)
    count_length(
        job, all,
        {"trench, to dig",
         need::measured_words(-way.height, job.project().settings.units) + " deep",
         "unless it is there already; with tape that warns above the cable, conduit to the depth that local codes ask "
         "for or cable made to lie in the ground (a sheath for sun and rain alone is not), and a bend up at each end",
         {},
         way.name},
        length, "on the plan");
  if (way.kind == site::WayKind::kWall)
    count_length(job, all,
                 {"clips along",
                  way.indoors ? "for indoors" : "for outdoors",
                  "for that wall, as far as cable runs along it; how far apart, the cable's maker says",
                  {},
                  way.name},
                 length, "on the plan");
}

}  // namespace

void buy_cable(const Job& job, Schedule& all) {
  for (const loads::LaidRun& laid : job.here.loads.cable.runs)
    if (!is_open(job, laid)) buy_run(job, laid, all);
  for (const loads::CableNeed& need : job.here.loads.cable.to_buy) {
    Length length;
    std::string runs;
    for (const loads::LaidRun& laid : job.here.loads.cable.runs)
      if (laid.to_lay().name == need.cable && !is_open(job, laid)) {
        length = length + length_of(laid);
        runs += (runs.empty() ? "" : ", ") + laid.run->name;
      }
    if (!runs.empty())
      count_length(job, all,
                   {"cable in all",
                    need.cable,
                    "",
                    {},
                    "sound to buy: " + runs + "; the most that may be needed; its price stands with the runs"},
                   length, "at most");
  }
  for (const loads::LaidRun& laid : job.here.loads.cable.runs)
    if (is_open(job, laid)) buy_run(job, laid, all);
  for (const camera::Camera& camera : job.project().cameras)
    if (std::none_of(job.here.loads.cable.runs.begin(), job.here.loads.cable.runs.end(),
                     [&](const loads::LaidRun& laid) { return laid.run->to == camera.name; }))
      add_uncounted(all, {"cable", "to " + camera.name, "", {}, kNoRun});
  for (const site::Feed& feed : job.project().site.feeds)
    if (feed.kind != site::FeedKind::kSupply && feed.kind != site::FeedKind::kBattery &&
        ports_taken(job.project(), feed).empty())
      add_uncounted(all, {"cable", "to " + feed.name, "", {}, kNoRun});
}

void buy_ends(const Job& job, Schedule& all) {
  for (const loads::LaidRun& laid : job.here.loads.cable.runs) {
    const site::Cable& cable = laid.to_lay();
    if (cable.medium == CableMedium::kFibre)
      buy_fibre_ends(job, laid, all);
    else if (cable.medium == CableMedium::kPairs && !is_cord(cable))
      buy_plugs(job, laid, all);
    else if (cable.medium == CableMedium::kConductors)
      add_uncounted(all,
                    {"terminal", "for " + cable.name, terminal_ask(job, laid.run->to), {}, settled_name(job, laid)});
  }
  for (const loads::LaidRun& laid : job.here.loads.cable.runs) buy_protectors(job, laid, all);
  constexpr int kEnds = 2;
  for (const loads::LaidRun& laid : job.here.loads.cable.runs)
    count(all, {"label", "with the run's name", "one at each end, readable after years", {}, laid.run->name}, kEnds);
}

void buy_ways(const Job& job, Schedule& all) {
  bool outdoors = false;
  for (const site::Way& way : job.project().site.ways)
    if (!runs_along(job, way).empty()) buy_way(job, way, all);
  for (const loads::LaidRun& laid : job.here.loads.cable.runs) outdoors = outdoors || laid.outdoors;
  if (outdoors)
    add_uncounted(all, {"bushing and seal",
                        "where cable passes a wall",
                        "tight against water; against fire where local "
                        "codes ask",
                        {},
                        ""});
}

}  // namespace sightfall::papers
