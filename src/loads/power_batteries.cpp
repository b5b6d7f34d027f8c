// SPDX-License-Identifier: GPL-3.0-or-later
// How long batteries carry their feeds.
#include <fmt/format.h>

#include "loads/battery.h"
#include "loads/power_parts.h"
#include "loads/ranges.h"

namespace sightfall::loads {
namespace {

using namespace units;

constexpr Time kUsuallyRatedOver{20 * 3600.0};

const Ranged<double>& peukert(const detail::Typical& typical, site::Cells cells) {
  return cells == site::Cells::kLeadFlooded  ? typical.peukert_flooded.value
         : cells == site::Cells::kLeadSealed ? typical.peukert_sealed.value
                                             : typical.peukert_lithium.value;
}

/// The capacity for the hours wanted beside the one that there is.
void judge_life(const site::Feed& battery, const std::vector<Ranged<double>>& inputs, BatteryLife& life) {
  const Time wanted = *battery.wanted, over = battery.rated_over.value_or(kUsuallyRatedOver);
  const auto charge = [&](const std::vector<double>& at) {
    return (charge_for(wanted, over, at[3], Power{at[0] / at[1]} / *battery.voltage) / at[2]).si();
  };
  life.wanted_for = wanted;
  life.wanted = bear(each(spread(inputs, charge), [](double e) { return Charge{e}; }), battery.capacity,
                     fmt::format("the capacity, as rated, that {:g} hours by night take", wanted.in(hour)));
  if (life.wanted.held != Held::kMet)
    life.wanted.remedy =
        fmt::format("{:.3g} Ah to be sure of {:g} hours ({:.3g} are likely to do), or fewer feeds on it",
                    life.wanted.load.high.in(Ah), wanted.in(hour), life.wanted.load.nominal.in(Ah));
}

}  // namespace

std::optional<BatteryLife> battery_life(const need::Project& project, const site::Feed& battery,
                                        const std::vector<FeedLoad>& feeds) {
  BatteryLife life;
  life.battery = battery.name;
  Ranged<Power> carried{};
  for (const site::Feed& feed : project.site.feeds) {
    if (feed.battery != battery.name) continue;
    life.feeds.push_back(feed.name);
    for (const FeedLoad& load : feeds)
      if (load.feed == feed.name) carried = added(carried, load.mains_night);
  }
  if (carried.nominal <= Power{0}) return std::nullopt;
  const detail::Typical& typical = project.settings.typical;
  const std::vector<Ranged<double>> inputs{plain(carried), typical.battery_efficiency.value, typical.battery_age.value,
                                           peukert(typical, battery.cells)};
  life.drawn = watts(spread({inputs[0], inputs[1]}, [](const auto& at) { return at[0] / at[1]; }));
  const auto hours = [&](const std::vector<double>& at) {
    const Current current = Power{at[0] / at[1]} / *battery.voltage;
    return lasts(at[2] * *battery.capacity, battery.rated_over.value_or(kUsuallyRatedOver), at[3], current).si();
  };
  life.lasts = each(spread(inputs, hours), [](double s) { return Time{s}; });
  if (battery.wanted) judge_life(battery, inputs, life);
  return life;
}

}  // namespace sightfall::loads
