// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/power.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "loads/battery.h"
#include "loads/copper.h"
#include "loads/poe.h"
#include "loads/ranges.h"

namespace sightfall::loads {
namespace {

using namespace units;
using site::Feed;
using site::FeedKind;

Ranged<Power> watts(const Ranged<double>& range) {
  return each(range, [](double w) { return Power{w}; });
}
Ranged<double> plain(const Ranged<Power>& range) {
  return each(range, [](Power w) { return w.si(); });
}
Ranged<Power> exactly(const std::optional<Power>& stated) { return Ranged<Power>::exact(stated.value_or(Power{0})); }

Ranged<Power> infrared_draw(const camera::Sheet& sheet, const camera::Camera& camera, const detail::Typical& typical) {
  if (!sheet.infrared || camera.infrared == camera::InfraredUse::kOff) return {};
  if (sheet.infrared->draw) return exactly(sheet.infrared->draw);
  if (sheet.power.largest) {
    const Power largest = *sheet.power.largest;
    return each(typical.infrared_share.value, [&](double share) { return share * largest; });
  }
  return watts(typical.infrared_draw.value);
}

Draw draw_of(const need::Project& project, const camera::Camera& camera) {
  const camera::Sheet& sheet = need::the_named(project.catalogue, camera.sheet);
  const detail::Typical& typical = project.settings.typical;
  Draw draw{camera.name, {}, {}, {}, {}, {}, {}, {}};
  draw.body = sheet.power.typical ? exactly(sheet.power.typical) : watts(typical.body_draw.value);
  draw.infrared = infrared_draw(sheet, camera, typical);
  draw.heater = exactly(sheet.power.heater);
  draw.motor = exactly(sheet.power.motor);
  draw.by_day = camera.infrared == camera::InfraredUse::kOn ? added(draw.body, draw.infrared) : draw.body;
  draw.by_night = added(draw.body, draw.infrared);
  draw.largest =
      sheet.power.largest ? exactly(sheet.power.largest) : added(draw.by_night, added(draw.heater, draw.motor));
  return draw;
}

/// The first power class that the range of draws fits in, in words.
std::string port_for(Power drawn) {
  const auto number = class_for(drawn);
  return number ? fmt::format("a port and a camera of class {}", *number) : "a supply of its own";
}

class Feeder {
 public:
  Feeder(const need::Project& project, const Cabling& cabling)
      : project_{project}, typical_{project.settings.typical}, cabling_{cabling} {
    for (const camera::Camera& camera : project.cameras) answer_.draws.push_back(draw_of(project, camera));
  }

  PowerLoads reckon() {
    for (const LaidRun& laid : cabling_.runs) take(laid);
    find_unfed();
    for (const Feed& feed : project_.site.feeds)
      if (feed.kind != FeedKind::kBattery) add_feed(feed);
    for (const Feed& feed : project_.site.feeds)
      if (feed.kind == FeedKind::kBattery) add_battery(feed);
    for (const FeedLoad& feed : answer_.feeds)
      answer_.a_year = added(answer_.a_year, each(added(feed.mains_day, feed.mains_night),
                                                  [](Power both) { return both / 2 * (365.25 * day); }));
    judge();
    add_cautions();
    answer_.cautions.push_back({"",
                                "work on mains is for licensed trades, and local codes decide; fuses, earths and "
                                "start-up currents are not reckoned with here"});
    return std::move(answer_);
  }

 private:
  const Draw* draw_named(const std::string& camera) const {
    for (const Draw& one : answer_.draws)
      if (one.camera == camera) return &one;
    return nullptr;
  }

  Ranged<double> warm() const {
    return each(typical_.conductor_temperature.value, [](double c) { return warmed(c); });
  }

  /// Range of a loop of the run, `parallel` conductors each way, ohm.
  Ranged<double> loop_of(const LaidRun& laid, int parallel) const {
    const Ranged<double> length = each(laid.length, [](Length one) { return one.si(); });
    const double per_metre = laid.cable->resistance.value_or(Resistivity{0}).si();
    return product({length, warm(), Ranged<double>::exact(2 * per_metre / parallel)});
  }

