// SPDX-License-Identifier: GPL-3.0-or-later
// Heights as map data writes them.
//   Source   OpenStreetMap wiki, "Key:height" and "Map features/Units" (metres unless a unit is named; feet and inches
//            as 26'6"), from memory; the tag list is written as PostgreSQL's hstore writes it
//   Checked  height_text_test.cpp
#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "unit/quantity.h"

namespace sightfall::import {

/// A length such as `8`, `8.5 m`, `26 ft`, `26'6"`; nothing when it is anything else.
std::optional<Length> length_of_text(std::string_view text);

/// A building's height: a length above 0 and up to kMostHeight.
std::optional<Length> height_of_text(std::string_view text);

/// The value of one key in a list such as `"height"=>"8 m","roof:shape"=>"flat"`.
std::optional<std::string> tag_value(std::string_view tags, std::string_view key);

}  // namespace sightfall::import
