// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/bars.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "detail/delivered.h"
#include "draw/flow.h"
#include "need/words.h"

namespace sightfall::papers {
namespace {

using namespace units;
using draw::Canvas;
using draw::PagePoint;

constexpr double kPoint = 72 / 25.4;          // points a millimetre
constexpr double kBarsLong = 7, kAcross = 5;  // in bars: how long, and three dark with two gaps
constexpr double kLabel = 12, kBetween = 8;   // points
constexpr double kFirstTop = 22;              // points, under the line to check the print by
constexpr double kUnbounded = 1e6;            // points
constexpr Length kLine{0.1};                  // to check the print by
constexpr draw::Colour kBlack = draw::from_hex(0x000000), kWhite = draw::from_hex(0xFFFFFF);

/// Three bars with the top left corner of their pattern there; level ones lie.
void draw_bars(Canvas& canvas, PagePoint at, double wide, bool level) {
  for (int i = 0; i < 3; ++i) {
    const double off = 2 * i * wide;
    const PagePoint low = at + (level ? PagePoint{0, off} : PagePoint{off, 0});
    const PagePoint size = level ? PagePoint{kBarsLong * wide, wide} : PagePoint{wide, kBarsLong * wide};
    canvas.fill(draw::rectangle(low, low + size), kBlack);
  }
}

/// A level's patterns in the chart.
struct Pattern {
  std::string words;
  double bar = 0;    ///< points
  bool both = true;  ///< upright and level ones, or upright alone
  PagePoint at;      ///< of the label, in the chart

