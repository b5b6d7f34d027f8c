// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/run_rules.h"

#include <fmt/format.h>

#include <algorithm>

namespace sightfall::loads {
namespace {

using site::Cable;
using site::CableMedium;

template <class Like>
const Cable* first_of(const std::vector<Cable>& cables, const Like& like) {
  const auto found = std::find_if(cables.begin(), cables.end(), like);
  return found == cables.end() ? nullptr : &*found;
}

/// Null: none of the table reaches so far.
const Cable* fibre_for(Length length, const std::vector<Cable>& cables) {
  return first_of(cables, [&](const Cable& one) {
    return one.medium == CableMedium::kFibre && one.sunproof && one.longest && *one.longest >= length;
  });
}

/// How much more, or less, a cable's conductors resist than another's, as a factor of one or more.
double apart_by(const Cable& one, const Cable& other) {
  if (!one.resistance || !other.resistance) return 1;
  const double factor = *one.resistance / *other.resistance;
  return std::max(factor, 1 / factor);
}

/// A cable that does the same, of conductors as thick as may be had, and bears sun and rain.
const Cable* sunproof_for(const Cable& cable, const std::vector<Cable>& cables) {
  const Cable* nearest = nullptr;
  for (const Cable& one : cables)
    if (one.medium == cable.medium && one.sunproof &&
        (nearest == nullptr || apart_by(one, cable) < apart_by(*nearest, cable)))
      nearest = &one;
  return nearest;
}

std::string name_of(const Cable* cable, std::string otherwise) {
  return cable == nullptr ? std::move(otherwise) : fmt::format("\"{}\"", cable->name);
}

/// Of the same kind of thing, as fast, where a cord is too long and a cable of the wall is not.
const Cable* longer_for(const LaidRun& run, const std::vector<Cable>& cables) {
  return first_of(cables, [&](const Cable& one) {
    return one.medium == run.cable->medium && one.longest && *one.longest >= run.length.high &&
           (one.sunproof || !run.outdoors) && one.rate >= run.cable->rate;
  });
}

/// What a fibre asks for beside itself.
const char* without_power(const LaidRun& run) { return run.powered ? ", which carries no power" : ""; }

void flag(LaidRun& run, Held held, std::string text) {
  run.held = worse(run.held, held);
  run.flags.push_back(std::move(text));
}

void judge_reach(LaidRun& run, const std::vector<Cable>& cables) {
  run.held = worse(run.held, run.reach.held);
  if (run.reach.held == Held::kMet) return;
  const Cable* longer = longer_for(run, cables);
  const Cable* fibre = fibre_for(run.length.high, cables);
  const double most = run.cable->longest->si();
  const std::string by_fibre = name_of(fibre, "fibre") + without_power(run);
  run.open_question = run.reach.held == Held::kMarginal || (longer == nullptr && fibre == nullptr);
  if (run.reach.held == Held::kMissed) {
    run.instead = longer != nullptr ? longer : fibre;
    run.reach.remedy = fmt::format("at least {:.0f} m of {:.0f} m: use {}", run.length.low.si(), most,
                                   longer != nullptr ? name_of(longer, {}) : by_fibre);
    if (longer == nullptr)
      run.otherwise = fmt::format("a switch on the way, so that no part is longer than {:.0f} m", most);
  } else {
    run.reach.remedy = fmt::format("{:.0f} to {:.0f} m of {:.0f} m: measure the run and state its length",
                                   run.length.low.si(), run.length.high.si(), most);
    run.otherwise = fmt::format("{}, or a switch on the way, if it is longer than {:.0f} m", by_fibre, most);
  }
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
  if (!run.outdoors || run.instead != nullptr) return;
  const Cable& cable = *run.cable;
  if (!cable.sunproof) {
    run.instead = sunproof_for(cable, cables);
    run.open_question = run.open_question || run.instead == nullptr;
    const std::string mend = name_of(run.instead, "a cable for outdoors");
    if (run.in_sun)
      flag(run, Held::kMissed,
           fmt::format("lies in the sun and its sheath is not made for sun and rain: use {}", mend));
    else
      flag(run, Held::kMarginal,
           fmt::format(
               "lies outdoors, where conduits and trenches hold water, and its sheath is not made for that: use {}",
               mend));
  }
  if (cable.medium == CableMedium::kPairs && cable.outer < kThinTail && !cable.shielded) {
    run.open_question = run.open_question || run.instead == nullptr;
    flag(run, Held::kMarginal,
         "is thin and unshielded, and lies outdoors: it tears, and takes up interference; keep it indoors and short");
  }
}

void judge_earths(LaidRun& run, const std::vector<Cable>& cables,
                  const std::pair<std::string, std::string>& buildings) {
  const std::string leads = fmt::format(R"(leads in copper from "{}" to "{}": )", buildings.first, buildings.second);
  const bool pairs = run.cable->medium == CableMedium::kPairs, is_protected = run.run->surge_protected;
  const Cable* fibre = fibre_for(run.length.high, cables);
  if (pairs && !run.powered && !is_protected) {
    run.instead = fibre;
    flag(run, Held::kMarginal, leads + "it need not carry power, so use " + name_of(fibre, "fibre"));
    run.otherwise = "protect both ends against surges, where both buildings share one earth";
    return;
  }
  flag(run, is_protected ? Held::kMet : Held::kMarginal,
       leads + (is_protected ? "ask an electrician whether each has an earth of its own"
                             : "protect both ends against surges, and ask an electrician whether each has an earth of "
                               "its own"));
  run.otherwise =
      pairs ? fmt::format("where each has an earth of its own, {}{}", name_of(fibre, "fibre"), without_power(run))
            : std::string("where each has an earth of its own, feed each from its own");
}

void judge_surges(LaidRun& run, const std::vector<Cable>& cables,
                  const std::optional<std::pair<std::string, std::string>>& buildings) {
  if (run.cable->medium == CableMedium::kFibre) return;
  if (buildings) return judge_earths(run, cables, *buildings);
  if (run.outdoors && !run.run->surge_protected)
    flag(run, Held::kMet, "lies outdoors in copper, and nothing is stated against surges: protect both ends");
}

}  // namespace

Bearing<Length> reach_of(const Ranged<Length>& length, const Cable& cable) {
  if (!cable.longest)
    return {length, {}, Held::kMet, "this kind has no longest length of its own: the voltage at its end decides", {}};
  return bear<Length>(
      length, *cable.longest,
      fmt::format("length beside the longest of \"{}\", {:.0f} m ({})", cable.name, cable.longest->si(), cable.source));
}

void judge_run(LaidRun& run, const std::vector<Cable>& cables,
               const std::optional<std::pair<std::string, std::string>>& buildings) {
  judge_reach(run, cables);
  // What is said of copper does not hold for the fibre that takes its place.
  if (run.reach.held == Held::kMissed && (run.instead == nullptr || run.instead->medium == CableMedium::kFibre)) return;
  judge_cords(run);
  judge_sheath(run, cables);
  judge_surges(run, cables, buildings);
}

}  // namespace sightfall::loads
