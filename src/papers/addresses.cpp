// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/addresses.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <map>
#include <optional>
#include <string_view>

namespace sightfall::papers {
namespace {

constexpr int kWidest = 8, kNarrowest = 29;
constexpr uint32_t kFirstCamera = 11;

std::string dotted(uint32_t address) {
  return fmt::format("{}.{}.{}.{}", address >> 24, (address >> 16) & 0xFF, (address >> 8) & 0xFF, address & 0xFF);
}

uint32_t bits_of(int prefix) { return ~uint32_t{0} << (32 - prefix); }

/// A number without sign or leading zeros, taken off the front of a text.
std::optional<uint32_t> take_number(std::string_view& text, uint32_t most) {
  uint32_t number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  const auto digits = static_cast<size_t>(end - text.data());
  if (error != std::errc{} || number > most || (digits > 1 && text.front() == '0')) return std::nullopt;
  text.remove_prefix(digits);
  return number;
}

bool take(std::string_view& text, char mark) {
  if (text.empty() || text.front() != mark) return false;
  text.remove_prefix(1);
  return true;
}

std::optional<Network> parsed(std::string_view text) {
  Network network;
  for (int part = 0; part < 4; ++part) {
    if (part > 0 && !take(text, '.')) return std::nullopt;
    const auto number = take_number(text, 255);
    if (!number) return std::nullopt;
    network.base = network.base << 8 | *number;
  }
  if (!take(text, '/')) return std::nullopt;
  const auto prefix = take_number(text, 32);
  if (!prefix || !text.empty()) return std::nullopt;
  network.prefix = static_cast<int>(*prefix);
  return network;
}

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

Result<Network> network_of(const std::string& text) {
  const auto network = parsed(text);
  if (!network || network->prefix < kWidest || network->prefix > kNarrowest)
    return failure(ErrorKind::kRequest,
                   fmt::format("found \"{}\"; allowed is an IPv4 network such as 192.168.50.0/24, /{} to /{}", text,
                               kWidest, kNarrowest));
  if ((network->base & ~bits_of(network->prefix)) != 0)
    return failure(ErrorKind::kRequest, fmt::format("found \"{}\", which is an address in the network {}/{}", text,
                                                    dotted(network->base & bits_of(network->prefix)), network->prefix));
  return *network;
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

Result<std::vector<Address>> addresses_of(const need::Project& project, const Network& network) {
  std::vector<Address> addresses;
  uint32_t next = 1;
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
  const uint32_t usable = ~bits_of(network.prefix) - 1;  // without the network's own and the one for all
  if (next - 1 > usable)
    return failure(ErrorKind::kRequest, fmt::format("the network has {} addresses; the site's devices take them up to "
                                                    "the {}th: give a wider one",
                                                    usable, next - 1));
  return addresses;
}

std::string mask_of(const Network& network) { return dotted(bits_of(network.prefix)); }

}  // namespace sightfall::papers
