// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/plan_map.h"

#include "base/check.h"
#include "draw/files.h"
#include "draw/key.h"
#include "draw/plan_ink.h"
#include "draw/plan_lamps.h"
#include "draw/plan_layout.h"
#include "draw/plan_strip.h"
#include "draw/signs.h"

namespace sightfall::draw {
namespace {

void draw_detail(Canvas& canvas, const DetailField& field, const PlanLayout& layout, double step) {
  const PlanFrame& frame = layout.frame;
  const Shape seen = frame.to_page(field.seen());
  canvas.within(seen, [&] { canvas.tint(field.tint(), frame.low, frame.per_metre * step); });
  sign_edge_of_view(canvas, seen);
  for (const ContourLine& line : layout.contours) canvas.stroke({line.parts}, contour_pen(line.required));
}

void draw_labels(Canvas& canvas, const PlanLayout& layout) {
  for (const PlacedLabel& label : layout.labels)
    if (!label.leader.empty()) canvas.stroke(line_shape(label.leader), {.colour = label.lettering.colour, .width = 1});
  for (const PlacedLabel& label : layout.labels)
    canvas.letter(label.text, label.lettering, label.box.middle, label.box.turn);
}

void draw_plan(Canvas& canvas, const PlanMap& plan, const DetailField& field, const PlanLayout& layout) {
  const PlanFrame& frame = layout.frame;
  canvas.within(frame.shape(), [&] {
    draw_detail(canvas, field, layout, plan.map->step.si());
    canvas.stroke(layout.missed, missed_pen());
    draw_grid_crosses(canvas, frame);
    draw_site(canvas, frame, plan.project->site, [&](size_t solid) { return field.open(solid); });
    if (const site::Place* place = place_of(plan)) draw_place(canvas, frame, *place);
    draw_mounts(canvas, frame, *plan.project);
    draw_lamps(canvas, layout.lamps);
    if (plan.verdict != nullptr && plan.verdict->worst)
      sign_worst(canvas, frame.to_page(geom::plan(plan.verdict->worst->at_site)));
    draw_labels(canvas, layout);
  });
  draw_frame(canvas, frame);
  draw_strip(canvas, frame, plan);
}

/// Everything written on the picture, a line each, for those who cannot see it.
std::string description(const PlanMap& plan, const PlanLayout& layout) {
  std::string text = plan.subtitle;
  for (const std::string& paragraph : caption(plan)) text += "\n" + paragraph;
  for (const PlacedLabel& label : layout.labels) text += "\n" + label.text;
  for (const std::string& name : key_names(plan)) text += "\n" + name;
  return text;
}

}  // namespace

Result<PlanPictures> draw_plan_map(const PlanMap& plan) {
  CHECK_GT(plan.map->columns, 1);
  CHECK_GT(plan.map->rows, 1);
  CHECK_EQ(plan.map->delivered.size(), static_cast<size_t>(plan.map->columns) * static_cast<size_t>(plan.map->rows));
  const DetailField field{*plan.map, plan.project->site};
  const PlanLayout layout = laid_out(plan, field);
  const Drawing drawing = [&](Canvas& canvas) { draw_plan(canvas, plan, field, layout); };
  Result<std::string> svg = drawn_svg(layout.frame.page, plan.title, description(plan, layout), drawing);
  if (!svg) return tl::make_unexpected(svg.error());
  Result<std::string> png = drawn_png(layout.frame.page, drawing);
  if (!png) return tl::make_unexpected(png.error());
  return PlanPictures{std::move(*svg), std::move(*png)};
}

}  // namespace sightfall::draw