  void take(const LaidRun& laid) {
    const Feed& feed = need::the_named(project_.site.feeds, laid.run->from);
    const Draw* draw = draw_named(laid.run->to);
    if (draw == nullptr) return;
    if (feed.kind == FeedKind::kSupply) return take_supply(laid, feed, *draw);
    if (laid.cable->medium != site::CableMedium::kPairs || feed.ports.powered == 0) return;
    if (laid.run->port && *laid.run->port > feed.ports.powered) return;
    take_port(laid, feed, *draw);
  }

  void take_port(const LaidRun& laid, const Feed& feed, const Draw& draw) {
    const camera::Camera& camera = need::the_named(project_.cameras, draw.camera);
    const auto& supply = need::the_named(project_.catalogue, camera.sheet).power.supply;
    const std::optional<int> asked = supply ? class_in_words(*supply) : std::nullopt;
    PortLoad port;
    port.run = laid.run->name, port.feed = feed.name, port.port = laid.run->port, port.to = draw.camera;
    port.power_class = std::min(feed.ports.power_class, asked && *asked > 0 ? *asked : feed.ports.power_class);
    const PowerClass& in_force = power_class(port.power_class);
    port.device = bear(draw.largest, std::optional(in_force.device),
                       fmt::format("what a device of class {} may draw, IEEE 802.3{}", port.power_class,
                                   asked ? "" : "; the sheet names no class, the port's is taken"));
    if (port.device.held != Held::kMet)
      port.device.remedy = refused(feed, asked, draw.largest.high);
    else if (const Power margin = *port.device.margin(); margin < 0.05 * in_force.device)
      port.device.remedy = fmt::format("{:.2f} W of {:.2f} W: it passes by a hair, {:.2f} W are left",
                                       draw.largest.nominal.in(W), in_force.device.in(W), margin.in(W));
    add_loss(laid, in_force, draw, port);
    port.held = worse(port.device.held, port.at_port.held);
    if (supply && !asked && supply->find("PoE") == std::string::npos) {
      port.held = worse(port.held, Held::kUnknown);
      port.device.remedy = "the sheet says \"" + *supply + "\": find out whether it takes power over its network cable";
    }
    answer_.ports.push_back(std::move(port));
  }

  static std::string refused(const Feed& feed, std::optional<int> asked, Power drawn) {
    const bool by_port = asked && *asked > feed.ports.power_class && drawn <= power_class(*asked).device;
    return by_port ? fmt::format("a port of class {}: this one gives class {}", *asked, feed.ports.power_class)
                   : "ask the maker which class the camera is of; it wants " + port_for(drawn);
  }

  void add_loss(const LaidRun& laid, const PowerClass& in_force, const Draw& draw, PortLoad& port) {
    const Ranged<double> loop = loop_of(laid, in_force.pairs);
    const std::vector<Ranged<double>> inputs{plain(draw.largest), loop};
    const auto behind = [&](const std::vector<double>& at) {
      return fed(in_force.least, Resistance{at[1]}, Power{at[0]});
    };
    if (!behind({draw.largest.high.si(), loop.high})) {
      port.at_port = {{}, in_force.port, Held::kMissed, "what the cable can carry", "a shorter or thicker cable"};
      return;
    }
    port.lost = watts(spread(inputs, [&](const auto& at) { return std::max(behind(at)->lost.si(), 1e-9); }));
    port.voltage = each(spread(inputs, [&](const auto& at) { return behind(at)->at_device.si(); }),
                        [](double v) { return Potential{v}; });
    port.at_port = bear(
        watts(spread(inputs, [&](const auto& at) { return at[0] + behind(at)->lost.si(); })),
        std::optional(in_force.port),
        fmt::format("what a port of class {} gives at {:.0f} V, its least", port.power_class, in_force.least.in(V)));
    if (port.at_port.held != Held::kMet)
      port.at_port.remedy = "a shorter or thicker cable, or a port of a higher class";
  }

