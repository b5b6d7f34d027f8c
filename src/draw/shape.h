// SPDX-License-Identifier: GPL-3.0-or-later
// Shapes to be drawn, as points. They are made on the plan (metres, y north) or on the page (page units, y down) alike.
//   Checked  shape_test.cpp: areas and distances by pencil
#pragma once
#include <vector>

#include "geom/contour.h"
#include "geom/polygon.h"

namespace sightfall::draw {

/// A point on the page: x right, y down, one unit a pixel of the picture.
using PagePoint = geom::Vec2;

/// What a pen follows or a wash fills: several lines, by the even-odd rule when filled.
struct Shape {
  std::vector<geom::Polyline> lines;
};

Shape ring_shape(const geom::Ring& ring);
Shape outline_shape(const geom::Outline& outline);
Shape line_shape(const std::vector<geom::Vec2>& line);
Shape circle(geom::Vec2 centre, double radius);
Shape rectangle(geom::Vec2 low, geom::Vec2 high);

/// The corners of a rectangle turned clockwise from north (plan only).
geom::Ring turned_box(geom::PlanPoint centre, double across, double along, Angle heading);

/// The ring at half the width on either side of a polyline, with mitred corners.
geom::Ring band(const std::vector<geom::Vec2>& line, double width);

/// A line without the stairs that a grid leaves in it. No point moves farther than `at_most`; the ends of an open line
/// stay.
geom::Polyline smoothed(const geom::Polyline& line, double at_most);

/// The parts of a line between two distances along it: what is left of it before `from` and after `to`.
std::vector<geom::Polyline> broken(const geom::Polyline& line, double from, double to);

/// The point at a distance along a line; beyond its ends, the end.
geom::Vec2 point_along(const std::vector<geom::Vec2>& line, double distance);

/// The whole multiples of a step from one value to another.
std::vector<double> multiples(double step, double from, double to);

/// The least distance from a point to a polyline.
double distance_to_line(const std::vector<geom::Vec2>& line, geom::Vec2 point);

}  // namespace sightfall::draw
