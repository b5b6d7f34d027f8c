// SPDX-License-Identifier: GPL-3.0-or-later
// What every part of the loads' answer is written with: a load beside its capacity, cautions.
//   Checked  loads_answer_test.cpp
#pragma once
#include <string>
#include <vector>

#include "file/answer_values.h"
#include "loads/bearing.h"
#include "loads/cabling.h"

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

inline Value cautions_value(const std::vector<loads::Caution>& cautions) {
  return list(cautions, [](const loads::Caution& one) {
    return Value{Object{{"about", one.about}, {"text", one.text}}};
  });
}

}  // namespace sightfall::file
