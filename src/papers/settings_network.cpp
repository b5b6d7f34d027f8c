// SPDX-License-Identifier: GPL-3.0-or-later
// The address plan, and who reaches what: between cameras, recorder, house and outside, as the runs of the document
// part them.
#include <fmt/format.h>

#include <algorithm>

#include "papers/documents.h"
#include "papers/settings_rows.h"
#include "papers/told.h"

namespace sightfall::papers {
namespace {

using draw::Heading;
using draw::Paragraph;
using draw::Table;

std::string first_named(const Job& job, const char* kind) {
  for (const Address& one : job.addresses)
    if (one.kind == kind) return one.device;
  return {};
}

void add_address_plan(const Job& job, bool parted, std::vector<draw::Block>& blocks) {
  std::string about = fmt::format(
      "The cameras' network has the mask {}. Its addresses are a proposal: look first that nothing else has them. The "
      "MAC address is on the label. No device there deals out addresses (DHCP off).",
      mask_of(job.asked.network));
  if (const auto laptop = address_for_laptop(job.asked.network, job.addresses))
    about += fmt::format(" {} is kept free for the laptop of whoever sets up.", *laptop);
  if (parted)
    about +=
        " The recorder is on two networks, with a port and an address on each, and parts them. Addresses on the "
        "house's network are for whoever looks after it to give: outside the range that its router deals out" +
        std::string(job.project().settings.house_network.empty() ? ", and not within the cameras' network" : "") +
        ". Write them here.";
  if (const auto house = house_network(job.project()))
    about += fmt::format(" The house's network is {}, mask {}.", job.project().settings.house_network, mask_of(*house));
  blocks.emplace_back(Paragraph{about});
  Table table{
      {{"device", 4}, {"kind", 2}, {"network", 2}, {"address", 3}, {"MAC address", 4}, {"serial number", 3}}, {}, 18};
  for (const Address& one : job.addresses)
    table.rows.push_back({one.device, one.kind, one.house ? "house" : "cameras", one.address, "", ""});
  blocks.emplace_back(table);
}

int viewers_outside(const Job& job) {
  int all = 0;
  for (const site::Feed& feed : job.project().site.feeds) all += feed.viewers;
  return all;
}

/// From, to, whether, and by what.
void add_reach(const Job& job, bool parted, std::vector<draw::Block>& blocks) {
  const std::string recorder = first_named(job, "recorder"), router = first_named(job, "router");
  Table table{{{"from", 3}, {"to", 3}, {"reaches", 4}, {"what sees to it", 6}, {"tried", 1}}, {}};
  const auto row = [&](const char* from, const std::string& to, const char* what, const std::string& by) {
    table.rows.push_back({from, to, what, by, "[  ]"});
  };
  const std::string apart = parted ? fmt::format("two networks: \"{}\" forwards nothing between them", recorder)
                                   : "one network, as was entered: a network apart (VLAN), or a rule in the "
                                     "router; to be decided";
  if (!recorder.empty()) row("cameras", recorder, "streams, time", "sent once, to its address alone; no multicast");
  row("cameras", "house, outside", "nothing", apart + "; no gateway is typed into them");
  if (!recorder.empty()) row("house", recorder, "looks on, plays back", "an account for each who does");
  row("house", "cameras", "nothing", recorder.empty() ? "no recorder stands between: to be decided" : apart);
  if (router.empty()) {
    row("outside", "anything", "nothing", "no router is named");
  } else {
    const int viewers = viewers_outside(job);
    row("outside", recorder.empty() ? "cameras" : recorder, viewers > 0 ? "looks on" : "nothing",
        viewers > 0
            ? fmt::format("{} at once, by a virtual private network that ends in \"{}\"; no open port", viewers, router)
            : std::string("nobody is named who looks on from outside"));
    if (!recorder.empty()) row(recorder.c_str(), "outside", "time, firmware", "by \"" + router + "\", its gateway");
  }
  blocks.emplace_back(Heading{2, "Who reaches what"});
  blocks.emplace_back(table);
}

}  // namespace

void add_network(const Job& job, draw::Document& document) {
  const bool parted = !house_of(job.project()).recorders.empty();
  document.blocks.emplace_back(Heading{1, "Address plan"});
  add_address_plan(job, parted, document.blocks);
  add_reach(job, parted, document.blocks);
}

}  // namespace sightfall::papers
