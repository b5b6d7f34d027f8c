// SPDX-License-Identifier: GPL-3.0-or-later
// How long a battery lasts.
//   Model    Peukert as rated: t = H (C / (I H))^k, C the capacity rated over H hours. The plain form t = C / I^k has C
//            at one ampere and gives other hours for the same label
//   Limits   temperature and what the unit cuts off at are not reckoned with but for age and efficiency
//   Source   W. Peukert (1897), as handbooks have it
//   Checked  battery_test.cpp
#pragma once
#include "unit/electricity.h"

namespace sightfall::loads {

/// With the capacity that is rated over a time of discharge.
Time lasts(Charge rated, Time over, double exponent, Current drawn);

/// The capacity, rated over that time of discharge, that lasts as long as wanted: the inverse.
Charge charge_for(Time wanted, Time over, double exponent, Current drawn);

/// With Peukert's own capacity, that of one ampere.
Time lasts_plain(Charge at_one_ampere, double exponent, Current drawn);

}  // namespace sightfall::loads