  void take_supply(const LaidRun& laid, const Feed& feed, const Draw& draw) {
    SupplyRun run{laid.run->name, feed.name, draw.camera, {}};
    const Ranged<double> loop = loop_of(laid, 1);
    const Potential source = *feed.voltage;
    const Potential most = kLargestDrop * source;
    const std::string rule = fmt::format("a tenth of {:g} V, which devices bear (from memory)", source.in(V));
    const auto at_worst = fed(source, Resistance{loop.high}, draw.largest.high);
    if (!at_worst) {
      run.drop = {{}, most, Held::kMissed, rule, "thicker conductors, or a higher voltage: this run cannot carry it"};
    } else {
      const auto drop = [&](const std::vector<double>& at) {
        return std::max(1e-9, (source - fed(source, Resistance{at[1]}, Power{at[0]})->at_device).in(V));
      };
      run.drop = bear(each(spread({plain(draw.largest), loop}, drop), [](double v) { return v * V; }),
                      std::optional(most), rule);
      if (run.drop.held != Held::kMet)
        run.drop.remedy = fmt::format("thicker conductors ({:.1f} times), a shorter run, or a higher voltage",
                                      run.drop.load.high / most);
    }
    // What would not run is not free either.
    losses_[draw.camera] = at_worst ? at_worst->lost : draw.largest.high;
    answer_.supply_runs.push_back(std::move(run));
  }

  /// What is left out, where the user meets it.
  void add_cautions() {
    for (const Feed& feed : project_.site.feeds) {
      if (feed.kind == FeedKind::kBattery) continue;
      if (!feed.draw && feed.kind != FeedKind::kSupply)
        answer_.cautions.push_back({feed.name, "states no draw of its own: energy and battery hours leave it out"});
      if (feed.alternating)
        answer_.cautions.push_back({feed.name,
                                    "alternating current is reckoned as direct: a power factor below 1 loses "
                                    "more on the way"});
    }
    for (const camera::Camera& camera : project_.cameras) {
      const camera::PowerDraw& stated = need::the_named(project_.catalogue, camera.sheet).power;
      if (!stated.largest && (!stated.heater || !stated.motor))
        answer_.cautions.push_back({camera.name,
                                    "its sheet states no largest draw: a heater or a motor of which it says "
                                    "nothing is not counted"});
    }
    if (!answer_.draws.empty())
      answer_.cautions.push_back(
          {"",
           "half of the hours are taken as dark, and heaters and motors as still, for energy and "
           "battery hours"});
  }

  void find_unfed() {
    for (const Draw& draw : answer_.draws) {
      const auto ends = [&](const auto& one) { return one.to == draw.camera; };
      if (std::none_of(answer_.ports.begin(), answer_.ports.end(), ends) &&
          std::none_of(answer_.supply_runs.begin(), answer_.supply_runs.end(), ends))
        answer_.unfed.push_back(draw.camera);
    }
    for (const std::string& camera : answer_.unfed)
      answer_.cautions.push_back({camera, "nothing feeds it: draw a run from a powered port or a supply to it"});
  }

