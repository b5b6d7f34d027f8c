// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/plan_strip.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "draw/contour_lines.h"
#include "draw/key.h"
#include "draw/plan_layout.h"
#include "draw/ramp.h"
#include "draw/scale_bar.h"
#include "need/station.h"

namespace sightfall::draw {
namespace {

constexpr double kWordsWidth = 540, kTonesAt = 618, kKeyAt = 888, kScaleAt = 1326;
constexpr double kLeft = 56;

/// Met is a full disc, marginal a half-filled one, missed an open one with a cross: the shape says it without colour.
void draw_mark(Canvas& canvas, need::Answer answer, PagePoint middle) {
  constexpr double kRadius = 8;
  const Shape disc = circle(middle, kRadius);
  const PagePoint r{kRadius, kRadius};
  if (answer == need::Answer::kMet) canvas.fill(disc, kInk);
  if (answer == need::Answer::kMarginal)
    canvas.within(disc, [&] { canvas.fill(rectangle(middle - r, middle + PagePoint{0, kRadius}), kInk); });
  canvas.stroke(disc, {.width = 1.8});
  if (answer != need::Answer::kMissed) return;
  const double arm = kRadius * M_SQRT1_2;
  canvas.stroke({{{{middle - PagePoint{arm, arm}, middle + PagePoint{arm, arm}}, false},
                  {{middle - PagePoint{arm, -arm}, middle + PagePoint{arm, -arm}}, false}}},
                {.width = 1.8});
}

void draw_words(Canvas& canvas, const PlanMap& plan, double top) {
  double y = top;
  const auto write = [&](const std::string& text, Lettering lettering, double x, double gap) {
    lettering.wrap = kLeft + kWordsWidth - x;
    if (text.empty()) return;
    canvas.letter_from(text, lettering, {x, y});
    y += measured(text, lettering).height + gap;
  };
  write(plan.title, {.size = 25, .bold = true}, kLeft, 3);
  write(plan.subtitle, {.size = 16, .colour = kSoftInk}, kLeft, 10);
  if (plan.verdict != nullptr) draw_mark(canvas, plan.verdict->answer, {kLeft + 10, y + 11});
  bool first = plan.verdict != nullptr;
  for (const std::string& paragraph : caption(plan)) {
    write(paragraph, {.size = first ? 17.0 : 14.5, .bold = first}, first ? kLeft + 28 : kLeft, 6);
    first = false;
  }
}

/// The scale of tones, with the levels' names beside the densities at which lines are drawn.
void draw_tones(Canvas& canvas, const PlanMap& plan, double top) {
  constexpr double kBarHeight = 262, kBarWidth = 26, kSteps = 262;
  const double x = kTonesAt, bottom = top + 24 + kBarHeight;
  canvas.letter_from("delivered detail, px/m", {.size = 14.5, .bold = true}, {x, top});
  for (int i = 0; i < kSteps; ++i) {
    const double low = bottom - kBarHeight * i / kSteps, high = bottom - kBarHeight * (i + 1) / kSteps;
    canvas.fill(rectangle({x, high - 0.5}, {x + kBarWidth, low}), ramp_tone((i + 0.5) / kSteps));
  }
  canvas.stroke(rectangle({x, bottom - kBarHeight}, {x + kBarWidth, bottom}), {.width = 1});
  for (const PixelDensity density : contour_densities(plan)) {
    if (density < kRampLow || density > kRampHigh) continue;
    const double y = bottom - kBarHeight * ramp_share(density);
    const bool required = density == plan.required;
    canvas.stroke(line_shape({{x, y}, {x + kBarWidth + 7, y}}), {.width = required ? 2.4 : 1});
    const detail::Level* level = plan.project->settings.levels.reached(density);
    const bool named = level != nullptr && level->least == density;
    const std::string text =
        fmt::format("{:g}{}{}", density.si(), named ? "  " + level->name : "", required ? " (needed)" : "");
    const Lettering lettering{.size = 14, .bold = required};
    canvas.letter_from(text, lettering, {x + kBarWidth + 13, y - measured(text, lettering).height / 2});
  }
}

void draw_scale(Canvas& canvas, const PlanFrame& frame, const PlanMap& plan, double top) {
  const Angle turn = plan.project->site.anchor ? plan.project->site.anchor->turn : Angle{};
  draw_north(canvas, {kScaleAt + 100, top + 82}, turn);
  draw_scale_bar(canvas, frame, {kScaleAt, top + 190}, Length{1}, "m");
  const bool feet = plan.project->settings.units == need::Units::kFeet;
  if (feet) draw_scale_bar(canvas, frame, {kScaleAt, top + 234}, units::ft, "ft");
  canvas.letter_from("the frame's figures are metres east and north", {.size = 12, .colour = kSoftInk, .wrap = 230},
                     {kScaleAt, top + (feet ? 256 : 212)});
}

std::string percent(double share) { return fmt::format("{:.0f} %", 100 * share); }

std::string share_in_words(const PlanMap& plan) {
  const need::Verdict& v = *plan.verdict;
  const need::Need* need = need::find_named(plan.project->needs, v.need);
  const char* what = need != nullptr && need->once_a_passage ? "passages" : "samples";
  const std::string range =
      v.share.low == v.share.high ? "" : fmt::format(" ({} to {})", percent(v.share.low), percent(v.share.high));
  const std::string limit =
      v.limit == detail::Limit::kNone ? "" : fmt::format("; limit: {}", detail::in_words(v.limit));
  return fmt::format("{}: {}{} of {}, {} asked{}", need::in_words(v.answer), percent(v.share.nominal), range, what,
                     percent(v.required_share), limit);
}

}  // namespace

std::vector<std::string> caption(const PlanMap& plan) {
  std::vector<std::string> result;
  if (plan.verdict != nullptr) {
    result.push_back(share_in_words(plan));
    if (const auto& worst = plan.verdict->worst)
      result.push_back(fmt::format("{}{} at {:.1f} m east, {:.1f} m north", worst_note(*plan.verdict),
                                   worst->camera.empty() ? "" : fmt::format(", by \"{}\",", worst->camera),
                                   worst->at_site.x, worst->at_site.y));
  }
  result.push_back(
      fmt::format("Drawn: delivered detail on a face 1.6 m above ground turned to the camera, by the best camera at "
                  "each point, {}, {}. Bare paper: no camera makes one out.",
                  plan.map->condition, need::compression_in_words(*plan.project)));
  return result;
}

void draw_strip(Canvas& canvas, const PlanFrame& frame, const PlanMap& plan) {
  const double top = frame.page.height - kStripHeight + 52;
  draw_words(canvas, plan, top - 6);
  draw_tones(canvas, plan, top);
  draw_key(canvas, plan, {kKeyAt, top});
  draw_scale(canvas, frame, plan, top);
}

}  // namespace sightfall::draw
