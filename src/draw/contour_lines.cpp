// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/contour_lines.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

namespace sightfall::draw {
namespace {

using geom::Polyline;

constexpr double kShortestLine = 26;  // page units; shorter ones are left out
constexpr double kShortestLabelled = 90;
constexpr double kBetweenFigures = 620;
constexpr double kBesideFigure = 5;      // of the line, on either side of its figure
constexpr double kStraightness = 0.965;  // chord over arc under a figure

std::vector<PagePoint> opened(const Polyline& line) {
  std::vector<PagePoint> points = line.points;
  if (line.closed) points.push_back(points.front());
  return points;
}

/// The figure's box at a distance along the line, upright, or nothing where the line bends too much.
std::optional<TurnedBox> box_on_line(const std::vector<PagePoint>& points, double at, TextSize size) {
  const double half = size.width / 2 + kBesideFigure;
  const PagePoint from = point_along(points, at - half), to = point_along(points, at + half);
  const PagePoint chord = to - from;
  if (geom::norm(chord) < kStraightness * 2 * half) return std::nullopt;
  double turn = std::atan2(chord.y, chord.x);
  if (turn > std::numbers::pi / 2) turn -= std::numbers::pi;
  if (turn <= -std::numbers::pi / 2) turn += std::numbers::pi;
  return TurnedBox{0.5 * (0.5 * (from + to) + point_along(points, at)), size.width + 2, size.height, turn};
}

/// Offsets from the wanted place, the nearest first.
std::vector<double> offsets(double reach) {
  constexpr double kStep = 14;
  std::vector<double> result{0};
  for (const double away : multiples(kStep, kStep, reach)) {
    result.push_back(away);
    result.push_back(-away);
  }
  return result;
}

struct LineFigure {
  std::string text;
  Lettering lettering;
};

/// Places a line's figures and returns the stretches of the line that they cover.
std::vector<std::pair<double, double>> place_figures(const Polyline& line, const LineFigure& figure, LabelRoom& room) {
  const std::vector<PagePoint> points = opened(line);
  const double whole = geom::length(points).si();
  std::vector<std::pair<double, double>> gaps;
  if (whole < kShortestLabelled) return gaps;
  const TextSize size = measured(figure.text, figure.lettering);
  const double half = size.width / 2 + kBesideFigure;
  const int count = std::max(1, int(std::lround(whole / kBetweenFigures)));
  for (int i = 0; i < count; ++i) {
    const double wanted = whole * (i + 0.5) / count;
    for (const double offset : offsets(whole / (2 * count) - half)) {
      const auto box = box_on_line(points, wanted + offset, size);
      if (!box || room.is_crowded(*box) || room.is_covered(*box)) continue;
      if (!room.place_at(*box, figure.text, figure.lettering)) continue;
      gaps.emplace_back(wanted + offset - half, wanted + offset + half);
      break;
    }
  }
  return gaps;
}

std::vector<Polyline> without_gaps(const Polyline& line, const std::vector<std::pair<double, double>>& gaps) {
  if (gaps.empty()) return {line};
  // From the far end, so that distances along what is left stay true.
  std::vector<Polyline> parts{{opened(line), false}};
  for (size_t i = gaps.size(); i-- > 0;) {
    const Polyline first = parts.front();
    parts.erase(parts.begin());
    const auto halves = broken(first, gaps[i].first, gaps[i].second);
    parts.insert(parts.begin(), halves.begin(), halves.end());
  }
  return parts;
}

std::vector<Polyline> page_lines(const DetailField& field, const PlanFrame& frame, PixelDensity density,
                                 PixelDensity higher) {
  std::vector<Polyline> lines = frame.to_page(Shape{field.lines_at(density, higher)}).lines;
  for (Polyline& line : lines) line = smoothed(line, frame.per_metre * field.grid().step);
  std::erase_if(lines, [](const Polyline& line) { return geom::length(opened(line)).si() < kShortestLine; });
  std::stable_sort(lines.begin(), lines.end(), [](const Polyline& a, const Polyline& b) {
    return geom::length(opened(a)) > geom::length(opened(b));
  });
  return lines;
}

}  // namespace

std::vector<PixelDensity> contour_densities(const PlanMap& plan) {
  std::vector<PixelDensity> result;
  for (const detail::Level& level : plan.project->settings.levels.levels) result.push_back(level.least);
  if (result.empty())
    for (const double value : {10, 20, 50, 100, 200, 500, 1000}) result.emplace_back(value);
  if (plan.required > PixelDensity{}) result.push_back(plan.required);
  std::sort(result.begin(), result.end());
  result.erase(std::unique(result.begin(), result.end()), result.end());
  return result;
}

std::vector<ContourLine> contour_lines(const PlanMap& plan, const DetailField& field, const PlanFrame& frame,
                                       LabelRoom& room) {
  const std::vector<PixelDensity> densities = contour_densities(plan);
  std::vector<ContourLine> result;
  for (const bool required : {true, false})
    for (size_t i = 0; i < densities.size(); ++i) {
      if ((densities[i] == plan.required) != required) continue;
      const PixelDensity higher = i + 1 < densities.size() ? densities[i + 1] : PixelDensity{HUGE_VAL};
      bool named = false;
      for (const Polyline& line : page_lines(field, frame, densities[i], higher)) {
        const LineFigure figure{fmt::format("{:g}{}", densities[i].si(), named ? "" : " px/m"),
                                {.size = 14.5, .bold = required}};
        const auto gaps = place_figures(line, figure, room);
        named = named || !gaps.empty();
        result.push_back({densities[i], required, without_gaps(line, gaps)});
      }
    }
  return result;
}

}  // namespace sightfall::draw
