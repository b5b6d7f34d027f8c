// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/run_rules.h"

#include <fmt/format.h>

#include <algorithm>

namespace sightfall::loads {
namespace {

using site::Cable;
using site::CableMedium;

template <class Like>
std::string name_of_first(const std::vector<Cable>& cables, const Like& like, std::string otherwise) {
  const auto found = std::find_if(cables.begin(), cables.end(), like);
  return found == cables.end() ? std::move(otherwise) : fmt::format("\"{}\"", found->name);
}

std::string fibre_for(Length length, const std::vector<Cable>& cables) {
  return name_of_first(
      cables,
      [&](const Cable& one) {
        return one.medium == CableMedium::kFibre && one.sunproof && one.longest && *one.longest >= length;
      },
      "fibre");
}

/// A cable that does the same and bears sun and rain.
std::string sunproof_for(const Cable& cable, const std::vector<Cable>& cables) {
  const auto may = [&](const Cable& one) { return one.medium == cable.medium && one.sunproof; };
  const auto same = [&](const Cable& one) { return may(one) && one.resistance == cable.resistance; };
  const bool any_same = std::any_of(cables.begin(), cables.end(), same);
  return any_same ? name_of_first(cables, same, {}) : name_of_first(cables, may, "a cable for outdoors");
}

void flag(LaidRun& run, Held held, std::string text) {
  run.held = worse(run.held, held);
  run.flags.push_back(std::move(text));
}

void judge_cords(LaidRun& run) {
  const std::optional<Length> longest = run.cable->longest;
  if (run.cable->medium != CableMedium::kPairs || !longest || *longest <= kFixedPart) return;
  if (run.length.high <= kFixedPart || run.reach.held == Held::kMissed) return;
  flag(run, Held::kMet,
       fmt::format("up to {:.0f} m long: {:.0f} m are end to end, so beyond {:.0f} m there is little room for cords",
                   run.length.high.si(), longest->si(), kFixedPart.si()));
}

void judge_sheath(LaidRun& run, const std::vector<Cable>& cables) {
  if (!run.outdoors) return;
  const Cable& cable = *run.cable;
  if (!cable.sunproof && run.in_sun)
    flag(run, Held::kMissed,
         fmt::format("lies in the sun and its sheath is not made for sun and rain: use {}",
                     sunproof_for(cable, cables)));
  else if (!cable.sunproof)
    flag(run, Held::kMarginal,
         fmt::format(
             "lies outdoors, where conduits and trenches hold water, and its sheath is not made for that: use {}",
             sunproof_for(cable, cables)));
  if (cable.medium == CableMedium::kPairs && cable.outer < kThinTail && !cable.shielded)
    flag(run, Held::kMarginal,
         "is thin and unshielded, and lies outdoors: it tears, and takes up interference; keep it indoors and short");
}

void judge_surges(LaidRun& run, const std::vector<Cable>& cables,
                  const std::optional<std::pair<std::string, std::string>>& buildings) {
  if (run.cable->medium == CableMedium::kFibre) return;
  const bool open_to_surges = !run.run->surge_protected;
  if (buildings) {
    const std::string instead = run.cable->medium == CableMedium::kPairs
                                    ? "use " + fibre_for(run.length.high, cables) + ", which carries no power"
                                    : std::string("feed each from its own");
    return flag(
        run, open_to_surges ? Held::kMarginal : Held::kMet,
        fmt::format(R"(leads in copper from "{}" to "{}": where each has an earth of its own, {}{})", buildings->first,
                    buildings->second, instead, open_to_surges ? "; otherwise protect both ends against surges" : ""));
  }
  if (run.outdoors && open_to_surges)
    flag(run, Held::kMet, "lies outdoors in copper: protect both ends against surges, or say that they are");
}

}  // namespace

Bearing<Length> reach_of(const Ranged<Length>& length, const Cable& cable, const std::vector<Cable>& cables) {
  if (!cable.longest)
    return {length, {}, Held::kMet, "this kind has no longest length of its own: the voltage at its end decides", {}};
  const Length most = *cable.longest;
  Bearing<Length> reach = bear<Length>(
      length, most,
      fmt::format("length beside the longest of \"{}\", {:.0f} m ({})", cable.name, most.si(), cable.source));
  const std::string mend =
      fmt::format("use {}, which carries no power, or a switch on the way", fibre_for(length.high, cables));
  if (reach.held == Held::kMissed)
    reach.remedy = fmt::format("at least {:.0f} m of {:.0f} m: {}", length.low.si(), most.si(), mend);
  if (reach.held == Held::kMarginal)
    reach.remedy = fmt::format("{:.0f} to {:.0f} m of {:.0f} m: measure the run and state its length, or {}",
                               length.low.si(), length.high.si(), most.si(), mend);
  return reach;
}

void judge_run(LaidRun& run, const std::vector<Cable>& cables,
               const std::optional<std::pair<std::string, std::string>>& buildings) {
  run.held = worse(run.held, run.reach.held);
  judge_cords(run);
  judge_sheath(run, cables);
  judge_surges(run, cables, buildings);
}

}  // namespace sightfall::loads
