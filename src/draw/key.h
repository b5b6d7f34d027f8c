// SPDX-License-Identifier: GPL-3.0-or-later
// The key: each sign that the picture uses, once, with its name.
#pragma once
#include <functional>
#include <string>
#include <vector>

#include "draw/canvas.h"
#include "draw/plan_map.h"

namespace sightfall::draw {

inline constexpr double kKeySignWidth = 44;

struct KeyEntry {
  std::string name;
  std::function<void(Canvas&, PagePoint)> draw;  ///< at the left end of a sign kKeySignWidth wide, on its middle line
};

/// The signs of what stands and lies on a site.
std::vector<KeyEntry> key_of_site(const site::Site& site);

/// Entries one under another, so many in a column.
void draw_entries(Canvas& canvas, const std::vector<KeyEntry>& entries, PagePoint top_left, size_t rows);

/// The names in the key, in the order drawn.
std::vector<std::string> key_names(const PlanMap& plan);

void draw_key(Canvas& canvas, const PlanMap& plan, PagePoint top_left);

}  // namespace sightfall::draw
