// SPDX-License-Identifier: GPL-3.0-or-later
// What is typed into what stands between the cameras and who looks: router, recorder, switches. What the document does
// not say is a line to fill.
#include <fmt/format.h>

#include <algorithm>

#include "papers/documents.h"
#include "papers/run_words.h"
#include "papers/settings_rows.h"
#include "papers/told.h"

namespace sightfall::papers {
namespace {

using namespace units;

constexpr const char* kNotNamed = "none is named";

/// The router on the cameras' network, with its address; empty where there is none.
std::string router_beside(const Job& job) {
  for (const Address& one : job.addresses)
    if (one.kind == "router" && !one.house) return fmt::format("{} ({})", one.address, one.device);
  return {};
}

/// The router on the house's network, whose address is not ours to give.
std::string router_of_house(const Job& job) {
  for (const Address& one : job.addresses)
    if (one.kind == "router" && one.house) return fmt::format("{} ({})", or_line(""), one.device);
  return {};
}

bool has_two_networks(const Job& job, const std::string& device) {
  return std::count_if(job.addresses.begin(), job.addresses.end(),
                       [&](const Address& one) { return one.device == device; }) > 1;
}

/// A line for an address on the house's network, with what is known of it.
std::string house_address(const Job& job) {
  const auto house = house_network(job.project());
  return house ? fmt::format("{} mask {}", or_line(""), mask_of(*house)) : or_line("");
}

/// Who gives an address on the house's network, and within which.
std::string house_giver(const Job& job) {
  const std::string& house = job.project().settings.house_network;
  return house.empty() ? "whoever looks after it gives it" : "within " + house + ": whoever looks after it gives it";
}

void add_addresses(const Job& job, const Address& device, SettingRows& rows) {
  const std::string ours = fmt::format("{} mask {}", device.address, mask_of(job.asked.network));
  if (device.house) {
    rows.push_back({"network address", house_address(job), "on the house's network, " + house_giver(job)});
    if (device.kind != "router") rows.push_back({"gateway", or_line(router_of_house(job)), "on the house's network"});
    return;
  }
  if (!has_two_networks(job, device.device)) {
    rows.push_back({"network address", ours, ""});
    if (device.kind == "router") return;
    const std::string router = router_beside(job);
    const bool parted = !house_of(job.project()).recorders.empty();
    rows.push_back({"gateway", parted ? "none" : or_line(router),
                    parted           ? "nothing on the cameras' network leads out"
                    : router.empty() ? kNotNamed
                                     : "the router, for time and firmware"});
    return;
  }
  rows.push_back({"network address, cameras' network", ours, "no gateway on this side"});
  rows.push_back({"network address, house's network", house_address(job), house_giver(job)});
  const std::string router = router_of_house(job);
  rows.push_back({"gateway", or_line(router),
                  router.empty() ? kNotNamed : "the router's address on the house's network, for time and firmware"});
  rows.push_back({"between its two networks", "forwards nothing: routing and bridging off",
                  "cameras and house meet in its recordings alone"});
}

void add_common(const Job& job, const Address& device, SettingRows& rows) {
  rows.push_back({"kind", device.kind, ""});
  rows.push_back({"name", device.device, ""});
  add_addresses(job, device, rows);
  rows.push_back({"password", "one of its own", "handed over apart, not in these papers"});
  rows.push_back({"firmware", or_line(""), "the maker's newest, from the maker; write the version"});
  const std::string zone = job.project().site.anchor ? job.project().site.anchor->time_zone : "";
  rows.push_back({"time zone", or_line(zone), zone.empty() ? kNotNamed : "the same in every device"});
  const bool house = device.house || has_two_networks(job, device.device);
  const std::string time = device.kind == "router"     ? std::string{}
                           : house                     ? router_of_house(job)
                           : device.kind == "recorder" ? router_beside(job)
                                                       : time_source(job);
  rows.push_back({"time from (NTP)", or_line(time), time.empty() ? "a time server that it reaches; " : ""});
  if (time.empty()) rows.back().back() += kNotNamed;
  rows.push_back({"not needed, off", "remote discovery, cloud links, web and file access without encryption", ""});
  if (device.kind == "switch" && !device.house)
    rows.push_back({"multicast", "not needed", "each camera sends one stream, to its recorder; the loads count so"});
  if (house_of(job.project()).recorders.empty())
    rows.push_back({"network apart (VLAN), number", or_line(""), "or cables and switches of its own; none is named"});
}

void add_router(const Job& job, const site::Feed& feed, SettingRows& rows) {
  rows.push_back({"open from outside", "no port", "who looks from outside comes through a virtual private network"});
  rows.push_back({"who looks from outside at once", feed.viewers > 0 ? std::to_string(feed.viewers) : "nobody",
                  feed.viewers > 0 ? "as the loads count; an account for each" : "as was entered"});
  rows.push_back({"line to outside, upwards",
                  feed.upload ? fmt::format("{:g} Mbit/s", feed.upload->in(Mbit / s)) : or_line(""),
                  feed.upload ? "stated, not measured: measure it" : kNotNamed});
  if (house_of(job.project()).devices.contains(feed.name)) {
    rows.push_back({"to the cameras' network", "no route", "it is reached through the recorder alone"});
    return;
  }
  rows.push_back({"from cameras to outside", "closed", "unless the owner wants it"});
  rows.push_back({"from the house to cameras", "closed", "they are reached through the recorder alone"});
  rows.push_back({"addresses", "those of the address plan alone", counted(job.addresses.size(), "device")});
}

std::string disks_words(const site::Disks& disks) {
  const char* kinds[] = {"no redundancy", "mirror", "RAID 5", "RAID 6", "RAID 10"};
  return fmt::format("{} x {:g} TB, {}", disks.count, disks.each.in(1e12 * byte),
                     kinds[static_cast<int>(disks.redundancy)]);
}

void add_keeping(const Job& job, const loads::RecorderStorage* storage, SettingRows& rows) {
  const need::Keeping& keeping = job.project().keeping;
  rows.push_back({"days wanted, at least", keeping.wanted ? fmt::format("{:g}", keeping.wanted->in(day)) : or_line(""),
                  keeping.wanted ? "as asked" : kNotNamed});
  rows.push_back({"deleted after, days", keeping.most ? fmt::format("{:g}", keeping.most->in(day)) : or_line(""),
                  keeping.most ? keeping.reason : "the law where it stands may set a cap; none is named"});
  if (storage == nullptr || storage->a_day.high <= DataSize{}) return;
  const bool enough = !keeping.wanted || storage->wanted.held == loads::Held::kMet;
  rows.push_back(
      {"days that the disks hold",
       ranged({storage->told.low.in(1.0 * day), storage->told.nominal.in(1.0 * day), storage->told.high.in(1.0 * day)}),
       enough ? "by forecast, to compare with what it tells after a week"
              : "by forecast; the days wanted are " + std::string(loads::in_words(storage->wanted.held)) +
                    ": settle it first"});
}

void add_recorder(const Job& job, const site::Feed& feed, SettingRows& rows) {
  const auto& all = job.here.loads.storage.recorders;
  const auto at = std::find_if(all.begin(), all.end(), [&](const auto& one) { return one.recorder == feed.name; });
  const loads::RecorderStorage* storage = at == all.end() || !at->lacks.empty() ? nullptr : &*at;
  rows.push_back({"disks", feed.disks ? disks_words(*feed.disks) : or_line(""), feed.disks ? "" : kNotNamed});
  if (storage != nullptr && storage->rebuild)
    rows.push_back(
        {"disks that may fail", fmt::format("{}, without a loss", storage->may_fail),
         fmt::format("a new one is whole again after {} hours, by forecast; the recorder tells of it by mail "
                     "or alarm: to whom",
                     ranged({storage->rebuild->low.in(hour), storage->rebuild->nominal.in(hour),
                             storage->rebuild->high.in(hour)}))});
  rows.push_back({"when full", "writes over the oldest", ""});
  add_keeping(job, storage, rows);
  if (storage == nullptr || storage->cameras.empty()) {
    rows.push_back({"cameras", or_line(""), "no run leads from them to it, as far as was entered"});
    return;
  }
  for (const std::string& name : storage->cameras)
    rows.push_back({"records " + name, recorded_words(need::the_named(job.project().cameras, name).recording),
                    "from " + address_of(job, name)});
}

void add_power(const Job& job, const site::Feed& feed, SettingRows& rows) {
  if (feed.ports.powered == 0) return;
  rows.push_back({"power over Ethernet",
                  fmt::format("ports 1 to {}, class {}", feed.ports.powered, feed.ports.power_class),
                  feed.ports.budget ? fmt::format("{:g} W for all together", feed.ports.budget->in(W))
                                    : "what it gives to all together is not stated"});
  if (const std::string remark = power_remark(job, feed); !remark.empty())
    rows.push_back({"power, before it is bought", remark, "how it allots stands in its own papers"});
}

void add_ports(const Job& job, const site::Feed& feed, SettingRows& rows) {
  std::vector<PortTaken> taken = ports_taken(job.project(), feed);
  put_in_port_order(taken);
  for (const PortTaken& one : taken) {
    const bool camera = need::find_named(job.project().cameras, one.run->to) != nullptr;
    std::string why = network_of_run(job, feed, *one.run);
    if (const std::string more = port_remark(job, *one.run); !more.empty()) why += (why.empty() ? "" : "; ") + more;
    if (camera)
      why += fmt::format("{}locked to the MAC address of {}, where others can reach the cable", why.empty() ? "" : "; ",
                         address_of(job, one.run->to));
    rows.push_back({"port " + port_words(feed, one),
                    fmt::format("{} {} {}", one.run->name, one.incoming ? "from" : "to",
                                one.incoming ? one.run->from : one.run->to),
                    why});
  }
  std::string free;
  for (int port = 1; port <= feed.ports.count; ++port)
    if (std::none_of(taken.begin(), taken.end(), [&](const PortTaken& one) { return one.port == port; }))
      free += (free.empty() ? "" : ", ") + std::to_string(port);
  const bool house = house_of(job.project()).devices.contains(feed.name);
  if (!free.empty()) rows.push_back({"free ports", free, house ? "for the house's own devices" : "off"});
}

}  // namespace

void add_devices(const Job& job, draw::Document& document) {
  const bool any =
      std::any_of(job.addresses.begin(), job.addresses.end(), [](const Address& one) { return one.kind != "camera"; });
  if (!any) return;
  document.blocks.emplace_back(draw::Heading{1, "Router, recorder, switches", true});
  document.blocks.emplace_back(draw::Paragraph{
      "A line is to be filled where nothing was entered: a copy with all lines filled stays with the owner, "
      "passwords apart."});
  std::string before;
  for (const Address& device : job.addresses) {
    if (device.kind == "camera" || device.device == before) continue;
    const site::Feed& feed = need::the_named(job.project().site.feeds, device.device);
    SettingRows rows;
    add_common(job, device, rows);
    if (feed.kind == site::FeedKind::kRouter) add_router(job, feed, rows);
    if (feed.kind == site::FeedKind::kRecorder) add_recorder(job, feed, rows);
    add_power(job, feed, rows);
    add_ports(job, feed, rows);
    if (ports_taken(job.project(), feed).empty())
      rows.push_back({"its cable", kNoRun, "as it stands it is on no network: draw a run, with the ports it joins"});
    document.blocks.emplace_back(draw::Heading{2, device.device});
    document.blocks.emplace_back(settings_table(std::move(rows)));
    before = device.device;
  }
}

}  // namespace sightfall::papers
