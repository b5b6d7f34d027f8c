// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/power.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "loads/poe.h"
#include "loads/power_parts.h"
#include "loads/ranges.h"

namespace sightfall::loads {
namespace {

using namespace units;
using site::Feed;
using site::FeedKind;

/// Goes through the feeds from those that hang on others up to those on the mains.
class Feeder {
 public:
  Feeder(const need::Project& project, const Cabling& cabling)
      : project_{project}, typical_{project.settings.typical}, cabling_{cabling} {
    for (const camera::Camera& camera : project.cameras) answer_.draws.push_back(draw_of(project, camera));
  }

  PowerLoads reckon() {
    for (const Feed& feed : project_.site.feeds) on(feed);
    for (const auto& [run, port] : ports_) answer_.ports.push_back(port);
    for (const auto& [run, supply_run] : supply_runs_) answer_.supply_runs.push_back(supply_run);
    find_unfed();
    add_feeds();
    add_batteries();
    add_cautions();
    judge();
    return std::move(answer_);
  }

 private:
  /// All that hangs on a feed. The rules between things have seen to it that feeds do not feed each other in a loop.
  const OnFeed& on(const Feed& feed) {
    const auto known = on_.find(feed.name);
    if (known != on_.end()) return known->second;
    OnFeed sum{};
    for (size_t i = 0; i < cabling_.runs.size(); ++i)
      if (cabling_.runs[i].run->from == feed.name) take(i, feed, sum);
    return on_.emplace(feed.name, sum).first->second;
  }

  void take(size_t run, const Feed& feed, OnFeed& sum) {
    const LaidRun& laid = cabling_.runs[run];
    const bool supply = feed.kind == FeedKind::kSupply;
    if (!supply && !laid.powered) return;
    const Hung hung = at_end(laid);
    if (supply) {
      const SupplyRun& taken = supply_runs_.emplace(run, supply_run(laid, feed, hung, typical_)).first->second;
      add(sum, hung, Ranged<Power>::exact(taken.lost));
    } else {
      const PortLoad& taken = ports_.emplace(run, port_load(laid, feed, hung, typical_)).first->second;
      // Over fibre comes no power: what hangs there is fed beside it, and counts towards the energy alone.
      const bool fibre = laid.to_lay().medium == site::CableMedium::kFibre;
      const Ranged<Power> others = sum.largest;
      add(sum, hung, taken.lost);
      if (fibre)
        sum.largest = others;
      else
        sum.set_aside = sum.set_aside + power_class(taken.power_class).port;
    }
  }

  /// What takes its power from the run.
  Hung at_end(const LaidRun& laid) {
    const std::string& name = laid.run->to;
    if (const camera::Camera* camera = need::find_named(project_.cameras, name)) {
      const Draw& draw = answer_.draws[static_cast<size_t>(camera - project_.cameras.data())];
      return Hung{name,
                  draw.by_day,
                  draw.by_night,
                  draw.largest,
                  need::the_named(project_.catalogue, camera->sheet).power.supply,
                  true};
    }
    const Feed& feed = need::the_named(project_.site.feeds, name);
    fed_by_[name] = laid.run->from;
    return hung_of(feed, on(feed), typical_);
  }

  void find_unfed() {
    for (const Draw& draw : answer_.draws) {
      const auto ends = [&](const auto& one) { return one.to == draw.camera; };
      if (std::none_of(answer_.ports.begin(), answer_.ports.end(), ends) &&
          std::none_of(answer_.supply_runs.begin(), answer_.supply_runs.end(), ends))
        answer_.unfed.push_back(draw.camera);
    }
  }

  void add_feeds() {
    for (const Feed& feed : project_.site.feeds) {
      if (feed.kind == FeedKind::kBattery) continue;
      FeedLoad load = feed_load(feed, on(feed), typical_);
      if (const auto fed = fed_by_.find(feed.name); fed != fed_by_.end()) {
        load.fed_by = fed->second;
        load.mains_day = load.mains_night = {};
      }
      answer_.a_year = added(answer_.a_year, each(added(load.mains_day, load.mains_night),
                                                  [](Power both) { return both / 2 * (365.25 * day); }));
      if (feed.kind == FeedKind::kSupply || feed.ports.powered > 0 || feed.draw)
        answer_.feeds.push_back(std::move(load));
    }
  }

  void add_batteries() {
    for (const Feed& feed : project_.site.feeds) {
      if (feed.kind != FeedKind::kBattery) continue;
      if (auto life = battery_life(project_, feed, answer_.feeds)) {
        answer_.batteries.push_back(std::move(*life));
      } else {
        caution(feed.name, "carries nothing: name it as the battery of a feed");
        if (feed.wanted) answer_.idle.push_back(feed.name);
      }
    }
  }

  void caution(const std::string& about, std::string text) { answer_.cautions.push_back({about, std::move(text)}); }

  /// What is left out, where the user meets it.
  void add_cautions() {
    for (const std::string& camera : answer_.unfed)
      caution(camera, "nothing feeds it: draw a run from a powered port or a supply to it");
    for (const Feed& feed : project_.site.feeds) {
      if (feed.outdoors)
        caution(
            feed.name,
            "hangs outdoors: in a box that keeps out water and insects, and of a kind that bears the heat and frost "
            "in it (common practice, no published source)");
      if (feed.kind == FeedKind::kBattery) continue;
      if (!feed.draw && feed.kind != FeedKind::kSupply)
        caution(feed.name, "states no draw of its own: energy and battery hours leave it out");
      if (feed.alternating && !feed.power_factor)
        caution(feed.name,
                fmt::format("states no power factor of what hangs on it: {:g} ({:g} to {:g}, from memory) is "
                            "taken; a lower one takes more current and loses more on the way",
                            kPowerFactor.nominal, kPowerFactor.low, kPowerFactor.high));
    }
    for (const camera::Camera& camera : project_.cameras) {
      const camera::PowerDraw& stated = need::the_named(project_.catalogue, camera.sheet).power;
      if (!stated.largest && (!stated.heater || !stated.motor))
        caution(camera.name,
                "its sheet states no largest draw: a heater or a motor of which it says nothing is not counted");
    }
    if (!answer_.draws.empty())
      caution("",
              "half of the hours are taken as dark for energy, and heaters and motors that sheets state as running all "
              "the time at the high end and still otherwise, for energy and battery hours");
    caution("",
            "work on mains is for licensed trades, and local codes decide; fuses, earths and start-up currents are "
            "not reckoned with here");
  }

  void judge() {
    Held held = answer_.unfed.empty() && answer_.idle.empty() ? Held::kMet : Held::kUnknown;
    for (const PortLoad& port : answer_.ports) held = worse(held, port.held);
    for (const SupplyRun& run : answer_.supply_runs) held = worse(held, run.held);
    for (const FeedLoad& feed : answer_.feeds)
      if (feed.budget.load.nominal > Power{0}) held = worse(held, feed.budget.held);
    for (const BatteryLife& battery : answer_.batteries)
      if (!battery.wanted.rule.empty()) held = worse(held, battery.wanted.held);
    answer_.held = held;
  }

  const need::Project& project_;
  const detail::Typical& typical_;
  const Cabling& cabling_;
  std::map<std::string, OnFeed> on_;
  std::map<size_t, PortLoad> ports_;  ///< by run, which is the document's order
  std::map<size_t, SupplyRun> supply_runs_;
  std::map<std::string, std::string> fed_by_;
  PowerLoads answer_;
};

}  // namespace

PowerLoads power(const need::Project& project, const Cabling& cabling) { return Feeder(project, cabling).reckon(); }

}  // namespace sightfall::loads
