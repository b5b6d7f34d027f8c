// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/first_to_fail.h"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "loads/packets.h"
#include "loads/stream_net.h"

namespace sightfall::loads {
namespace {

using namespace units;

template <class T>
double used(const Bearing<T>& bearing, T more) {
  return bearing.capacity ? (bearing.load.nominal + more) / *bearing.capacity : 0;
}

class OneMore {
 public:
  OneMore(const need::Project& project, const Loads& loads, const StreamRate& like)
      : project_{project}, loads_{loads}, like_{like}, rate_{peak_of(like).nominal} {
    std::tie(runs_, recorder_) = StreamNet(project, loads.cable).to_recorder(like.camera);
  }

  std::string fails() {
    if (std::string full = full_feed(); !full.empty()) return full;
    look_at_links();
    look_at_recorder();
    look_at_budgets();
    if (what_.empty()) return "nothing whose capacity is known";
    return fmt::format("{}, then used to {:.0f} % by another camera like \"{}\"", what_, 100 * fullest_, like_.camera);
  }

 private:
  void look(double share, const std::string& what) {
    if (share > fullest_) fullest_ = share, what_ = what;
  }

  void look_at_links() {
    for (const LinkLoad& link : loads_.network.links) {
      const bool on_the_way =
          std::any_of(runs_.begin(), runs_.end(), [&](size_t i) { return loads_.cable.runs[i].run->name == link.run; });
      if (on_the_way && link.to != like_.camera)
        look(used(link.rate, kOverRtp * rate_), "the link \"" + link.run + "\"");
    }
  }

  void look_at_recorder() {
    for (const IntakeLoad& intake : loads_.network.intakes)
      if (intake.recorder == recorder_) look(used(intake.rate, rate_), "the intake of \"" + recorder_ + "\"");
    for (const RecorderStorage& kept : loads_.storage.recorders) {
      if (kept.recorder != recorder_ || kept.wanted.rule.empty()) continue;
      const double more = a_day_of(project_, like_).nominal / kept.a_day.nominal;
      look(used(kept.wanted, more * kept.wanted.load.nominal),
           fmt::format("the disks of \"{}\" for the {:.3g} days wanted", recorder_, project_.keeping.wanted->in(day)));
    }
  }

  /// Of the feed that feeds it, and of those that feed that one in turn.
  void look_at_budgets() {
    for (const PortLoad& port : loads_.power.ports)
      if (port.to == like_.camera) climb(port.feed, port.device.load.nominal + port.lost.nominal);
    for (const SupplyRun& run : loads_.power.supply_runs)
      for (const Draw& draw : loads_.power.draws)
        if (run.to == like_.camera && draw.camera == run.to) climb(run.feed, draw.largest.nominal + run.lost);
  }

  void climb(std::string name, Power more) {
    while (const FeedLoad* feed = load_of(name)) {
      look(used(feed->budget, feed->apparent ? more / apparent_share(name) : more),
           "what \"" + name + "\" gives its ports or runs");
      name = feed->fed_by;
      more = more / project_.settings.typical.supply_efficiency.value.nominal;
    }
  }

  double apparent_share(const std::string& supply) const {
    return power_factor_of(need::the_named(project_.site.feeds, supply)).nominal;
  }

  const FeedLoad* load_of(const std::string& name) const {
    for (const FeedLoad& feed : loads_.power.feeds)
      if (feed.feed == name) return &feed;
    return nullptr;
  }

  /// The feed next to the camera that has no port left.
  std::string full_feed() const {
    if (runs_.empty()) return {};
    const std::string& name = loads_.cable.runs[runs_.back()].run->from;
    const site::Feed& feed = need::the_named(project_.site.feeds, name);
    const auto in_use = std::count_if(loads_.cable.runs.begin(), loads_.cable.runs.end(),
                                      [&](const LaidRun& one) { return one.run->from == name; });
    if (in_use >= feed.ports.count)
      return fmt::format("the ports of \"{}\": all {} are in use", name, feed.ports.count);
    const auto powered = std::count_if(loads_.power.ports.begin(), loads_.power.ports.end(),
                                       [&](const PortLoad& one) { return one.feed == name; });
    if (powered == 0 || powered < feed.ports.powered) return {};
    return fmt::format("the powered ports of \"{}\": all {} are in use", name, feed.ports.powered);
  }

  const need::Project& project_;
  const Loads& loads_;
  const StreamRate& like_;
  DataRate rate_;
  std::vector<size_t> runs_;
  std::string recorder_;
  double fullest_ = 0;
  std::string what_;
};

}  // namespace

std::string first_to_fail(const need::Project& project, const Loads& loads) {
  const std::vector<StreamRate>& rates = loads.network.rates;
  const auto most = std::max_element(rates.begin(), rates.end(), [](const StreamRate& a, const StreamRate& b) {
    return peak_of(a).nominal < peak_of(b).nominal;
  });
  return most == rates.end() ? std::string{} : OneMore(project, loads, *most).fails();
}

}  // namespace sightfall::loads
