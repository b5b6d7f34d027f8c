// SPDX-License-Identifier: GPL-3.0-or-later
// Hits against delivered detail, one panel a cause, with distance behind each.
#pragma once
#include <string>

#include "results.h"

namespace sightfall::reading {

/// An SVG file of the second half under the thresholds.
std::string plot_of(const Finding& finding, const std::string& title, const Thresholds& thresholds);

}  // namespace sightfall::reading
