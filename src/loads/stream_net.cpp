// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/stream_net.h"

#include <queue>

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

}  // namespace

StreamNet::StreamNet(const need::Project& project, const Cabling& cabling) : project_{project}, cabling_{cabling} {
  for (size_t i = 0; i < cabling.runs.size(); ++i) {
    if (cabling.runs[i].cable->medium == site::CableMedium::kConductors) continue;
    at_[cabling.runs[i].run->from].push_back(i);
    at_[cabling.runs[i].run->to].push_back(i);
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
      const site::Run& run = *cabling_.runs[i].run;
      const std::string& there = run.from == here ? run.to : run.from;
      if (came.emplace(there, std::pair{here, i}).second) open.push(there);
    }
  }
  return {};
}

}  // namespace sightfall::loads
