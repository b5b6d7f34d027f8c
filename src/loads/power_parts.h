// SPDX-License-Identifier: GPL-3.0-or-later
// The parts that power() is put together from: what each camera draws, what a run of each kind carries, what a feed
// gives in all, and how long a battery lasts.
//   Checked  power_test.cpp, power_feeds_test.cpp
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "loads/power.h"

namespace sightfall::loads {

/// What hangs at the end of a run: a camera, or a feed with all that hangs on it.
struct Hung {
  std::string name;
  Ranged<Power> by_day, by_night, largest;
  std::optional<std::string> supply;  ///< how it is fed, in its sheet's words
  bool whole = true;                  ///< whether all of its draw is stated; not of a feed that states none of its own
};

/// All that hangs on a feed, with what its cables lose.
struct OnFeed {
  Ranged<Power> by_day, by_night, largest;
  Power set_aside;  ///< by the classes of the ports in use
};

Draw draw_of(const need::Project& project, const camera::Camera& camera);

/// What a feed draws that another one feeds; it passes on what hangs on it through a converter like a supply's.
Hung hung_of(const site::Feed& feed, const OnFeed& on, const detail::Typical& typical);

/// A run of pairs from a powered port.
PortLoad port_load(const LaidRun& laid, const site::Feed& feed, const Hung& hung, const detail::Typical& typical);

/// A run of conductors from a supply.
SupplyRun supply_run(const LaidRun& laid, const site::Feed& feed, const Hung& hung, const detail::Typical& typical);

/// Adds what hangs at the end of a run, with what its cable loses at its largest draw.
void add(OnFeed& on, const Hung& hung, const Ranged<Power>& lost);

FeedLoad feed_load(const site::Feed& feed, const OnFeed& on, const detail::Typical& typical);

/// Of a battery and the feeds that it carries; nothing when it carries nothing.
std::optional<BatteryLife> battery_life(const need::Project& project, const site::Feed& battery,
                                        const std::vector<FeedLoad>& feeds);

/// Range of a loop of the run in ohm: `parallel` conductors each way.
Ranged<double> loop_of(const LaidRun& laid, int parallel, const detail::Typical& typical);

/// In watts, and back.
Ranged<double> plain(const Ranged<Power>& range);
Ranged<Power> watts(const Ranged<double>& range);

}  // namespace sightfall::loads
