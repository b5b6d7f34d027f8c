// SPDX-License-Identifier: GPL-3.0-or-later
// What carries cameras: where power and network start, where cables may lie, and how a mount holds.
//   Plain structs: the document reader (file/) has validated them. Reckoned with in loads/.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "geom/vec.h"
#include "unit/electricity.h"
#include "unit/mechanics.h"

namespace sightfall::site {

enum class FeedKind { kSwitch, kInjector, kRecorder, kRouter, kSupply, kBattery };

/// How disks share what they hold, by the names of SNIA's dictionary.
enum class Redundancy { kNone, kMirror, kRaid5, kRaid6, kRaid10 };

/// The disks of a recorder, all alike.
struct Disks {
  int count = 1;
  DataSize each;
  Redundancy redundancy = Redundancy::kNone;
  std::optional<double> price;  ///< of one
};

enum class Cells { kLeadFlooded, kLeadSealed, kLithium };

/// Ports that cables end in.
struct Ports {
  int count = 1;
  std::optional<DataRate> rate;  ///< of each; unset: 100 Mbit/s
  int powered = 0;               ///< the first so many give power over Ethernet
  int power_class = 4;           ///< of IEEE 802.3, the highest a powered port gives: 1 to 8
  std::optional<Power> budget;   ///< for all powered ports together; unset: unknown
};

/// Where power or network starts. Which fields count depends on the kind.
struct Feed {
  std::string name;
  FeedKind kind = FeedKind::kSwitch;
  geom::PlanPoint at;
  Length height;                    ///< above the ground under it
  bool outdoors = false;            ///< whether it hangs outside a building
  bool powered_over_cable = false;  ///< switch: from the powered port that its network cable starts at, not mains
  std::string battery;        ///< name of the feed of kind battery that carries it when the mains fail; may be empty
  std::optional<Power> draw;  ///< of itself, without what hangs on it
  Ports ports;                ///< switch, injector, recorder, router
  std::optional<DataRate> uplink;       ///< switch: towards where it hangs on; unset: as its ports
  int inside_viewers = 0;               ///< who look on from here, each taking every camera's own stream
  bool multicast = false;               ///< whether these take one copy together
  std::optional<DataRate> intake;       ///< recorder: the most it writes
  std::optional<Disks> disks;           ///< recorder
  std::optional<DataRate> upload;       ///< router: from the site to outside
  int viewers = 0;                      ///< router: who look from outside at once
  std::optional<DataRate> viewer_rate;  ///< router: of what one of them is sent; unset: typical
  std::optional<Potential> voltage;     ///< supply, battery
  bool alternating = false;             ///< supply
  std::optional<double> power_factor;   ///< supply of alternating current: of what hangs on it; unset: a usual range
  std::optional<Power> rating;          ///< supply: the most it gives; of alternating current as apparent power
  std::optional<Charge> capacity;       ///< battery: as rated
  std::optional<Time> rated_over;       ///< battery: the time of discharge that the rating holds for; unset: 20 h
  Cells cells = Cells::kLeadSealed;     ///< battery
  std::optional<Time> wanted;           ///< battery: how long it is to carry its feeds; unset: nothing is asked
  std::optional<double> price;          ///< without disks
};

enum class WayKind { kWall, kTrench, kConduit, kTray, kOverhead };

/// Where cables may lie.
struct Way {
  std::string name;
  WayKind kind = WayKind::kWall;
  std::vector<geom::PlanPoint> line;
  Length height;               ///< of the cables above ground; below it negative
  bool indoors = false;        ///< a way that is may pass through buildings
  bool through = false;        ///< as may one that is said to lead through them
  bool shaded = false;         ///< whether no sun falls on it
  std::optional<Length> bore;  ///< conduit: inner diameter
};

enum class CableMedium { kPairs, kConductors, kFibre };

/// A kind of cable, of data/cables.json.
struct Cable {
  std::string name;
  CableMedium medium = CableMedium::kPairs;
  std::optional<Resistivity> resistance;  ///< of one conductor at 20 degrees Celsius, the most allowed
  Length outer;                           ///< diameter over the sheath
  bool sunproof = false;                  ///< whether the sheath is made for sun and rain
  bool shielded = false;
  std::optional<Length> longest;  ///< end to end, cords included
  std::optional<DataRate> rate;
  std::string source;
};

/// A cable from a feed to a camera or to another feed.
struct Run {
  std::string name;                ///< its label
  std::string from;                ///< a feed
  std::optional<int> port;         ///< of that feed, the first is 1
  std::string to;                  ///< a camera, or a feed
  std::optional<int> to_port;      ///< of an injector: what comes in there goes on at its port of that number
  std::string cable;               ///< kind of cable, of data/cables.json
  std::vector<std::string> along;  ///< ways it takes; empty: the shortest
  std::optional<Length> length;    ///< as measured; unset: worked out
  bool surge_protected = false;
  std::optional<double> metre_price;  ///< of its kind of cable, so that runs of one kind do not differ in it
};

/// What a bracket is fixed to: a wall or post beside the camera, or a ceiling or soffit above it.
enum class HeldBy { kWall, kCeiling };

enum class FixingKind { kWoodScrew, kLagScrew, kAnchor, kClamp };

/// What holds a mount's bracket.
struct Fixing {
  FixingKind kind = FixingKind::kAnchor;
  int count = 4;
  std::optional<Length> diameter, depth;  ///< of a screw; its depth in what holds it
  std::optional<double> gravity;          ///< wood: its specific gravity, oven-dry; unset: typical
  std::optional<Force> allowable;         ///< pull on one, as its maker states for this base; needed of anchors
  std::optional<Length> spread;           ///< between upper and lower ones, overhead across; unset: typical
  std::optional<Length> arm;              ///< from what it is fixed to, to the camera's middle; unset: typical
};

enum class PoleMaterial { kSteel, kAluminium, kWood };

struct Pole {
  PoleMaterial material = PoleMaterial::kSteel;
  Length outer, wall;  ///< diameter; thickness of the tube's wall, half of the diameter when it is solid
  Length height;       ///< above where it is held
};

/// EN 1991-1-4.
enum class TerrainCategory { k0, kI, kII, kIII, kIV };

struct Wind {
  Speed basic;  ///< fundamental basic velocity, ten minutes at 10 m over open country
  TerrainCategory category = TerrainCategory::kII;
};

}  // namespace sightfall::site
