// SPDX-License-Identifier: GPL-3.0-or-later
// What hangs on supplies of low voltage.
#include <fmt/format.h>

#include <algorithm>

#include "loads/copper.h"
#include "loads/power_parts.h"
#include "loads/ranges.h"
#include "loads/supply_words.h"

namespace sightfall::loads {
namespace {

using namespace units;

std::string in_volts(const site::Feed& feed) {
  return fmt::format("{:g} V {}", feed.voltage->in(V), feed.alternating ? "AC" : "DC");
}

/// How much of the supply's voltage the way may take, and why.
struct MayLose {
  Potential most;
  std::string rule;
};

MayLose may_lose(const site::Feed& feed, const std::vector<NamedVoltage>& named) {
  const Potential source = *feed.voltage;
  const auto borne =
      std::find_if(named.begin(), named.end(), [&](const NamedVoltage& one) { return bears(one, feed); });
  if (borne == named.end())
    return {kLargestDrop * source, fmt::format("a tenth of {:g} V, which devices bear (from memory)", source.in(V))};
  const Potential least = least_borne(*borne, feed), steady = kSteadyDrop * source;
  if (source - least > steady)
    return {steady, fmt::format("a quarter of {:g} V, beyond which devices start badly; its sheet bears {:.3g} V at "
                                "the least (from memory)",
                                source.in(V), least.in(V))};
  return {std::max(Potential{0}, source - least),
          fmt::format("what is left of {:g} V above {:.3g} V, the least that its sheet bears{}", source.in(V),
                      least.in(V), borne->tolerance ? "" : " (a tenth below what it names, from memory)")};
}

void judge_drop(const LaidRun& laid, const site::Feed& feed, const Ranged<Power>& drawn,
                const std::vector<NamedVoltage>& named, const detail::Typical& typical, SupplyRun& run) {
  const Ranged<double> loop = loop_of(laid, 1, typical), factor = power_factor_of(feed);
  const Potential source = *feed.voltage;
  const auto [most, rule] = may_lose(feed, named);
  const auto at_worst = fed(source, Resistance{loop.high}, drawn.high, factor.low);
  // What would not run is not free either.
  run.lost = at_worst ? at_worst->lost : drawn.high;
  if (!at_worst) {
    run.drop = {{}, most, Held::kMissed, rule, "thicker conductors, or a higher voltage: this run cannot carry it"};
    return;
  }
  const auto drop = [&](const std::vector<double>& at) {
    return std::max(1e-9, (source - fed(source, Resistance{at[1]}, Power{at[0]}, at[2])->at_device).in(V));
  };
  run.drop =
      bear(each(spread({plain(drawn), loop, factor}, drop), [](double v) { return v * V; }), std::optional(most), rule);
  if (run.drop.held == Held::kMet) return;
  run.drop.remedy = most <= Potential{0}
                        ? "a higher voltage: the supply gives no more than the least that the sheet bears"
                        : fmt::format("thicker conductors ({:.1f} times), a shorter run, or a higher voltage",
                                      run.drop.load.high / most);
}

/// Whether the sheet's words bear what the supply gives.
void judge_words(const site::Feed& feed, const std::string& sheet, const std::vector<NamedVoltage>& named,
                 SupplyRun& run) {
  if (named.empty()) {
    run.mismatch = fmt::format("the sheet says \"{}\": find out whether it takes {}", sheet, in_volts(feed));
    run.held = worse(run.held, Held::kUnknown);
  } else if (std::none_of(named.begin(), named.end(), [&](const NamedVoltage& one) { return bears(one, feed); })) {
    run.mismatch = fmt::format(
        "the sheet says \"{}\" and the supply gives {}: a supply of the sheet's voltage, or a "
        "converter before the device",
        sheet, in_volts(feed));
    run.held = Held::kMissed;
  }
}

}  // namespace

Ranged<double> power_factor_of(const site::Feed& supply) {
  if (!supply.alternating) return Ranged<double>::exact(1);
  return supply.power_factor ? Ranged<double>::exact(*supply.power_factor) : kPowerFactor;
}

SupplyRun supply_run(const LaidRun& laid, const site::Feed& feed, const Hung& hung, const detail::Typical& typical) {
  SupplyRun run;
  run.run = laid.run->name, run.feed = feed.name, run.to = hung.name;
  const std::vector<NamedVoltage> named = voltages_in_words(hung.supply.value_or(""));
  judge_drop(laid, feed, hung.largest, named, typical, run);
  run.held = run.drop.held;
  if (hung.supply) judge_words(feed, *hung.supply, named, run);
  if (!hung.whole) {
    run.held = worse(run.held, Held::kUnknown);
    run.mismatch = "state what \"" + hung.name + "\" draws itself: its sheet says it";
  }
  return run;
}

}  // namespace sightfall::loads
