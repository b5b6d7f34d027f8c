// SPDX-License-Identifier: GPL-3.0-or-later
// Switches, recorders, routers, supplies and batteries: what to ask for when they are bought, and what was worked out
// that they have to bear.
#include <fmt/format.h>

#include <algorithm>

#include "papers/materials.h"
#include "papers/run_words.h"
#include "papers/told.h"

namespace sightfall::papers {
namespace {

using namespace units;

std::string megabits(DataRate rate) { return fmt::format("{:g} Mbit/s", rate.in(Mbit / s)); }

template <class T>
const T* about_feed(const std::vector<T>& all, std::string T::*name, const std::string& feed) {
  const auto at = std::find_if(all.begin(), all.end(), [&](const T& one) { return one.*name == feed; });
  return at == all.end() ? nullptr : &*at;
}

std::string ports_ask(const Job& job, const site::Feed& feed) {
  const site::Ports& ports = feed.ports;
  std::string words = counted(static_cast<size_t>(ports.count), "port");
  if (const size_t taken = ports_taken(job.project(), feed).size(); taken > 0)
    words += fmt::format(" ({} of them taken)", taken);
  if (ports.rate) words += " of " + megabits(*ports.rate);
  if (ports.powered == 0) return words;
  words += fmt::format(", {} with power over Ethernet of class {}, ", ports.powered, ports.power_class);
  return words + (ports.budget ? fmt::format("{:g} W for all of them", ports.budget->in(W))
                               : std::string("how many watts for all of them is not stated: read it from its sheet"));
}

std::string feed_ask(const Job& job, const site::Feed& feed) {
  const char* cells[] = {"lead, flooded", "lead, sealed", "lithium"};
  switch (feed.kind) {
    case site::FeedKind::kSwitch:
      return ports_ask(job, feed) + (feed.uplink ? "; towards the recorder " + megabits(*feed.uplink) : "");
    case site::FeedKind::kInjector:
      return ports_ask(job, feed) + "; between switch and device, with mains of its own";
    case site::FeedKind::kRecorder:
      return ports_ask(job, feed) + (feed.intake ? "; records " + megabits(*feed.intake) + " at once"
                                                 : "; how much it records at once: read it from its sheet");
    case site::FeedKind::kRouter:
      return ports_ask(job, feed) + (feed.viewers > 0 ? "; with a virtual private network" : "");
    case site::FeedKind::kSupply:
      return fmt::format("{:g} V {}{}", feed.voltage->in(V), feed.alternating ? "AC" : "DC",
                         feed.rating ? fmt::format(", {:g} {}", feed.rating->in(W), feed.alternating ? "VA" : "W")
                                     : std::string(", how much it gives is not stated: read it from its sheet"));
    case site::FeedKind::kBattery:
      return fmt::format("{:g} V, {:g} Ah over {:g} h, {}, with what charges it and takes over from the mains",
                         feed.voltage->in(V), feed.capacity->in(Ah), feed.rated_over.value_or(20.0 * hour).in(hour),
                         cells[static_cast<int>(feed.cells)]);
  }
  return {};
}

/// Why devices may not run on a supply.
std::string mismatch_of(const Job& job, const site::Feed& feed) {
  std::vector<std::string> said;
  for (const loads::SupplyRun& run : job.here.loads.power.supply_runs)
    if (run.feed == feed.name && !run.mismatch.empty()) said.push_back(run.to + ": " + run.mismatch);
  return said.empty() ? std::string{} : fmt::format("settle before buying: {}", fmt::join(said, "; "));
}

/// What was worked out that it has to bear, and what to settle first.
std::string feed_remark(const Job& job, const site::Feed& feed) {
  const loads::Loads& loads = job.here.loads;
  std::vector<std::string> said{mismatch_of(job, feed), power_remark(job, feed)};
  if (const auto* load = about_feed(loads.power.feeds, &loads::FeedLoad::feed, feed.name);
      load != nullptr && load->budget.load.nominal > Power{})
    said.push_back(fmt::format("what hangs on it draws at most {} {}", number(load->budget.load.high.in(W)),
                               load->apparent ? "VA" : "W"));
  if (const auto* intake = about_feed(loads.network.intakes, &loads::IntakeLoad::recorder, feed.name))
    said.push_back(fmt::format("it takes in {} Mbit/s at most, which is {}{}",
                               number(intake->rate.load.high.in(Mbit / s)), loads::in_words(intake->rate.held),
                               intake->rate.remedy.empty() ? "" : ": " + intake->rate.remedy));
  if (const auto* life = about_feed(loads.power.batteries, &loads::BatteryLife::battery, feed.name)) {
    said.push_back(
        fmt::format("for {}; lasts {} hours", fmt::join(life->feeds, ", "),
                    ranged({life->lasts.low.in(hour), life->lasts.nominal.in(hour), life->lasts.high.in(hour)})));
    if (!life->wanted.remedy.empty()) said.push_back("settle before buying: " + life->wanted.remedy);
    said.emplace_back("one, or several in a row: as its sheet says");
  }
  std::erase(said, "");
  return fmt::format("{}", fmt::join(said, "; "));
}

std::string disk_remark(const Job& job, const std::string& recorder) {
  const auto* kept = about_feed(job.here.loads.storage.recorders, &loads::RecorderStorage::recorder, recorder);
  return kept == nullptr || kept->wanted.remedy.empty() ? recorder
                                                        : recorder + ": settle before buying: " + kept->wanted.remedy;
}

}  // namespace

void buy_feeds(const Job& job, Schedule& all) {
  const char* kinds[] = {"switch", "injector", "recorder", "router", "supply", "battery"};
  for (const site::Feed& feed : job.project().site.feeds) {
    count(all,
          {kinds[static_cast<int>(feed.kind)], feed.name, feed_ask(job, feed), feed.price, feed_remark(job, feed)});
    if (!feed.disks) {
      if (feed.kind == site::FeedKind::kRecorder)
        add_uncounted(all, {"disk", "for " + feed.name, "made for recorders", {}, "none is stated"});
      continue;
    }
    count(all,
          {"disk", fmt::format("{:g} TB, for {}", feed.disks->each.in(1e12 * byte), feed.name),
           "made for recorders, which write day and night; all alike", feed.disks->price, disk_remark(job, feed.name)},
          feed.disks->count);
  }
}

}  // namespace sightfall::papers
