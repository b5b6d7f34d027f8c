// SPDX-License-Identifier: GPL-3.0-or-later
// Cables laid along the ways that the user drew: how long each run is, what it passes, and whether it may.
//   Model    docs/models.md section 9: from a feed up or down and over to the nearest way, along ways to the shortest
//            total, and over and up or down to the other end; then slack, and the service loops
//   Limits   a run of stated length is laid too, so that what it passes is told, but its length is the stated one; the
//            ends of the assumptions are added up, which is wider than a 90 % range; local codes are not looked into
//   Checked  cabling_test.cpp, cabling_laws_test.cpp
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "geom/vec.h"
#include "loads/bearing.h"
#include "need/check.h"
#include "need/project.h"

namespace sightfall::loads {

using need::Caution;

/// Of a camera that hangs outdoors on a mount without a box behind it. Common practice, no published source.
inline constexpr const char* kTailOutdoors =
    "hangs outdoors, where a camera's own tail, mostly thin, unshielded and not made for the sun, ages and takes in "
    "water: keep tail and plug in a box behind the bracket or in a sealed joint (common practice, no published source)";

/// A run as it would lie.
struct LaidRun {
  const site::Run* run = nullptr;
  const site::Cable* cable = nullptr;
  std::vector<geom::SitePoint> line;  ///< without slack and loops
  std::vector<std::string> along;     ///< ways it takes, in order
  Ranged<Length> length;              ///< to be bought, slack and loops included
  Length open;                        ///< across, along no way
  bool outdoors = false, in_sun = false, between_buildings = false;
  bool powered = false;            ///< whether what hangs at its end takes its power from the port that it starts at
  Bearing<Length> reach;           ///< beside the longest that its kind of cable may be; met when it has no such limit
  Held held = Held::kMet;          ///< worst of reach, sheath, earths, and the ways it is told to take
  std::vector<std::string> flags;  ///< what is so of this run, and what to do
  const site::Cable* instead = nullptr;  ///< the kind to lay in place of its own, which may not lie so; null: its own
  std::string otherwise;                 ///< what would do as well; may be empty
  bool open_question = false;            ///< what to buy is not known before its length, way or kind is settled

  /// The kind of cable to buy for it.
  const site::Cable& to_lay() const { return instead != nullptr ? *instead : *cable; }
};

struct ConduitFill {
  std::string way;
  int cables = 0;
  Bearing<double> fill;  ///< share of the bore that cables take, beside the most allowed
  Angle bends;           ///< all its turns in plan together
};

struct CableNeed {
  std::string cable;
  Ranged<Length> length;
  int runs = 0;
  std::optional<double> metre_price;

  /// Of the longest likely length, for what is too short is thrown away; to a tenth of a metre, as lengths are told.
  std::optional<double> price() const;
};

struct Cabling {
  std::vector<LaidRun> runs;  ///< in the document's order
  std::vector<ConduitFill> conduits;
  std::vector<CableNeed> to_buy;  ///< by the kind that is to be laid, in the order of first use
  std::vector<Caution> cautions;  ///< of ways, and of all; those of a run are its flags
  Held held = Held::kMet;         ///< the worst of all
};

/// The runs of a valid project, which must outlive the answer.
Cabling lay(const need::Project& project);

}  // namespace sightfall::loads
