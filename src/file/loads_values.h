// SPDX-License-Identifier: GPL-3.0-or-later
// What every part of the loads' answer is written with: a load beside its capacity.
//   Checked  loads_answer_test.cpp
#pragma once
#include <string>

#include "file/answer_values.h"
#include "loads/bearing.h"

namespace sightfall::file {

/// `unit` is the ending of the names, such as `w`; `to_value` writes one quantity in that unit.
template <class T, class ToValue>
Value bearing_value(const loads::Bearing<T>& bearing, const std::string& unit, ToValue to_value) {
  const std::string end = unit.empty() ? "" : "_" + unit;
  return Object{{"load" + end, range(bearing.load, to_value)},
                {"capacity" + end, bearing.capacity ? to_value(*bearing.capacity) : Value{}},
                {"held", Value{loads::in_words(bearing.held)}},
                {"rule", bearing.rule},
                {"remedy", text_or_null(bearing.remedy)}};
}

}  // namespace sightfall::file
