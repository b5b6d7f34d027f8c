// SPDX-License-Identifier: GPL-3.0-or-later
// Prices as papers tell them.
//   Checked  materials_test.cpp
#pragma once
#include <string>

#include "need/project.h"

namespace sightfall::papers {

/// `EUR`, or in words where the document names none.
inline std::string currency_of(const need::Project& project) {
  return project.settings.currency.empty() ? "in the currency of your prices" : project.settings.currency;
}

/// ` EUR`, or nothing.
inline std::string currency_after(const need::Project& project) {
  return project.settings.currency.empty() ? "" : " " + project.settings.currency;
}

}  // namespace sightfall::papers
