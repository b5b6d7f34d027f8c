// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/channels.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "loads/ports.h"
#include "loads/run_rules.h"

namespace sightfall::loads {
namespace {

bool of_pairs(const LaidRun& laid) { return laid.cable->medium == site::CableMedium::kPairs; }

/// The run of pairs that leads to the injector which this one leaves, at its port where several do, or null.
const LaidRun* run_before(const need::Project& project, const std::vector<LaidRun>& runs, const LaidRun& laid) {
  if (need::the_named(project.site.feeds, laid.run->from).kind != site::FeedKind::kInjector) return nullptr;
  const int port = port_of(project, *laid.run);
  const auto at = std::find_if(runs.begin(), runs.end(), [&](const LaidRun& one) {
    return of_pairs(one) && one.run->to == laid.run->from && one.run->to_port.value_or(port) == port;
  });
  return at == runs.end() ? nullptr : &*at;
}

}  // namespace

void judge_channels(const need::Project& project, std::vector<LaidRun>& runs) {
  for (LaidRun& laid : runs) {
    const LaidRun* one = of_pairs(laid) ? run_before(project, runs, laid) : nullptr;
    if (one == nullptr) continue;
    Ranged<Length> whole = laid.length;
    const site::Cable* cable = laid.cable;
    std::string words = fmt::format("\"{}\"", laid.run->name);
    for (; one != nullptr; one = run_before(project, runs, *one)) {
      whole = {whole.low + one->length.low, whole.nominal + one->length.nominal, whole.high + one->length.high};
      if (one->cable->longest && (!cable->longest || *one->cable->longest > *cable->longest)) cable = one->cable;
      words = fmt::format("\"{}\", {}", one->run->name, words);
    }
    Bearing<Length> reach = reach_of(whole, *cable);
    laid.flags.push_back(
        fmt::format("{} are one channel through an injector, {:.0f} m in all", words, whole.nominal.si()));
    if (reach.held == Held::kMet || laid.reach.held == Held::kMissed) continue;
    reach.remedy =
        fmt::format("{:.0f} m of {:.0f} m through an injector: {}put a switch in its place, which starts a new channel",
                    whole.nominal.si(), cable->longest->si(),
                    reach.held == Held::kMarginal ? "measure the runs and state their lengths, or " : "");
    laid.reach = std::move(reach);
    laid.otherwise.clear();
    laid.open_question = true;
    laid.held = worse(laid.held, laid.reach.held);
  }
}

}  // namespace sightfall::loads
