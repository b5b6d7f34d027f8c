// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/stream_net.h"

#include <queue>
#include <set>

#include "loads/ports.h"

namespace sightfall::loads {
namespace {

/// By node: from which it was reached, by which run.
using Came = std::map<std::string, std::pair<std::string, size_t>>;

std::vector<size_t> way_back(const Came& came, const std::string& camera, std::string here) {
  std::vector<size_t> runs;
  while (here != camera) {
    runs.push_back(came.at(here).second);
    here = came.at(here).first;
  }
  return runs;
}

/// A port of an injector; names have no line breaks.
std::string node_at(const std::string& injector, int port) { return injector + "\n" + std::to_string(port); }

}  // namespace

StreamNet::StreamNet(const need::Project& project, const Cabling& cabling)
    : project_{project}, ends_(cabling.runs.size()) {
  std::set<std::string> by_port;  // injectors
  for (const LaidRun& laid : cabling.runs)
    if (laid.run->to_port) by_port.insert(laid.run->to);
  for (size_t i = 0; i < cabling.runs.size(); ++i) {
    if (cabling.runs[i].cable->medium == site::CableMedium::kConductors) continue;
    const site::Run& run = *cabling.runs[i].run;
    ends_[i] = {by_port.contains(run.from) ? node_at(run.from, port_of(project, run)) : run.from,
                run.to_port ? node_at(run.to, *run.to_port) : run.to};
    at_[ends_[i].first].push_back(i);
    at_[ends_[i].second].push_back(i);
  }
}

std::pair<std::vector<size_t>, std::string> StreamNet::to_recorder(const std::string& camera) const {
  return to_nearest(camera, [](const site::Feed& feed) { return feed.kind == site::FeedKind::kRecorder; });
}

std::vector<size_t> StreamNet::to_feed(const std::string& camera, const std::string& name) const {
  return to_nearest(camera, [&](const site::Feed& feed) { return feed.name == name; }).first;
}

std::pair<std::vector<size_t>, std::string> StreamNet::to_nearest(
    const std::string& camera, const std::function<bool(const site::Feed&)>& is_one) const {
  Came came;
  std::queue<std::string> open;
  open.push(camera);
  came[camera] = {};
  while (!open.empty()) {
    const std::string here = open.front();
    open.pop();
    const site::Feed* feed = need::find_named(project_.site.feeds, here);
    if (feed != nullptr && is_one(*feed)) return {way_back(came, camera, here), here};
    const auto runs = at_.find(here);
    if (runs == at_.end()) continue;
    for (const size_t i : runs->second) {
      const std::string& there = ends_[i].first == here ? ends_[i].second : ends_[i].first;
      if (came.emplace(there, std::pair{here, i}).second) open.push(there);
    }
  }
  return {};
}

}  // namespace sightfall::loads
