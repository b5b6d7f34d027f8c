// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/ports.h"

#include <fmt/format.h>

#include <algorithm>

#include "loads/poe.h"

namespace sightfall::loads {
namespace {

using site::Feed;
using site::FeedKind;
using site::Run;

bool gives_ports(FeedKind kind) { return kind != FeedKind::kSupply && kind != FeedKind::kBattery; }

bool is_pairs(const need::Project& project, const Run& run) {
  const site::Cable* cable = need::find_named(project.settings.cables, run.cable);
  return cable == nullptr || cable->medium == site::CableMedium::kPairs;
}

bool on_supply(const need::Project& project, const std::string& name) {
  return std::any_of(project.site.runs.begin(), project.site.runs.end(), [&](const Run& one) {
    return one.to == name && need::the_named(project.site.feeds, one.from).kind == FeedKind::kSupply;
  });
}

/// Whether the camera's sheet speaks of power over Ethernet.
bool camera_names_poe(const need::Project& project, const std::string& name) {
  const camera::Camera& camera = need::the_named(project.cameras, name);
  const auto& supply = need::the_named(project.catalogue, camera.sheet).power.supply;
  return supply && names_poe(*supply);
}

/// Whether what is at the run's end takes its power from a port that gives it. A port finds out before it gives: a
/// camera on a supply takes none unless its sheet speaks of it.
bool takes_power(const need::Project& project, const Run& run) {
  if (!is_pairs(project, run)) return false;
  if (const Feed* to = need::find_named(project.site.feeds, run.to)) return to->powered_over_cable;
  return !on_supply(project, run.to) || camera_names_poe(project, run.to);
}

/// Whether it has no power otherwise.
bool wants_power(const need::Project& project, const Run& run) {
  return takes_power(project, run) && !on_supply(project, run.to);
}

/// The ports of one feed as they are given away.
class Giving {
 public:
  explicit Giving(const site::Ports& ports)
      : used_(static_cast<size_t>(ports.count) + 1),
        powered_{std::min(ports.powered, ports.count)},
        count_{ports.count} {}

  void take(int port) {
    if (port >= 1 && port <= count_) used_[static_cast<size_t>(port)] = true;
  }

  /// The lowest free one of the kind, else the lowest free one; 0: none.
  int give(bool with_power) {
    const int port = with_power ? first(1, powered_) : first(powered_ + 1, count_);
    const int given = port > 0 ? port : first(1, count_);
    take(given);
    return given;
  }

 private:
  int first(int from, int last) const {
    for (int port = from; port <= last; ++port)
      if (!used_[static_cast<size_t>(port)]) return port;
    return 0;
  }

  std::vector<bool> used_;
  int powered_, count_;
};

}  // namespace

std::vector<PortTaken> ports_taken(const need::Project& project, const Feed& feed) {
  std::vector<PortTaken> taken;
  if (!gives_ports(feed.kind)) return taken;
  Giving ports(feed.ports);
  const auto& runs = project.site.runs;
  for (const Run& run : runs)
    if (run.from == feed.name && run.port) {
      taken.push_back({&run, *run.port, false, false});
      ports.take(*run.port);
    }
  for (const bool with_power : {true, false})
    for (const Run& run : runs)
      if (run.from == feed.name && !run.port && wants_power(project, run) == with_power)
        taken.push_back({&run, ports.give(with_power), false, true});
  if (feed.kind == FeedKind::kInjector) return taken;
  for (const Run& run : runs)
    if (run.to == feed.name && gives_ports(need::the_named(project.site.feeds, run.from).kind))
      taken.push_back({&run, ports.give(false), true, true});
  return taken;
}

int port_of(const need::Project& project, const Run& run) {
  if (run.port) return *run.port;
  const std::vector<PortTaken> taken = ports_taken(project, need::the_named(project.site.feeds, run.from));
  const auto own =
      std::find_if(taken.begin(), taken.end(), [&](const PortTaken& one) { return one.run == &run && !one.incoming; });
  return own == taken.end() ? 0 : own->port;
}

std::set<const Run*> powered_runs(const need::Project& project) {
  std::set<const Run*> runs;
  for (const Feed& feed : project.site.feeds) {
    if (feed.ports.powered == 0) continue;
    for (const PortTaken& one : ports_taken(project, feed))
      if (!one.incoming && one.port >= 1 && one.port <= feed.ports.powered && takes_power(project, *one.run))
        runs.insert(one.run);
  }
  return runs;
}

std::vector<PortsUse> ports_in_use(const need::Project& project) {
  std::vector<PortsUse> all;
  for (const Feed& feed : project.site.feeds) {
    const std::vector<PortTaken> taken = ports_taken(project, feed);
    if (taken.empty()) continue;
    PortsUse use{feed.name, static_cast<int>(taken.size()), feed.ports.count, 0, feed.ports.powered, Held::kMet, {}};
    int without = 0;
    for (const PortTaken& one : taken) {
      if (one.incoming || !wants_power(project, *one.run)) continue;
      const bool fed = one.port >= 1 && one.port <= feed.ports.powered;
      // One that is numbered at a port without power is told as what nothing feeds.
      if (fed || (one.proposed && feed.ports.powered > 0)) ++use.fed;
      if (!fed && one.proposed && feed.ports.powered > 0) ++without;
    }
    if (use.taken > use.ports)
      use.remedy = fmt::format("{} ports are wanted: a switch with more, or another beside it", use.taken);
    else if (without > 0)
      use.remedy =
          fmt::format("{} powered ports are wanted: a switch with more, or an injector for each that finds none",
                      use.powered + without);
    if (!use.remedy.empty()) use.held = Held::kMissed;
    all.push_back(std::move(use));
  }
  return all;
}

}  // namespace sightfall::loads
