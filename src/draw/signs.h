// SPDX-License-Identifier: GPL-3.0-or-later
// The signs of the sheet, each drawn in one place for the plan and for its key. Shapes are on the page.
#pragma once
#include <vector>

#include "draw/canvas.h"

namespace sightfall::draw {

inline constexpr double kMountRadius = 7, kHeadingTick = 17, kWorstArm = 8, kLampRadius = 4.5, kMarkArm = 6,
                        kFeedHalf = 6.5, kTestArm = 4.5;

void sign_building(Canvas& canvas, const Shape& outline);
/// A building whose ground a camera sees: drawn without its top.
void sign_open_building(Canvas& canvas, const Shape& outline);
void sign_wall(Canvas& canvas, const geom::Ring& footprint);
void sign_box(Canvas& canvas, const Shape& outline);
void sign_roof(Canvas& canvas, const Shape& outline);
/// Corners: rear left, rear right, front right, front left.
void sign_vehicle(Canvas& canvas, const geom::Ring& corners);
void sign_mesh(Canvas& canvas, const std::vector<PagePoint>& line);
void sign_hedge(Canvas& canvas, const geom::Ring& footprint);
void sign_tree(Canvas& canvas, PagePoint trunk, double crown_radius);
void sign_boundary(Canvas& canvas, const Shape& ring);
/// `facing` points outwards, of length one.
void sign_window(Canvas& canvas, PagePoint middle, PagePoint facing, double width);
/// A plumb bob seen from above, with a tick for each camera's heading (of length one).
void sign_mount(Canvas& canvas, PagePoint at, const std::vector<PagePoint>& headings);
/// Filled when it burns; a stroke to where it shines unless that is straight down. `along` is its axis seen from above.
void sign_lamp(Canvas& canvas, PagePoint at, PagePoint along, bool burning);
/// A point to aim by: a fine cross in a ring.
void sign_mark(Canvas& canvas, PagePoint at);
/// Where power or network starts: a square with its lower half filled.
void sign_feed(Canvas& canvas, PagePoint at);
void sign_cable(Canvas& canvas, const std::vector<PagePoint>& line, bool fibre);
/// Copper and fibre side by side.
void sign_cables_of_both(Canvas& canvas, const std::vector<PagePoint>& line);
/// The place of a walk test.
void sign_test(Canvas& canvas, PagePoint at);
/// A way that is walked or driven, to its end.
void sign_way_gone(Canvas& canvas, const std::vector<PagePoint>& line);
void sign_worst(Canvas& canvas, PagePoint at);
void sign_edge_of_view(Canvas& canvas, const Shape& line);
void sign_zone(Canvas& canvas, const Shape& outline);
void sign_route(Canvas& canvas, const std::vector<PagePoint>& line, double width);
void sign_line(Canvas& canvas, const std::vector<PagePoint>& line);
Pen missed_pen();
Pen contour_pen(bool required);
Pen ground_pen();

}  // namespace sightfall::draw
