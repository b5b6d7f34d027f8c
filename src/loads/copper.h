// SPDX-License-Identifier: GPL-3.0-or-later
// What copper takes of a voltage on the way out and back.
//   Model    R(T) = R20 (1 + 0.00393 (T - 20)); a load that draws a power P at its end: V^2 - U V + P R = 0; of
//            alternating current with a power factor f: V^4 + (2 P R - U^2) V^2 + (P R / f)^2 = 0, effective values
//   Limits   a cable's inductance is left out, which counts from some 16 mm2
//   Source   IEC 60028 (1/58 ohm mm2/m, 0.00393 per kelvin at 20 degrees Celsius); the equations by Ohm's law
//   Checked  copper_test.cpp
#pragma once
#include <optional>

#include "unit/electricity.h"

namespace sightfall::loads {

/// A conductor's resistance at a temperature over that at 20 degrees Celsius.
double warmed(double celsius);

/// Resistance out and back of a run of that length: `parallel` conductors each way.
Resistance loop(Resistivity of_conductor_at_20, Length length, double celsius, int parallel = 1);

struct Fed {
  Potential at_device;
  Current current;
  Power lost;
};

/// A device that draws a power, behind a loop, from a source; nothing when the loop cannot carry that power. Direct
/// current has a power factor of 1.
std::optional<Fed> fed(Potential source, Resistance loop, Power drawn, double power_factor = 1);

/// What is left at the far end of a power that is given into a loop: how IEEE 802.3 comes from ports to devices.
Power left_of(Power given, Potential source, Resistance loop);

}  // namespace sightfall::loads
