// SPDX-License-Identifier: GPL-3.0-or-later
// Channels of several runs: through an injector, which puts power on the pairs and nothing else, pairs go on as one,
// those of each of its ports by themselves.
//   Source   ISO/IEC 11801, TIA-568 (from memory): 100 m end to end; IEEE 802.3: a midspan counts as one more joint of
//            the same channel. A switch, or an extender, which is a switch of two ports, starts a new one
//   Checked  channels_test.cpp
#pragma once
#include <vector>

#include "loads/cabling.h"

namespace sightfall::loads {

/// Holds each run of pairs that leaves an injector, with all that leads to it, against the longest channel.
void judge_channels(const need::Project& project, std::vector<LaidRun>& runs);

}  // namespace sightfall::loads
