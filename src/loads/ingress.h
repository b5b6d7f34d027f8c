// SPDX-License-Identifier: GPL-3.0-or-later
// What a sheet's code against dust and water says of rain.
//   Model    IEC 60529: `IP66`, the first digit against solids, the second against water, X where it was not tried;
//            outdoors water splashes from all sides, which is the second digit 4. Digits up to 6 include the lower
//            ones; 7 and 8 are of immersion and include jets (5 and 6) only where both are stated, but rain is less
//            than a jet
//   Limits   one washed with a hose wants 5 or 6; frost, salt and insects are not looked at
//   Source   IEC 60529, as reported (the digits' meanings); that 4 does for rain is common practice
//   Checked  ingress_test.cpp
#pragma once
#include <optional>
#include <string_view>

namespace sightfall::loads {

/// The least second digit for what hangs in the rain.
inline constexpr int kSplash = 4;

/// The highest second digit of the codes in a sheet's words; nothing where none is stated.
std::optional<int> against_water(std::string_view ingress);

}  // namespace sightfall::loads
