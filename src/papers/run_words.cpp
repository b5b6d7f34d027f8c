// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/run_words.h"

#include <fmt/format.h>

#include <algorithm>

#include "papers/told.h"

namespace sightfall::papers {

using namespace units;

namespace {

void add_remark(std::string& all, const std::string& one) {
  if (!one.empty() && all.find(one) == std::string::npos) all += (all.empty() ? "" : "; ") + one;
}

template <class T>
const T* about_run(const std::vector<T>& all, const std::string& run) {
  const auto at = std::find_if(all.begin(), all.end(), [&](const T& one) { return one.run == run; });
  return at == all.end() ? nullptr : &*at;
}

}  // namespace

std::string port_words(const site::Feed& feed, const PortTaken& taken) {
  if (!taken.proposed) return std::to_string(taken.port);
  if (taken.port > 0) return fmt::format("{} (proposed)", taken.port);
  return feed.ports.count > 0 ? "none is free" : "any free";
}

void put_in_port_order(std::vector<PortTaken>& taken) {
  std::stable_sort(taken.begin(), taken.end(), [](const PortTaken& a, const PortTaken& b) {
    return a.port != b.port && a.port != 0 && (b.port == 0 || a.port < b.port);
  });
}

std::string port_there(const need::Project& project, const site::Run& run) {
  const site::Feed* feed = need::find_named(project.site.feeds, run.to);
  if (feed == nullptr) return {};
  for (const PortTaken& one : ports_taken(project, *feed))
    if (one.run == &run && one.incoming) return port_words(*feed, one);
  return {};
}

const loads::PortLoad* port_load(const Job& job, const std::string& run) {
  return about_run(job.here.loads.power.ports, run);
}

const loads::LaidRun& laid_of(const Job& job, const std::string& run) {
  const auto& all = job.here.loads.cable.runs;
  return *std::find_if(all.begin(), all.end(), [&](const loads::LaidRun& one) { return one.run->name == run; });
}

std::string remarks_of(const loads::LaidRun& laid) {
  std::string all;
  add_remark(all, laid.reach.remedy);
  for (const std::string& flag : laid.flags) add_remark(all, flag);
  return all;
}

RunVerdict cable_verdict(const Job& job, const loads::LaidRun& laid) {
  RunVerdict verdict{laid.held, {}};
  if (const auto* supply = about_run(job.here.loads.power.supply_runs, laid.run->name)) {
    verdict.held = loads::worse(verdict.held, supply->held);
    add_remark(verdict.remarks, supply->mismatch);
    add_remark(verdict.remarks, supply->drop.remedy);
  }
  add_remark(verdict.remarks, remarks_of(laid));
  return verdict;
}

bool is_open(const Job& job, const loads::LaidRun& laid) {
  const auto* supply = about_run(job.here.loads.power.supply_runs, laid.run->name);
  return laid.open_question ||
         (supply != nullptr && (supply->held == loads::Held::kMissed || !supply->mismatch.empty()));
}

RunVerdict verdict_of(const Job& job, const site::Run& run) {
  const loads::Loads& loads = job.here.loads;
  RunVerdict verdict = cable_verdict(job, laid_of(job, run.name));
  if (const auto* port = port_load(job, run.name)) {
    verdict.held = loads::worse(verdict.held, port->held);
    add_remark(verdict.remarks, port->device.remedy);
    add_remark(verdict.remarks, port->at_port.remedy);
  }
  if (const auto* link = about_run(loads.network.links, run.name)) {
    verdict.held = loads::worse(verdict.held, link->rate.held);
    add_remark(verdict.remarks, link->rate.remedy);
  }
  return verdict;
}

std::string port_remark(const Job& job, const site::Run& run) {
  const loads::Loads& loads = job.here.loads;
  const loads::LaidRun& laid = laid_of(job, run.name);
  std::vector<std::string> said;
  const auto doubt = [&](loads::Held held, const std::string& what) {
    if (held != loads::Held::kMet) said.push_back(held_word(held) + ": " + what);
  };
  if (laid.instead != nullptr) said.push_back("by " + cable_words(laid));
  if (is_open(job, laid)) {
    const RunVerdict verdict = cable_verdict(job, laid);
    doubt(verdict.held, verdict.remarks);
  }
  if (const auto* port = port_load(job, run.name))
    doubt(port->held, port->device.remedy.empty() ? port->at_port.remedy : port->device.remedy);
  if (const auto* link = about_run(loads.network.links, run.name)) doubt(link->rate.held, link->rate.remedy);
  return fmt::format("{}", fmt::join(said, "; "));
}

std::string cable_words(const loads::LaidRun& laid) {
  return laid.instead != nullptr ? fmt::format("{}, in place of {}", laid.instead->name, laid.cable->name)
                                 : laid.cable->name;
}

bool fed_as_laid(const loads::LaidRun& laid) {
  return laid.powered && laid.to_lay().medium == site::CableMedium::kPairs;
}

std::string network_of_run(const Job& job, const site::Feed& feed, const site::Run& run) {
  const House house = house_of(job.project());
  if (!house.recorders.contains(feed.name)) return {};
  const std::string& other = run.from == feed.name ? run.to : run.from;
  return house.devices.contains(other) ? "the house's network" : "the cameras' network";
}

std::vector<std::string> runs_along(const Job& job, const site::Way& way) {
  std::vector<std::string> runs;
  for (const loads::LaidRun& laid : job.here.loads.cable.runs)
    if (std::find(laid.along.begin(), laid.along.end(), way.name) != laid.along.end()) runs.push_back(laid.run->name);
  return runs;
}

Surge surge_of(const loads::LaidRun& laid) {
  if (laid.to_lay().medium == site::CableMedium::kFibre) return Surge::kNotNeeded;
  if (laid.run->surge_protected) return Surge::kStated;
  return laid.outdoors || laid.between_buildings ? Surge::kAdvised : Surge::kNotNeeded;
}

std::string surge_words(const loads::LaidRun& laid) {
  const char* words[] = {"not needed", "advised, both ends", "as stated, both ends"};
  return words[static_cast<int>(surge_of(laid))];
}

std::string power_remark(const Job& job, const site::Feed& feed) {
  for (const loads::FeedLoad& load : job.here.loads.power.feeds) {
    if (load.feed != feed.name) continue;
    if (load.budget.held != loads::Held::kMet && load.budget.load.nominal > Power{})
      return fmt::format("power is {}: {}", loads::in_words(load.budget.held), load.budget.remedy);
    if (feed.kind != site::FeedKind::kSupply && feed.ports.budget && load.set_aside > *feed.ports.budget)
      return fmt::format("by class {0:.4g} of {1:g} W: buy a switch that allots by what is drawn, or one of {0:.4g} W",
                         load.set_aside.in(W), feed.ports.budget->in(W));
  }
  return {};
}

}  // namespace sightfall::papers
