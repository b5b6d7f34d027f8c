// SPDX-License-Identifier: GPL-3.0-or-later
// Drawings as files.
//   Library  Cairo, only in files.cpp and canvas.cpp
//   Promise  the same drawing gives the same bytes: no clock is read, a date is in a file when it is given
//   Limits   a PDF's structure has headings, paragraphs, lists, tables, figures with what they show, and captions; the
//            library writes no scope of a table's heads and marks no page's head and foot as such
//   Checked  plan_map_test.cpp, files_test.cpp
#pragma once
#include <string>
#include <vector>

#include "base/result.h"
#include "draw/canvas.h"

namespace sightfall::draw {

/// The drawing as a PNG file's bytes.
Result<std::string> drawn_png(PageSize size, const Drawing& drawing);

/// What a page unit of an SVG file is: one of the screen, or 1/72 inch of paper.
enum class SvgUnit { kPixel, kPoint };

/// The drawing as an SVG file's bytes. `title` and `description` are for those who hear the page or search it: the
/// letters of the drawing itself are outlines, so that it looks the same wherever it is opened.
Result<std::string> drawn_svg(PageSize size, const std::string& title, const std::string& description,
                              const Drawing& drawing, SvgUnit unit = SvgUnit::kPixel);

/// What a PDF says of itself; the date as ISO 8601, such as `2026-11-27`, or empty.
struct PdfFacts {
  std::string title, subject, date;
};

/// An entry of a PDF's outline. Those of a lower rank follow the one that they stand under.
struct Bookmark {
  std::string title;
  int rank = 1;
  int page = 1;   ///< the first is 1
  double at = 0;  ///< from the page's top
};

/// The pages as a PDF file's bytes, white, their text to be searched and copied; page units are points of 1/72 inch.
Result<std::string> drawn_pdf(PageSize size, const PdfFacts& facts, const std::vector<Drawing>& pages,
                              const std::vector<Bookmark>& bookmarks);

}  // namespace sightfall::draw
