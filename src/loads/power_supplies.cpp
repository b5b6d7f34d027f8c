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

void judge_drop(const LaidRun& laid, const site::Feed& feed, const Ranged<Power>& drawn, const detail::Typical& typical,
                SupplyRun& run) {
  const Ranged<double> loop = loop_of(laid, 1, typical), factor = power_factor_of(feed);
  const Potential source = *feed.voltage, most = kLargestDrop * source;
  const std::string rule = fmt::format("a tenth of {:g} V, which devices bear (from memory)", source.in(V));
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
  if (run.drop.held != Held::kMet)
    run.drop.remedy =
        fmt::format("thicker conductors ({:.1f} times), a shorter run, or a higher voltage", run.drop.load.high / most);
}

std::string in_volts(const site::Feed& feed) {
  return fmt::format("{:g} V {}", feed.voltage->in(V), feed.alternating ? "AC" : "DC");
}

/// Whether the sheet's words bear what the supply gives.
void judge_words(const site::Feed& feed, const std::string& sheet, SupplyRun& run) {
  const std::vector<NamedVoltage> named = voltages_in_words(sheet);
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
  judge_drop(laid, feed, hung.largest, typical, run);
  run.held = run.drop.held;
  if (hung.supply) judge_words(feed, *hung.supply, run);
  if (!hung.whole) {
    run.held = worse(run.held, Held::kUnknown);
    run.mismatch = "state what \"" + hung.name + "\" draws itself: its sheet says it";
  }
  return run;
}

}  // namespace sightfall::loads
