// SPDX-License-Identifier: GPL-3.0-or-later
// Power: what the cameras draw, through their cables, from ports and supplies, and how long batteries carry it.
//   Model    docs/models.md section 9: a device may draw what its class leaves behind the longest channel
//            (loads/poe.h); the cable's own loss is added at the port; ports together stay within a feed's budget; a
//            supply's run leaves what the sheet's voltage bears, and its voltage is one that the sheet names; a feed
//            that another one feeds draws there for itself and all that hangs on it; batteries by Peukert, their
//            efficiency and age
//   Limits   no start-up currents or fuses; half of the hours are taken as dark; a port gives the class that the
//            device asks for, and a feed that sets power aside by class may run out sooner than one that measures:
//            both sums are told. What a fed feed passes on goes through a converter as good as a supply
//   Checked  power_test.cpp, power_feeds_test.cpp, poe_test.cpp, copper_test.cpp, battery_test.cpp
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "loads/bearing.h"
#include "loads/cabling.h"
#include "need/project.h"

namespace sightfall::loads {

/// Devices bear a tenth less than the voltage that their sheet names (from memory), so a run from a supply of that
/// voltage may lose so much; of a higher one more, but no more than kSteadyDrop, beyond which what draws a constant
/// power starts badly (from memory: at half of the voltage a run gives the most that it can).
inline constexpr double kLargestDrop = 0.1, kSteadyDrop = 0.25;
/// Of what hangs on alternating current, where the document states none: rectifiers without correction, to none needed
/// (from memory).
inline constexpr Ranged<double> kPowerFactor{0.6, 0.8, 1};

/// Of what would hang on a powered port, had its cable not to be fibre.
inline constexpr const char* kNoPowerByFibre =
    "no power comes over the fibre that is to be laid: an injector beside what hangs there, with mains, which a "
    "licensed "
    "trade brings";

/// Of what hangs on a supply; 1 of direct current.
Ranged<double> power_factor_of(const site::Feed& supply);

/// What a camera draws by its parts.
struct Draw {
  std::string camera;
  Ranged<Power> body, infrared, heater, motor;
  Ranged<Power> by_day, by_night;  ///< heater and motor in the high end alone, up to the largest
  Ranged<Power> largest;           ///< everything at once, or as stated
};

struct PortLoad {
  std::string run, feed;
  std::optional<int> port;
  std::string to;             ///< the camera, or a feed that takes its power there
  int power_class = 0;        ///< in force: the lower of the port's and the one that the sheet names
  Bearing<Power> device;      ///< largest draw beside what the class leaves
  Bearing<Power> at_port;     ///< with the cable's loss, beside what the port gives
  Ranged<Power> lost;         ///< in the cable
  Ranged<Potential> voltage;  ///< at the device, the port at its least
  Held held = Held::kUnknown;
};

struct SupplyRun {
  std::string run, feed, to;  ///< to a camera or a feed
  Bearing<Potential> drop;    ///< beside what the way may take before the device has less than it bears
  Power lost;                 ///< on the way at the worst
  std::string mismatch;       ///< why the device may not run on this supply, and what to do; empty when it does
  Held held = Held::kUnknown;
};

struct FeedLoad {
  std::string feed;
  Bearing<Power> budget;                 ///< of all powered ports, or of a supply: the largest draws with their losses
  bool gives = false;                    ///< whether it gives power at all; without there is no budget
  Power set_aside;                       ///< by the classes of the ports in use; zero of a supply
  Ranged<Power> mains_day, mains_night;  ///< zero of one that another feed feeds
  std::string fed_by;                    ///< that feed's name; empty: the mains
  bool apparent = false;                 ///< the budget is apparent power, VA
};

struct BatteryLife {
  std::string battery;
  std::vector<std::string> feeds;
  Ranged<Power> drawn;  ///< from it, by night
  Ranged<Time> lasts;
  Time wanted_for{0};      ///< zero: no hours are wanted
  Bearing<Charge> wanted;  ///< capacity for the hours wanted, beside its own; without a rule: none are
};

struct PowerLoads {
  std::vector<Draw> draws;  ///< in the order of the cameras
  std::vector<PortLoad> ports;
  std::vector<SupplyRun> supply_runs;
  std::vector<FeedLoad> feeds;
  std::vector<BatteryLife> batteries;
  Ranged<Energy> a_year;
  std::vector<std::string> idle;   ///< batteries that carry nothing although hours are wanted of them
  std::vector<std::string> unfed;  ///< cameras that nothing feeds
  std::vector<Caution> cautions;
  Held held = Held::kMet;
};

PowerLoads power(const need::Project& project, const Cabling& cabling);

}  // namespace sightfall::loads
