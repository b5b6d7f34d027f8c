// SPDX-License-Identifier: GPL-3.0-or-later
// One outline from the file taken into the site frame.
//   Checked  footprints_test.cpp
#pragma once
#include <optional>
#include <string>

#include "import/map_frame.h"
#include "import/vector_file.h"

namespace sightfall::import {

/// Moves every corner; why it cannot, in words, when it cannot.
std::optional<std::string> move_to_site(RawOutline& raw, const MapFrame& frame);

/// From the site's origin to the nearest point of the outline's parts; zero inside one.
Length nearest(const std::vector<geom::Outline>& parts);

}  // namespace sightfall::import
