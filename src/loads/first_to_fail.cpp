// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/first_to_fail.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <tuple>
#include <utility>
#include <vector>

#include "loads/packets.h"
#include "loads/stream_net.h"

namespace sightfall::loads {
namespace {

using namespace units;

/// Something that more cameras would fill: how much of it is used, and what each of them would use, as shares.
struct Filled {
  std::string what;
  double used = 0, each = 0;

  int room() const {
    constexpr double kRounding = 1e-9;
    return static_cast<int>(std::clamp(std::floor((1 - used) / each + kRounding), 0.0, 1000.0));
  }
  double after() const { return used + (room() + 1) * each; }
};

class OneMore {
 public:
  OneMore(const need::Project& project, const Loads& loads, const StreamRate& like)
      : project_{project}, loads_{loads}, like_{like}, rate_{peak_of(like).nominal} {
    std::tie(runs_, recorder_) = StreamNet(project, loads.cable).to_recorder(like.camera);
  }

  std::string fails() {
    look_at_links();
    look_at_recorder();
    look_at_budgets();
    const auto first = std::min_element(filled_.begin(), filled_.end(), [](const Filled& a, const Filled& b) {
      return std::pair(a.room(), -a.after()) < std::pair(b.room(), -b.after());
    });
    const std::optional<FreePorts> ports = free_ports();
    if (ports && (first == filled_.end() || ports->free <= first->room()))
      return room_for(ports->free) + (ports->free == 0 ? ": " : "; then ") + ports->words + " are in use";
    if (first == filled_.end())
      return fmt::format("No capacity is known that another camera like \"{}\" would use", like_.camera);
    return fmt::format("{}{} would use {} to {:.0f} %", room_for(first->room()),
                       first->room() == 0 ? ": it" : "; the next", first->what, 100 * first->after());
  }

 private:
  /// Ports of the feed next to the camera that another one could hang on.
  struct FreePorts {
    int free = 0;
    std::string words;
  };

  std::string room_for(int more) const {
    const std::string like = fmt::format("like \"{}\", which sends most", like_.camera);
    if (more == 0) return "No room for another camera " + like;
    return more == 1 ? "Room for one more camera " + like : fmt::format("Room for {} more cameras {}", more, like);
  }

  template <class T>
  void look(const Bearing<T>& bearing, T more, const std::string& what) {
    if (bearing.capacity && more > T{0})
      filled_.push_back({what, bearing.load.nominal / *bearing.capacity, more / *bearing.capacity});
  }

  void look_at_links() {
    for (const LinkLoad& link : loads_.network.links) {
      const bool on_the_way =
          std::any_of(runs_.begin(), runs_.end(), [&](size_t i) { return loads_.cable.runs[i].run->name == link.run; });
      if (on_the_way && link.to != like_.camera) look(link.rate, kOverRtp * rate_, "the link \"" + link.run + "\"");
    }
  }

  void look_at_recorder() {
    for (const IntakeLoad& intake : loads_.network.intakes)
      if (intake.recorder == recorder_) look(intake.rate, rate_, "the intake of \"" + recorder_ + "\"");
    for (const RecorderStorage& kept : loads_.storage.recorders) {
      if (kept.recorder != recorder_ || kept.wanted.rule.empty()) continue;
      const double more = a_day_of(project_, like_).nominal / kept.a_day.nominal;
      look(kept.wanted, more * kept.wanted.load.nominal,
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
      look(feed->budget, feed->apparent ? more / apparent_share(name) : more,
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

  std::optional<FreePorts> free_ports() const {
    if (runs_.empty()) return std::nullopt;
    const std::string& name = loads_.cable.runs[runs_.back()].run->from;
    const site::Feed& feed = need::the_named(project_.site.feeds, name);
    const auto& uses = loads_.network.ports;
    const auto use = std::find_if(uses.begin(), uses.end(), [&](const PortsUse& one) { return one.feed == name; });
    const int in_use = use == uses.end() ? 0 : use->taken;
    const auto powered = std::count_if(loads_.power.ports.begin(), loads_.power.ports.end(),
                                       [&](const PortLoad& one) { return one.feed == name; });
    const auto left = [](int count, auto taken) { return std::max(0, count - static_cast<int>(taken)); };
    const int any = left(feed.ports.count, in_use), fed = left(feed.ports.powered, powered);
    if (powered > 0 && fed <= any)
      return FreePorts{fed, fmt::format("all {} powered ports of \"{}\"", feed.ports.powered, name)};
    return FreePorts{any, fmt::format("all {} ports of \"{}\"", feed.ports.count, name)};
  }

  const need::Project& project_;
  const Loads& loads_;
  const StreamRate& like_;
  DataRate rate_;
  std::vector<size_t> runs_;
  std::string recorder_;
  std::vector<Filled> filled_;
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
