// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/signs.h"

#include <algorithm>
#include <cmath>

namespace sightfall::draw {
namespace {

constexpr double kOutline = 2, kHairline = 1;
constexpr double kHatchSpacing = 6;

PagePoint turned_left(PagePoint p) { return {p.y, -p.x}; }

Shape segments(std::initializer_list<std::pair<PagePoint, PagePoint>> pairs) {
  Shape result;
  for (const auto& [from, to] : pairs) result.lines.push_back({{from, to}, false});
  return result;
}

/// A filled arrowhead with its tip at a point.
void arrowhead(Canvas& canvas, PagePoint tip, PagePoint along, Colour colour = kAccent) {
  constexpr double kLength = 13, kHalfWidth = 4.5;
  const PagePoint back = tip - kLength * along, side = kHalfWidth * turned_left(along);
  canvas.fill(ring_shape({tip, back + side, back + 0.3 * kLength * along, back - side}), colour);
}

}  // namespace

void sign_building(Canvas& canvas, const Shape& outline) {
  canvas.fill(outline, kPaper);
  canvas.hatch(outline, {.colour = kSoftInk, .width = 0.8}, kHatchSpacing);
  canvas.stroke(outline, {.width = kOutline});
}

void sign_open_building(Canvas& canvas, const Shape& outline) { canvas.stroke(outline, {.width = kOutline}); }

void sign_wall(Canvas& canvas, const geom::Ring& footprint) {
  canvas.fill(ring_shape(footprint), kInk);
  canvas.stroke(ring_shape(footprint), {.width = kOutline});
}

void sign_box(Canvas& canvas, const Shape& outline) {
  canvas.fill(outline, kPaper);
  canvas.hatch(outline, {.colour = kSoftInk, .width = 0.7}, 0.6 * kHatchSpacing);
  canvas.stroke(outline, {.width = 1.3});
}

void sign_roof(Canvas& canvas, const Shape& outline) { canvas.stroke(outline, {.width = 1.4, .dashes = {9, 5}}); }

void sign_vehicle(Canvas& canvas, const geom::Ring& corners) {
  canvas.fill(ring_shape(corners), kPaper);
  canvas.stroke(ring_shape(corners), {.width = 1.3});
  // The windscreen, so that front and rear can be told apart.
  constexpr double kFromRear = 0.68, kInset = 0.12;
  const PagePoint left = corners[0] + kFromRear * (corners[3] - corners[0]);
  const PagePoint right = corners[1] + kFromRear * (corners[2] - corners[1]);
  canvas.stroke(segments({{left + kInset * (right - left), right - kInset * (right - left)}}), {.width = kHairline});
}

void sign_mesh(Canvas& canvas, const std::vector<PagePoint>& line) {
  canvas.stroke(line_shape(line), {.width = 2.4, .dashes = {0, 5.5}});
}

void sign_hedge(Canvas& canvas, const geom::Ring& footprint) {
  canvas.fill(ring_shape(footprint), with_opacity(kInk, 0.10));
  canvas.stroke(ring_shape(footprint), {.colour = kSoftInk, .width = 2.2, .dashes = {0, 4.5}});
}

void sign_tree(Canvas& canvas, PagePoint trunk, double crown_radius) {
  canvas.fill(circle(trunk, crown_radius), with_opacity(kInk, 0.06));
  canvas.stroke(circle(trunk, crown_radius), {.colour = kSoftInk, .width = 2.2, .dashes = {0, 4.5}});
  canvas.fill(circle(trunk, 2), kSoftInk);
}

void sign_boundary(Canvas& canvas, const Shape& ring) { canvas.stroke(ring, {.width = 1.5, .dashes = {18, 5, 3, 5}}); }

void sign_window(Canvas& canvas, PagePoint middle, PagePoint facing, double width) {
  constexpr double kApart = 4, kLeastWidth = 14;
  const PagePoint half = std::max(width, kLeastWidth) / 2 * turned_left(facing);
  for (const double out : {0.0, kApart})
    canvas.stroke(segments({{middle + out * facing - half, middle + out * facing + half}}), {.width = 1.6});
}

void sign_mount(Canvas& canvas, PagePoint at, const std::vector<PagePoint>& headings) {
  const Shape ring = circle(at, kMountRadius);
  for (const bool under : {true, false})
    for (const PagePoint heading : headings)
      canvas.stroke(segments({{at, at + (kMountRadius + kHeadingTick) * heading}}),
                    {.colour = under ? with_opacity(kPaper, 0.85) : kInk, .width = under ? 6.0 : 2.2});
  canvas.fill(ring, kPaper);
  canvas.stroke(ring, {.width = headings.empty() ? kHairline : 1.8});
  const double arm = kMountRadius;
  canvas.stroke(
      segments({{at - PagePoint{arm, 0}, at + PagePoint{arm, 0}}, {at - PagePoint{0, arm}, at + PagePoint{0, arm}}}),
      {.width = 0.7});
  if (!headings.empty()) canvas.fill(circle(at, 2.6), kInk);
}

void sign_lamp(Canvas& canvas, PagePoint at, PagePoint along, bool burning) {
  constexpr double kStroke = 9, kUpright = 0.1, kHalo = 2;
  canvas.fill(circle(at, kLampRadius + kHalo), with_opacity(kPaper, 0.85));
  const double level = geom::norm(along);
  if (level > kUpright) {
    const PagePoint edge = at + (kLampRadius / level) * along, tip = edge + (kStroke / level) * along;
    canvas.stroke(line_shape({edge, tip}), {.colour = with_opacity(kPaper, 0.85), .width = 4.5});
    canvas.stroke(line_shape({edge, tip}), {.width = 1.5});
  }
  if (burning) canvas.fill(circle(at, kLampRadius), kInk);
  canvas.stroke(circle(at, kLampRadius), {.width = 1.5});
}

void sign_mark(Canvas& canvas, PagePoint at) {
  constexpr double kRadius = 3.2;
  const Shape cross = segments({{at - PagePoint{kMarkArm, 0}, at + PagePoint{kMarkArm, 0}},
                                {at - PagePoint{0, kMarkArm}, at + PagePoint{0, kMarkArm}}});
  canvas.stroke(cross, {.colour = with_opacity(kPaper, 0.85), .width = 4});
  canvas.stroke(cross, {.colour = kSoftInk, .width = 1});
  canvas.stroke(circle(at, kRadius), {.colour = kSoftInk, .width = 1});
}

void sign_feed(Canvas& canvas, PagePoint at) {
  const PagePoint corner{kFeedHalf, kFeedHalf};
  canvas.fill(rectangle(at - corner, at + corner), kPaper);
  canvas.fill(rectangle(at - PagePoint{kFeedHalf, 0}, at + corner), kInk);
  canvas.stroke(rectangle(at - corner, at + corner), {.width = 1.5});
}

void sign_cable(Canvas& canvas, const std::vector<PagePoint>& line, bool fibre) {
  if (line.size() < 2) return;
  canvas.stroke(line_shape(line), {.colour = with_opacity(kPaper, 0.7), .width = 5});
  canvas.stroke(
      line_shape(line),
      {.colour = kAccent, .width = 1.6, .dashes = fibre ? std::vector<double>{12, 3, 2, 3} : std::vector<double>{}});
}

void sign_cables_of_both(Canvas& canvas, const std::vector<PagePoint>& line) {
  constexpr double kApart = 4.5;
  const geom::Ring sides = band(line, kApart);
  if (sides.empty()) return;
  const auto half = sides.begin() + static_cast<std::ptrdiff_t>(sides.size() / 2);
  canvas.fill(ring_shape(sides), kPaper);
  sign_cable(canvas, {sides.begin(), half}, false);
  sign_cable(canvas, {half, sides.end()}, true);
}

void sign_test(Canvas& canvas, PagePoint at) {
  const PagePoint rising{kTestArm, -kTestArm}, falling{kTestArm, kTestArm};
  const Shape cross = segments({{at - falling, at + falling}, {at - rising, at + rising}});
  canvas.stroke(cross, {.colour = kPaper, .width = 4});
  canvas.stroke(cross, {.colour = kAccent, .width = 1.8});
}

void sign_way_gone(Canvas& canvas, const std::vector<PagePoint>& line) {
  constexpr double kBehind = 2;
  canvas.stroke(line_shape(line), {.width = 1, .dashes = {6, 4}});
  const PagePoint tip = line.back(), behind = point_along(line, geom::length(line).si() - kBehind);
  if (const double length = geom::norm(tip - behind); length > 0)
    arrowhead(canvas, tip, (1 / length) * (tip - behind), kInk);
}

void sign_worst(Canvas& canvas, PagePoint at) {
  const PagePoint rising{kWorstArm, -kWorstArm}, falling{kWorstArm, kWorstArm};
  const Shape cross = segments({{at - falling, at + falling}, {at - rising, at + rising}});
  canvas.stroke(cross, {.colour = kPaper, .width = 6.5});
  canvas.stroke(cross, {.colour = kAccent, .width = 2.8});
}

void sign_edge_of_view(Canvas& canvas, const Shape& line) {
  canvas.stroke(line, {.colour = mixed(kInk, kPaper, 0.45), .width = 0.8});
}

void sign_zone(Canvas& canvas, const Shape& outline) { canvas.stroke(outline, {.colour = kAccent, .width = 2.4}); }

void sign_line(Canvas& canvas, const std::vector<PagePoint>& line) {
  constexpr double kEnd = 6;
  canvas.stroke(line_shape(line), {.colour = kAccent, .width = 2.4});
  for (const auto& [end, next] : {std::pair{line.front(), line[1]}, std::pair{line.back(), line[line.size() - 2]}}) {
    const PagePoint across = (kEnd / std::max(1e-9, geom::norm(next - end))) * turned_left(next - end);
    canvas.stroke(segments({{end - across, end + across}}), {.colour = kAccent, .width = 2.4});
  }
}

void sign_route(Canvas& canvas, const std::vector<PagePoint>& line, double width) {
  constexpr double kBetweenHeads = 150;
  canvas.stroke(line_shape(line), {.colour = kAccent, .width = 2});
  if (width > 6) canvas.stroke(ring_shape(band(line, width)), {.colour = kAccent, .width = 1, .dashes = {7, 5}});
  const double whole = geom::length(line).si();
  const int heads = std::max(1, int(whole / kBetweenHeads));
  for (int i = 1; i <= heads; ++i) {
    const double at = whole * i / heads;
    const PagePoint tip = point_along(line, at), behind = point_along(line, at - 2);
    if (geom::norm(tip - behind) > 0) arrowhead(canvas, tip, (1 / geom::norm(tip - behind)) * (tip - behind));
  }
}

Pen missed_pen() { return {.colour = with_opacity(kAccent, 0.85), .width = 1.3}; }
Pen contour_pen(bool required) {
  return {.colour = mixed(kInk, kPaper, required ? 0.0 : 0.15), .width = required ? 2.4 : 1.0};
}
Pen ground_pen() { return {.colour = with_opacity(kInk, 0.28), .width = 0.7, .dashes = {10, 3}}; }

}  // namespace sightfall::draw
