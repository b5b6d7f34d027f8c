// SPDX-License-Identifier: GPL-3.0-or-later
// What is no longer recorded once the mains fail, of a site on which batteries carry something.
//   Limits   a card in the camera goes on where the camera itself has power; that is not told
//   Checked  outage_test.cpp
#pragma once
#include <string>
#include <vector>

#include "loads/power.h"

namespace sightfall::loads {

struct Outage {
  std::vector<std::string> cameras;  ///< that stop being recorded at once, in the project's order
  std::vector<std::string> feeds;    ///< on their ways to power and recorder that no battery carries
};

/// Nothing where no feed has a battery, for then everybody knows.
Outage outage(const need::Project& project, const Cabling& cabling, const PowerLoads& power);

/// `when the mains fail, gate is no longer recorded: no battery carries pole supply`; empty where all go on.
std::string in_words(const Outage& outage);

}  // namespace sightfall::loads
