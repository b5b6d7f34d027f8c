// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/check.h"
#include "draw/files.h"

namespace sightfall::reading {
namespace {

using draw::Canvas;
using draw::PagePoint;
using draw::Pen;

constexpr double kLeast = 8, kMost = 400;  // px/m: the ends of the axis
constexpr double kWide = 330, kHigh = 250, kTop = 96, kSide = 24;
constexpr int kAcross = 3;

/// A panel's place on the page, and where on it a measurement lies.
struct Panel {
  double left = 0, top = 0;

  static constexpr double kLeft = 44, kAbove = 30, kInside = 262, kTall = 160;

  double x(double detail) const {
    const double share = std::log(std::clamp(detail, kLeast, kMost) / kLeast) / std::log(kMost / kLeast);
    return left + kLeft + share * kInside;
  }
  double y(double hits) const { return top + kAbove + (1 - hits) * kTall; }
};

void draw_axes(const Canvas& canvas, const Panel& panel, bool labelled) {
  const Pen faint{draw::kFaintInk, 0.6};
  const draw::Lettering small{11, false, draw::kSoftInk};
  for (const double hits : {0.0, 0.5, 1.0}) {
    canvas.stroke(draw::line_shape({{panel.x(kLeast), panel.y(hits)}, {panel.x(kMost), panel.y(hits)}}), faint);
    canvas.letter(fmt::format("{:.0f} %", 100 * hits), small, {panel.x(kLeast) - 22, panel.y(hits)});
  }
  for (const double detail : {10.0, 25.0, 62.5, 125.0, 250.0}) {
    canvas.stroke(draw::line_shape({{panel.x(detail), panel.y(0)}, {panel.x(detail), panel.y(0) + 5}}), faint);
    canvas.letter(fmt::format("{:.4g}", detail), small, {panel.x(detail), panel.y(0) + 14});
  }
  if (labelled)
    canvas.letter("delivered detail, px/m", small, {(panel.x(kLeast) + panel.x(kMost)) / 2, panel.y(0) + 30});
}

/// Points with their 90 % intervals, joined from harmless to hopeless.
void draw_points(const Canvas& canvas, const Panel& panel, const std::vector<Measured>& points, const Pen& pen,
                 bool intervals) {
  std::vector<PagePoint> joined;
  joined.reserve(points.size());
  for (const Measured& p : points) joined.push_back({panel.x(p.detail), panel.y(p.tally.share())});
  canvas.stroke(draw::line_shape(joined), pen);
  if (!intervals) return;
  for (const Measured& p : points) {
    const Ranged<double> share = wilson(p.tally);
    const double x = panel.x(p.detail);
    canvas.stroke(draw::line_shape({{x, panel.y(share.low)}, {x, panel.y(share.high)}}), {pen.colour, 1.2});
    canvas.fill(draw::circle({x, panel.y(share.nominal)}, 2.6), pen.colour);
  }
}

std::string told(const Row& row) {
  if (row.half.nominal <= 0) return "read where no detail is left";
  return fmt::format("half at {:.0f} px/m, {:.2f} of distance ({:.2f} to {:.2f})", row.half.nominal, row.ratio.nominal,
                     row.ratio.low, row.ratio.high);
}

/// The band within which a cause agrees with distance, then distance, then the cause.
void draw_panel(const Canvas& canvas, const Panel& panel, const std::array<std::vector<Measured>, 2>& points,
                const Row& distance, const Row& row, bool labelled) {
  const double low = panel.x(distance.half.nominal * (1 - kAgree)),
               high = panel.x(distance.half.nominal * (1 + kAgree));
  canvas.fill(draw::rectangle({low, panel.y(1)}, {high, panel.y(0)}), draw::with_opacity(draw::kFaintInk, 0.35));
  draw_axes(canvas, panel, labelled);
  draw_points(canvas, panel, points[0], {draw::kSoftInk, 1.2, {5, 4}}, false);
  draw_points(canvas, panel, points[1], {draw::kAccent, 1.8}, true);
  canvas.letter_from(row.cause, {14, true}, {panel.left + Panel::kLeft, panel.top - 10});
  canvas.letter_from(told(row), {11.5, false, draw::kSoftInk}, {panel.left + Panel::kLeft, panel.top + 8});
}

}  // namespace

std::string plot_of(const Finding& finding, const std::string& title, const Thresholds& thresholds) {
  const std::vector<Row> rows = rows_of(finding.all, finding.number, kSecond, thresholds);
  const auto panels = static_cast<int>(rows.size()) - 1, lines = (panels + kAcross - 1) / kAcross;
  const draw::PageSize size{static_cast<int>(2 * kSide + kAcross * kWide),
                            static_cast<int>(kTop + lines * kHigh + kSide)};
  const std::string heading = fmt::format("{} read by {}: {}", finding.title, finding.reader, title);
  const std::string key = fmt::format(
      "Share read against delivered detail, with 90 % intervals; thresholds: contrast {:.3g}, noise {:.3g}. "
      "Dashed: distance alone. Grey: within {:.0f} % of its half point.",
      thresholds.contrast, thresholds.noise, 100 * kAgree);
  const auto draw = [&](Canvas& canvas) {
    canvas.fill(draw::rectangle({0, 0}, {static_cast<double>(size.width), static_cast<double>(size.height)}),
                draw::kPaper);
    canvas.letter_from(heading, {19, true}, {kSide, 20});
    canvas.letter_from(key, {12.5, false, draw::kSoftInk}, {kSide, 50});
    const std::vector<Measured> distance = measured(finding.all[0], finding.number, kSecond, thresholds);
    for (int i = 0; i < panels; ++i) {
      const size_t at = static_cast<size_t>(i) + 1;
      const int across = i % kAcross, down = i / kAcross;
      const Panel panel{kSide + across * kWide, kTop + down * kHigh};
      draw_panel(canvas, panel, {distance, measured(finding.all[at], finding.number, kSecond, thresholds)}, rows[0],
                 rows[at], down == lines - 1);
    }
  };
  const Result<std::string> svg = draw::drawn_svg(size, heading, key, draw);
  CHECK_EQ(svg.has_value(), true);
  return *svg;
}

}  // namespace sightfall::reading
