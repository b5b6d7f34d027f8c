// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/addresses.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

namespace sightfall::papers {
namespace {

constexpr uint32_t kFirstCamera = 11;

/// Who hangs on whom by a cable that carries a network.
using Neighbours = std::map<std::string, std::set<std::string>>;

Neighbours neighbours_of(const need::Project& project) {
  Neighbours all;
  for (const site::Run& run : project.site.runs) {
    const site::FeedKind from = need::the_named(project.site.feeds, run.from).kind;
    if (from == site::FeedKind::kSupply || from == site::FeedKind::kBattery) continue;
    all[run.from].insert(run.to);
    all[run.to].insert(run.from);
  }
  return all;
}

bool is_recorder(const need::Project& project, const std::string& name) {
  const site::Feed* feed = need::find_named(project.site.feeds, name);
  return feed != nullptr && feed->kind == site::FeedKind::kRecorder;
}

/// What is reached from there without going through a recorder, itself included.
std::set<std::string> reached_from(const need::Project& project, const Neighbours& net, const std::string& start) {
  std::set<std::string> seen{start};
  std::vector<std::string> open{start};
  while (!open.empty()) {
    const auto at = net.find(open.back());
    open.pop_back();
    if (at == net.end()) continue;
    for (const std::string& next : at->second)
      if (!is_recorder(project, next) && seen.insert(next).second) open.push_back(next);
  }
  return seen;
}

/// Kinds that have an address, in the order in which they get one.
constexpr std::array<std::pair<site::FeedKind, const char*>, 3> kKinds{{{site::FeedKind::kRouter, "router"},
                                                                        {site::FeedKind::kRecorder, "recorder"},
                                                                        {site::FeedKind::kSwitch, "switch"}}};

}  // namespace

std::optional<Network> house_network(const need::Project& project) {
  if (project.settings.house_network.empty()) return std::nullopt;
  return network_of(project.settings.house_network).value();
}

House house_of(const need::Project& project) {
  const Neighbours net = neighbours_of(project);
  const auto shows_a_camera = [&](const std::string& device) {
    const std::set<std::string> reached = reached_from(project, net, device);
    return std::any_of(reached.begin(), reached.end(),
                       [&](const std::string& one) { return need::find_named(project.cameras, one) != nullptr; });
  };
  House house;
  for (const auto& [recorder, beside] : net) {
    if (!is_recorder(project, recorder)) continue;
    std::set<std::string> away;
    for (const std::string& one : beside)
      if (!is_recorder(project, one) && !shows_a_camera(one)) away.merge(reached_from(project, net, one));
    if (away.empty() || std::none_of(beside.begin(), beside.end(), shows_a_camera)) continue;
    house.recorders.insert(recorder);
    house.devices.merge(away);
  }
  return house;
}

std::optional<std::string> address_for_laptop(const Network& network, const std::vector<Address>& taken) {
  const std::string last = dotted(network.base + usable_in(network));
  if (std::any_of(taken.begin(), taken.end(), [&](const Address& one) { return one.address == last; })) return {};
  return last;
}

Result<std::vector<Address>> addresses_of(const need::Project& project, const Network& network) {
  std::vector<Address> addresses;
  uint32_t next = 1;
  if (const auto apart = house_network(project); apart && overlap(*apart, network))
    return failure(
        ErrorKind::kRequest,
        fmt::format("found {}/{} for the cameras; settings.house_network is {}, and the two must not overlap: name "
                    "another network for the cameras (on the command line with --network)",
                    dotted(network.base), network.prefix, project.settings.house_network));
  const House house = house_of(project);
  for (const auto& [kind, word] : kKinds)
    for (const site::Feed& feed : project.site.feeds) {
      if (feed.kind != kind) continue;
      if (!house.devices.contains(feed.name)) addresses.push_back({feed.name, word, dotted(network.base + next++)});
      if (house.devices.contains(feed.name) || house.recorders.contains(feed.name))
        addresses.push_back({feed.name, word, {}, true});
    }
  next = std::max(next, kFirstCamera);
  for (const camera::Camera& camera : project.cameras)
    addresses.push_back({camera.name, "camera", dotted(network.base + next++)});
  const uint32_t usable = usable_in(network);
  if (next - 1 > usable)
    return failure(ErrorKind::kRequest, fmt::format("the network has {} addresses; the site's devices take them up to "
                                                    "the {}th: give a wider one",
                                                    usable, next - 1));
  return addresses;
}

}  // namespace sightfall::papers
