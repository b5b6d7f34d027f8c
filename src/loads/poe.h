// SPDX-License-Identifier: GPL-3.0-or-later
// Power over Ethernet by class.
//   Model    a port of a class gives a power at its least voltage; a device of that class may draw what is left
//            behind the longest channel. A device behind a shorter or thicker cable loses less, but may draw no more
//   Source   IEEE Std 802.3-2018 and 802.3bt-2018: class powers; least voltages and channel resistances from
//            memory, but the arithmetic closes on every class (poe_test.cpp); of the amendments 802.3af (2003) gives
//            15.4 W, 802.3at (2009) 30 W, 802.3bt (2018) 60 W as type 3 and 90 W as type 4
//   Checked  poe_test.cpp
#pragma once
#include <optional>
#include <string_view>

#include "unit/electricity.h"

namespace sightfall::loads {

inline constexpr int kLowestClass = 0, kHighestClass = 8;

struct PowerClass {
  Power port, device;  ///< the most a port gives, and a device may draw
  Potential least;     ///< of the port
  Resistance channel;  ///< loop of the longest channel, pairs in parallel as used
  int pairs = 2;       ///< that carry power
};

/// Of class 0 to 8. Class 0 is unclassified and is given what class 3 is.
const PowerClass& power_class(int number);

/// The lowest class whose devices may draw that much; nothing beyond class 8.
std::optional<int> class_for(Power drawn);

/// The class that a sheet names in words, such as `PoE class 3`; else the highest of the amendment that it names: 3 of
/// `802.3af`, 4 of `802.3at` or `PoE+`, 6 of `802.3bt type 3`, 8 of `802.3bt`. Nothing when it names neither.
std::optional<int> class_in_words(std::string_view supply);

/// Whether a sheet's words speak of power over Ethernet at all.
bool names_poe(std::string_view supply);

/// What a device takes from a port through a loop; nothing when the loop cannot carry it.
std::optional<Power> at_port(const PowerClass& of, Resistance loop, Power drawn);

}  // namespace sightfall::loads