  void add_feed(const Feed& feed) {
    FeedLoad load;
    load.feed = feed.name;
    Ranged<Power> largest{}, by_day = exactly(feed.draw), by_night = by_day;
    const auto add = [&](const std::string& camera, const Ranged<Power>& lost) {
      const Draw& draw = *draw_named(camera);
      largest = added(largest, added(draw.largest, lost));
      // What a cable loses goes with the square of what is drawn through it.
      const auto with_loss = [&](const Ranged<Power>& drawn) {
        const double part = std::pow(drawn.nominal / draw.largest.nominal, 2);
        return added(drawn, each(lost, [&](Power one) { return part * one; }));
      };
      by_day = added(by_day, with_loss(draw.by_day));
      by_night = added(by_night, with_loss(draw.by_night));
    };
    for (const PortLoad& port : answer_.ports)
      if (port.feed == feed.name) {
        add(port.to, port.lost);
        load.set_aside = load.set_aside + power_class(port.power_class).port;
      }
    for (const SupplyRun& run : answer_.supply_runs)
      if (run.feed == feed.name) add(run.to, Ranged<Power>::exact(losses_[run.to]));
    const bool supply = feed.kind == FeedKind::kSupply;
    load.budget = bear(largest, supply ? feed.rating : feed.ports.budget,
                       supply ? "what the supply gives, with the losses of its runs"
                              : "the feed's budget for all its ports, with the losses of the cables");
    if (load.budget.held == Held::kUnknown)
      load.budget.remedy = "read the budget of its powered ports from its sheet";
    else if (load.budget.held != Held::kMet)
      load.budget.remedy =
          fmt::format("{:.0f} W are wanted: a feed with more, or another beside it", std::ceil(largest.high.in(W)));
    else if (!supply && feed.ports.budget && load.set_aside > *feed.ports.budget)
      load.budget.remedy = fmt::format(
          "a feed that sets power aside by class needs {:.0f} W: see that this one measures", load.set_aside.in(W));
    const auto from_mains = [&](const Ranged<Power>& drawn) {
      if (drawn.nominal <= Power{0}) return drawn;
      return watts(
          spread({plain(drawn), typical_.supply_efficiency.value}, [](const auto& at) { return at[0] / at[1]; }));
    };
    load.mains_day = from_mains(by_day);
    load.mains_night = from_mains(by_night);
    if (supply || feed.ports.powered > 0 || feed.draw) answer_.feeds.push_back(std::move(load));
  }

  const Ranged<double>& peukert(site::Cells cells) const {
    return cells == site::Cells::kLeadFlooded  ? typical_.peukert_flooded.value
           : cells == site::Cells::kLeadSealed ? typical_.peukert_sealed.value
                                               : typical_.peukert_lithium.value;
  }

  void add_battery(const Feed& battery) {
    BatteryLife life;
    life.battery = battery.name;
    Ranged<Power> carried{};
    for (const Feed& feed : project_.site.feeds) {
      if (feed.battery != battery.name) continue;
      life.feeds.push_back(feed.name);
      for (const FeedLoad& load : answer_.feeds)
        if (load.feed == feed.name) carried = added(carried, load.mains_night);
    }
    if (carried.nominal <= Power{0}) {
      answer_.cautions.push_back({battery.name, "carries nothing: name it as the battery of a feed"});
      return;
    }
    constexpr Time kUsual{20 * 3600.0};
    const Time over = battery.rated_over.value_or(kUsual);
    life.drawn = watts(
        spread({plain(carried), typical_.battery_efficiency.value}, [](const auto& at) { return at[0] / at[1]; }));
    const auto hours = [&](const std::vector<double>& at) {
      const Current current = Power{at[0] / at[1]} / *battery.voltage;
      return lasts(at[2] * *battery.capacity, over, at[3], current).si();
    };
    life.lasts = each(
        spread({plain(carried), typical_.battery_efficiency.value, typical_.battery_age.value, peukert(battery.cells)},
               hours),
        [](double s) { return Time{s}; });
    answer_.batteries.push_back(std::move(life));
  }

  void judge() {
    Held held = answer_.unfed.empty() ? Held::kMet : Held::kUnknown;
    for (const PortLoad& port : answer_.ports) held = worse(held, port.held);
    for (const SupplyRun& run : answer_.supply_runs) held = worse(held, run.drop.held);
    for (const FeedLoad& feed : answer_.feeds)
      if (feed.budget.load.nominal > Power{0}) held = worse(held, feed.budget.held);
    answer_.held = held;
  }

  const need::Project& project_;
  const detail::Typical& typical_;
  const Cabling& cabling_;
  std::map<std::string, Power> losses_;  ///< of supply runs, by camera
  PowerLoads answer_;
};

}  // namespace

PowerLoads power(const need::Project& project, const Cabling& cabling) { return Feeder(project, cabling).reckon(); }

}  // namespace sightfall::loads
