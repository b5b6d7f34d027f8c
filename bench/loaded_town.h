// SPDX-License-Identifier: GPL-3.0-or-later
// The made town with all that loads ask about: a day and a dark night, infrared lamps, streams, switches with runs to
// every camera, a recorder, a boundary with neighbours' windows beyond it, needs in its streets.
#pragma once
#include "need/project.h"

namespace sightfall::bench {

/// The same town every time.
need::Project loaded_town(int cameras);

}  // namespace sightfall::bench
