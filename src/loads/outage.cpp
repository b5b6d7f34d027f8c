// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/outage.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "loads/stream_net.h"

namespace sightfall::loads {
namespace {

using site::Feed;
using site::FeedKind;

/// Whether a battery carries the feed, or one that does not fail feeds it.
bool goes_on(const need::Project& project, const PowerLoads& power, const std::string& name) {
  std::string here = name;
  for (size_t steps = 0; steps <= project.site.feeds.size(); ++steps) {
    const Feed* feed = need::find_named(project.site.feeds, here);
    if (feed == nullptr) return false;
    if (feed->kind == FeedKind::kBattery || !feed->battery.empty()) return true;
    const auto load =
        std::find_if(power.feeds.begin(), power.feeds.end(), [&](const FeedLoad& one) { return one.feed == here; });
    if (load == power.feeds.end() || load->fed_by.empty()) return false;
    here = load->fed_by;
  }
  return false;
}

/// Feeds that a camera takes its power from, and those that its pictures pass.
std::set<std::string> feeds_of(const StreamNet& net, const Cabling& cabling, const PowerLoads& power,
                               const std::string& camera) {
  std::set<std::string> names;
  for (const PortLoad& port : power.ports)
    if (port.to == camera) names.insert(port.feed);
  for (const SupplyRun& run : power.supply_runs)
    if (run.to == camera) names.insert(run.feed);
  for (const size_t i : net.to_recorder(camera).first)
    for (const std::string& end : {cabling.runs[i].run->from, cabling.runs[i].run->to})
      if (end != camera) names.insert(end);
  return names;
}

}  // namespace

Outage outage(const need::Project& project, const Cabling& cabling, const PowerLoads& power) {
  Outage answer;
  const std::vector<Feed>& feeds = project.site.feeds;
  if (std::none_of(feeds.begin(), feeds.end(), [](const Feed& feed) { return !feed.battery.empty(); })) return answer;
  const StreamNet net(project, cabling);
  for (const camera::Camera& camera : project.cameras) {
    bool lost = false;
    for (const std::string& name : feeds_of(net, cabling, power, camera.name)) {
      if (goes_on(project, power, name)) continue;
      lost = true;
      if (std::find(answer.feeds.begin(), answer.feeds.end(), name) == answer.feeds.end()) answer.feeds.push_back(name);
    }
    if (lost) answer.cameras.push_back(camera.name);
  }
  return answer;
}

std::string in_words(const Outage& outage) {
  if (outage.cameras.empty()) return {};
  return fmt::format("when the mains fail, {} {} no longer recorded: no battery carries {}",
                     fmt::join(outage.cameras, ", "), outage.cameras.size() == 1 ? "is" : "are",
                     fmt::join(outage.feeds, ", "));
}

}  // namespace sightfall::loads
