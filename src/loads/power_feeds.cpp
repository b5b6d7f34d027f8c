// SPDX-License-Identifier: GPL-3.0-or-later
// What a feed gives in all, and takes from the mains for it.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "loads/power_parts.h"
#include "loads/ranges.h"

namespace sightfall::loads {
namespace {

using namespace units;

/// Divided by a share: what goes in for what comes out.
Ranged<Power> over(const Ranged<Power>& drawn, const Ranged<double>& share) {
  if (drawn.nominal <= Power{0}) return drawn;
  return watts(spread({plain(drawn), share}, [](const auto& at) { return at[0] / at[1]; }));
}

void judge_feed(const site::Feed& feed, FeedLoad& load) {
  const bool supply = feed.kind == site::FeedKind::kSupply;
  if (load.budget.held == Held::kUnknown)
    load.budget.remedy = "read the budget of its powered ports from its sheet";
  else if (load.budget.held != Held::kMet)
    load.budget.remedy = fmt::format("{:.0f} {} are wanted: a feed with more, or another beside it",
                                     std::ceil(load.budget.load.high.in(W)), load.apparent ? "VA" : "W");
  else if (!supply && feed.ports.budget && load.set_aside > *feed.ports.budget)
    load.budget.remedy = fmt::format("a feed that sets power aside by class needs {:.4g} W: see that this one measures",
                                     load.set_aside.in(W));
}

}  // namespace

void add(OnFeed& on, const Hung& hung, const Ranged<Power>& lost) {
  // What a cable loses goes with the square of what is drawn through it.
  const auto with_loss = [&](const Ranged<Power>& drawn) {
    const double part = hung.largest.nominal > Power{0} ? std::pow(drawn.nominal / hung.largest.nominal, 2) : 1;
    return added(drawn, each(lost, [&](Power one) { return part * one; }));
  };
  on.largest = added(on.largest, added(hung.largest, lost));
  on.by_day = added(on.by_day, with_loss(hung.by_day));
  on.by_night = added(on.by_night, with_loss(hung.by_night));
}

FeedLoad feed_load(const site::Feed& feed, const OnFeed& on, const detail::Typical& typical) {
  const bool supply = feed.kind == site::FeedKind::kSupply;
  FeedLoad load;
  load.feed = feed.name;
  load.gives = supply || feed.ports.powered > 0;
  load.set_aside = on.set_aside;
  load.apparent = feed.alternating;
  load.budget = bear(over(on.largest, power_factor_of(feed)), supply ? feed.rating : feed.ports.budget,
                     load.apparent ? "what the supply gives, as apparent power (VA), with the losses of its runs"
                     : supply      ? "what the supply gives, with the losses of its runs"
                                   : "the feed's budget for all its ports, with the losses of the cables");
  judge_feed(feed, load);
  const Ranged<Power> own = Ranged<Power>::exact(feed.draw.value_or(Power{0}));
  load.mains_day = over(added(own, on.by_day), typical.supply_efficiency.value);
  load.mains_night = over(added(own, on.by_night), typical.supply_efficiency.value);
  return load;
}

}  // namespace sightfall::loads
