// SPDX-License-Identifier: GPL-3.0-or-later
// What the cameras of a project ask of what carries them, all together.
//   Checked  file/loads_answer_test.cpp; tests/case
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/progress.h"
#include "base/ranged.h"
#include "loads/cabling.h"
#include "loads/mounting.h"
#include "loads/network.h"
#include "loads/outage.h"
#include "loads/overlook.h"
#include "loads/power.h"
#include "loads/storage.h"

namespace sightfall::loads {

struct LoadsOptions {
  std::vector<MeasuredRate> measured;  ///< rates of clips, which stand in for forecasts
  bool overlook = true;                ///< whether what cameras show of others is worked out
  bool mask_costs = true;              ///< whether what masks cost the needs is, too, which is most of the work
};

struct Loads {
  Cabling cable;
  PowerLoads power;
  NetworkLoads network;
  StorageLoads storage;
  Mounting mount;
  Overlook overlook;
  Outage outage;
  std::vector<Assumption> assumptions;
  bool stopped = false;  ///< before what masks cost was worked out

  /// The worst of all but what is overlooked, which is for the user to settle.
  Held held() const;
};

/// Of a valid project, which must outlive the answer.
Loads loads(const need::Project& project, const LoadsOptions& options = {}, const Progress& progress = {});
/// The same where the light is shared with other work on the project (need/lit_project.h), such as its check.
Loads loads(const need::LitProject& lit, const LoadsOptions& options = {}, const Progress& progress = {});

/// One load as a line: what the command line, the check and the papers tell.
struct Ask {
  std::string part;   ///< `power`, `cable`, `network`, `storage` or `mount`
  std::string about;  ///< what it is about, by name
  std::string words;  ///< load and capacity, with their units
  Held held = Held::kMet;
  std::string remedy;                ///< or what to find out; may be empty
  std::vector<std::string> of = {};  ///< cameras and mounts that it is about alone
  std::string otherwise = {};        ///< what would do as well; may be empty
};

/// Every load, the parts in their order.
std::vector<Ask> asks_of(const Loads& loads);

/// Those of a project whose document says what carries its cameras: feeds, runs, fixings, poles, or how long recordings
/// are wanted; nothing of another.
std::optional<std::vector<Ask>> asks_if_said(const need::LitProject& lit);

}  // namespace sightfall::loads
