// SPDX-License-Identifier: GPL-3.0-or-later
// Feeds that other feeds feed. Loops need no rule of their own: power goes along runs of network, which may close none
// (rules_carriers.cpp), or from a supply, which nothing feeds.
#include <algorithm>

#include "file/by_name.h"
#include "file/rules.h"

namespace sightfall::file {
namespace {

using site::Feed;
using site::FeedKind;
using site::Run;

template <class Named>
const Named* known(const std::vector<Named>& all, const std::string& name) {
  const auto at = std::find_if(all.begin(), all.end(), [&](const Named& one) { return one.name == name; });
  return at == all.end() ? nullptr : &*at;
}

class Fed {
 public:
  Fed(const need::Project& project, Report& report) : project_{project}, report_{report} {}

  void check() {
    const site::Site& site = project_.site;
    if (!report_.clean("site", "feeds") || !report_.clean("site", "runs")) return;
    for (size_t i = 0; i < site.runs.size(); ++i) {
      const Feed* to = known(site.feeds, site.runs[i].to);
      const Spot spot = item_spot("site.runs", i, site.runs[i].name);
      if (to != nullptr && to->kind == FeedKind::kSupply && report_.clean(spot.path, "to"))
        wrong(spot.at("to"), "found the supply " + in_quotes(to->name) + ", which takes its power from the mains");
    }
    for (size_t i = 0; i < site.feeds.size(); ++i)
      check_feed(site.feeds[i], item_spot("site.feeds", i, site.feeds[i].name));
  }

 private:
  void wrong(const Spot& spot, std::string text) { report_.add(ErrorKind::kField, spot, std::move(text)); }

  site::CableMedium medium(const Run& run) const {
    const site::Cable* cable = known(project_.settings.cables, run.cable);
    return cable != nullptr ? cable->medium : site::CableMedium::kFibre;
  }

  bool from_powered_port(const Run& run) const {
    const Feed* from = known(project_.site.feeds, run.from);
    return from != nullptr && medium(run) == site::CableMedium::kPairs && from->ports.powered >= run.port.value_or(1);
  }

  void check_feed(const Feed& feed, const Spot& spot) {
    if (!report_.clean(spot.path, "")) return;
    const Run *by_pairs = nullptr, *by_conductors = nullptr;
    const auto& runs = project_.site.runs;
    for (size_t i = 0; i < runs.size(); ++i) {
      if (runs[i].to != feed.name) continue;
      for (const char* field : {"", "from", "port", "cable"})
        if (!report_.clean(item_spot("site.runs", i, {}).path, field)) return;
      if (medium(runs[i]) == site::CableMedium::kConductors) by_conductors = &runs[i];
      if (from_powered_port(runs[i])) by_pairs = &runs[i];
    }
    if (feed.powered_over_cable && by_conductors != nullptr)
      wrong(spot.at("powered_over_cable"), "found true; the supply at " + in_quotes(by_conductors->name) +
                                               " feeds it already; allowed is one of the two");
    else if (feed.powered_over_cable && by_pairs == nullptr)
      wrong(spot.at("powered_over_cable"), "found true; no cable of pairs leads to it from a powered port");
    const Run* by = feed.powered_over_cable ? by_pairs : by_conductors;
    if (by != nullptr && !feed.battery.empty() && report_.clean(spot.path, "battery"))
      wrong(spot.at("battery"),
            "found " + in_quotes(feed.battery) + "; " + in_quotes(by->from) + " feeds it, so name the battery there");
  }

  const need::Project& project_;
  Report& report_;
};

}  // namespace

void check_fed_feeds(const need::Project& project, Report& report) { Fed(project, report).check(); }

}  // namespace sightfall::file
