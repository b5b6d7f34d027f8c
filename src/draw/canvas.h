// SPDX-License-Identifier: GPL-3.0-or-later
// What a drawing is made on: pens, washes, hatching and lettering, the same on a page of SVG, PNG or PDF.
//   Library  Cairo and Pango, only in canvas.cpp and files.cpp
//   Units    page units, one a pixel of the PNG; y down
//   Checked  canvas_test.cpp: lettering; plan_map_test.cpp: the same drawing gives the same bytes; sizes
#pragma once
#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "base/result.h"
#include "draw/colour.h"
#include "draw/shape.h"

namespace sightfall::draw {

struct Pen {
  Colour colour = kInk;
  double width = 1;
  std::vector<double> dashes = {};  ///< empty: unbroken; lengths on and off; a length of zero on is a round dot
};

struct Lettering {
  double size = 15;
  bool bold = false;
  Colour colour = kInk;
  double wrap = 0;    ///< width at which lines break; zero: one line
  bool halo = false;  ///< paper around the letters, for words that lie on lines
};

struct TextSize {
  double width = 0, height = 0;
};

/// The size of a text set in the sheet's typeface (DejaVu Sans, or what the system has instead).
TextSize measured(const std::string& text, const Lettering& lettering);

/// The text as its lines fall at the lettering's `wrap`, or at its line ends alone.
std::vector<std::string> lines_of(const std::string& text, const Lettering& lettering);

/// How many of its letters no typeface of the system has: they show as boxes.
int letters_without_shape(const std::string& text);

/// Colours of a regular raster of points, the first row on top.
struct Tint {
  int columns = 0, rows = 0;
  std::vector<Colour> colours;
};

/// A photograph's points, red, green and blue of eight bits in turn, row by row.
struct Photograph {
  int columns = 0, rows = 0;
  const uint8_t* rgb = nullptr;
};

struct PageSize {
  int width = 0, height = 0;
};

class Canvas {
 public:
  struct Impl;
  explicit Canvas(Impl& impl) : impl_{impl} {}

  void stroke(const Shape& shape, const Pen& pen) const;
  void fill(const Shape& shape, Colour colour) const;
  /// Parallel lines at 45 degrees, rising to the right, inside the shape.
  void hatch(const Shape& shape, const Pen& pen, double spacing) const;
  /// The raster with the centre of its first point at `first` and `spacing` between points, smooth between them.
  void tint(const Tint& tint, PagePoint first, double spacing) const;
  /// The photograph with its top left corner at a point and `scale` page units a point: one point a point where that
  /// is 1, smoothed where it is less.
  void photograph(const Photograph& photograph, PagePoint top_left, double scale) const;
  /// The text with its middle at a point, turned clockwise by radians.
  void letter(const std::string& text, const Lettering& lettering, PagePoint middle, double turn = 0) const;
  /// The text with its top left corner at a point; its first line stands where one of the sheet's typeface would, also
  /// where a name's letters reach higher.
  void letter_from(const std::string& text, const Lettering& lettering, PagePoint top_left) const;
  /// What `draw` draws, only inside the shape.
  void within(const Shape& shape, const std::function<void()>& draw) const;
  /// What `draw` draws, its origin moved to a point and made so many times as large.
  void placed(PagePoint origin, double scale, const std::function<void()>& draw) const;
  /// What is drawn between the two is an element of the structure that readers of a PDF follow, such as `H1`, `P`,
  /// `Table`. They nest, and end on the page on which they began.
  void begin_element(const std::string& element) const;
  void end_element(const std::string& element) const;
  /// What `draw` draws is a picture: an element `Figure`, for which whoever hears the page is told what it `shows`.
  void figure(const std::string& shows, const std::function<void()>& draw) const;

 private:
  Impl& impl_;
};

using Drawing = std::function<void(Canvas&)>;

}  // namespace sightfall::draw