  double wide() const {
    const double bars = both ? (kAcross + kBarsLong) * bar + kBetween : kAcross * bar;
    return std::max(bars, draw::measured(words, {.size = 8}).width);
  }
  double high() const { return kLabel + kBarsLong * bar; }
};

Pattern pattern_of(const AskedLevel& level, const need::Project& project) {
  return {fmt::format("{}, {}: bars of {}", level.name, need::density_words(level.least, project.settings.units),
                      bar_words(level.least, project)),
          bar_width(level.least, project).in(mm)*kPoint};
}

void draw_pattern(Canvas& canvas, const Pattern& pattern) {
  canvas.letter_from(pattern.words, {.size = 8, .colour = kBlack}, pattern.at);
  const PagePoint top = pattern.at + PagePoint{0, kLabel};
  draw_bars(canvas, top, pattern.bar, false);
  if (pattern.both) draw_bars(canvas, top + PagePoint{kAcross * pattern.bar + kBetween, 0}, pattern.bar, true);
}

void draw_line_to_check(Canvas& canvas) {
  const double end = kLine.in(mm)*kPoint;
  for (const auto& [from, to] : {std::pair{PagePoint{0, 6}, PagePoint{end, 6}},
                                 {PagePoint{0, 1}, PagePoint{0, 11}},
                                 {PagePoint{end, 1}, PagePoint{end, 11}}})
    canvas.stroke(draw::line_shape({from, to}), {.colour = kBlack, .width = 0.6});
  canvas.letter_from("print at 100 %: this line is 100 mm long", {.size = 8, .colour = kBlack}, {end + 8, 1});
}

bool overlaps(const Pattern& a, const Pattern& b) {
  return a.at.x < b.at.x + b.wide() + 2 * kBetween && b.at.x < a.at.x + a.wide() + 2 * kBetween &&
         a.at.y < b.at.y + b.high() + kBetween && b.at.y < a.at.y + a.high() + kBetween;
}

/// Each as high up as there is room, and there as far to the left.
void place(std::vector<Pattern>& patterns, double width) {
  std::set<double> lefts{0}, tops{kFirstTop};
  for (size_t i = 0; i < patterns.size(); ++i) {
    Pattern& one = patterns[i];
    bool placed = false;
    for (auto top = tops.begin(); top != tops.end() && !placed; ++top)
      for (auto left = lefts.begin(); left != lefts.end() && !placed; ++left) {
        one.at = {*left, *top};
        placed = (*left == 0 || *left + one.wide() <= width) &&
                 std::none_of(patterns.begin(), patterns.begin() + static_cast<std::ptrdiff_t>(i),
                              [&](const Pattern& other) { return overlaps(one, other); });
      }
    lefts.insert(one.at.x + one.wide() + 2 * kBetween);
    tops.insert(one.at.y + one.high() + kBetween);
  }
}

/// As wide as the page's text, so that it is set at its own size.
draw::Figure sheet_of(std::vector<Pattern> patterns, double width) {
  place(patterns, width);
  double bottom = kFirstTop;
  for (const Pattern& pattern : patterns) bottom = std::max(bottom, pattern.at.y + pattern.high());
  std::string words = "Bars at true size";
  for (const Pattern& pattern : patterns)
    words += "; " + pattern.words + (pattern.both ? "" : ", turn the sheet for level ones");
  words += ".";
  return {{static_cast<int>(std::lround(width)), static_cast<int>(std::ceil(bottom)) + 2},
          [patterns](Canvas& canvas) {
            draw_line_to_check(canvas);
            for (const Pattern& pattern : patterns) draw_pattern(canvas, pattern);
          },
          words,
          "Patterns of three dark bars each, to be cut out and held up, and a line of 100 mm to check the print by."};
}

}  // namespace

Length bar_width(PixelDensity asked, const need::Project& project) {
  const double cycles = detail::reference_frequency(project.settings.typical.contrast_threshold.value.nominal);
  return Length{1 / (2 * cycles * asked.si())};
}

std::string bar_words(PixelDensity asked, const need::Project& project) {
  return fmt::format("{:.1f} mm", bar_width(asked, project).in(mm));
}

void add_bar_chart(const need::Project& project, std::vector<AskedLevel> levels, draw::PaperSize paper,
                   std::vector<draw::Block>& blocks) {
  if (levels.empty()) return;
  std::stable_sort(levels.begin(), levels.end(),
                   [](const AskedLevel& a, const AskedLevel& b) { return a.least > b.least; });
  std::vector<draw::Block> head{
      draw::Heading{1, "Bars to hold up at the marks", true},
      draw::Paragraph{
          "Print at 100 % on matt paper; hold flat at the mark, facing, moving and lit as the need says. The level is "
          "reached where all three bars are told apart in the recording, upright and level. Black ink stands out more "
          "than a face does, and some of it vanishes in infrared: look at the subject too."}};
  const draw::PageSize page = draw::points_of(paper);
  const double width = draw::Flow::width_on(page);
  const auto fits = [&](const std::vector<Pattern>& patterns, const std::vector<draw::Block>& above) {
    for (const Pattern& pattern : patterns)
      if (pattern.wide() > width) return false;
    const draw::Figure sheet = sheet_of(patterns, width);
    std::vector<draw::Block> all = above;
    all.emplace_back(draw::Figures{{sheet}, kUnbounded});
    return sheet.size.height + draw::kUnderFigure <= draw::Flow::height_on(page) &&
           draw::height_of(all, paper) <= draw::Flow::height_on(page);
  };
  draw::Points strips;
  std::vector<Pattern> all;
  for (const AskedLevel& level : levels) {
    Pattern pattern = pattern_of(level, project);
    pattern.both = fits({pattern}, {});
    if (fits({pattern}, {}))
      all.push_back(pattern);
    else
      strips.items.push_back(fmt::format(
          "{}: no page holds them. Lay three dark strips, {} wide and {:.0f} mm long, "
          "on a bright board, as far apart as they are wide.",
          pattern.words, bar_words(level.least, project), kBarsLong * bar_width(level.least, project).in(mm)));
  }
  if (!strips.items.empty()) head.emplace_back(strips);
  std::vector<std::vector<Pattern>> pages{{}};
  for (const Pattern& pattern : all) {
    std::vector<Pattern> with = pages.back();
    with.insert(with.begin(), pattern);  // the coarsest first
    if (fits(with, pages.size() == 1 ? head : std::vector<draw::Block>{}))
      pages.back() = std::move(with);
    else
      pages.push_back({pattern});
  }
  blocks.insert(blocks.end(), head.begin(), head.end());
  for (const std::vector<Pattern>& patterns : pages)
    if (!patterns.empty()) blocks.emplace_back(draw::Figures{{sheet_of(patterns, width)}, draw::Flow::height_on(page)});
}

std::string look_for_words(PixelDensity asked, need::Subject subject) {
  using enum need::Subject;
  // Bands and words are our own: common practice, no published source.
  const double px = asked.si();
  if (subject == kPlate) {
    if (px < 125) return "that there is a plate, and on what";
    return px < 250 ? "the plate is read, one look-alike letter or digit aside"
                    : "every character of the plate is read";
  }
  if (subject == kVehicle) {
    if (px < 40) return "that a vehicle is there, and which way it goes";
    return px < 125 ? "what kind of vehicle it is, and what it does" : "make and marks of the vehicle";
  }
  if (subject == kObject) {
    if (px < 40) return "that the thing is there";
    return px < 125 ? "what kind of thing it is" : "which one it is, by its marks";
  }
  if (px < 40) return "that somebody is there, and which way they go";
  if (px < 80) return "that it is a person and no animal, and what they do";
  if (px < 125) return "build, kind of clothes, what is carried";
  if (px < 250) return "somebody whom the viewer knows is known again";
  if (px < 500) return "somebody unknown can be described and found by it";
  if (px < 1000) return "who it is, without doubt";
  return "small marks and small print";
}

}  // namespace sightfall::papers
