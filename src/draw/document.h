// SPDX-License-Identifier: GPL-3.0-or-later
// A text on numbered pages: headings, paragraphs, lists, tables and pictures, one after the other, broken where a page
// ends, as a PDF with bookmarks and the structure that readers follow.
//   Units    points of 1/72 inch
//   Promise  nothing is left out however long: lines of paragraphs and rows of tables go over pages, a table's head is
//            said again on each, no row ends a table alone on a page, a heading stays with what follows, a picture that
//            is too high is made smaller, a last page of few lines is spared where a little less white does it
//   Checked  document_test.cpp
#pragma once
#include <string>
#include <variant>
#include <vector>

#include "base/result.h"
#include "draw/canvas.h"
#include "draw/files.h"

namespace sightfall::draw {

enum class PaperSize { kA4, kLetter };
PageSize points_of(PaperSize paper);

struct Heading {
  int rank = 1;  ///< 1 to 3
  std::string text;
  bool new_page = false;
};

/// How a paragraph is meant, and set.
enum class Tone { kBody, kLead, kNote, kCaution };

struct Paragraph {
  std::string text;
  Tone tone = Tone::kBody;
};

/// A list; with boxes to tick in place of dots.
struct Points {
  std::vector<std::string> items;
  bool boxes = false;
};

struct Column {
  std::string title;
  double share = 1;  ///< of the width, beside the others'
  bool right = false;
};

struct Table {
  std::vector<Column> columns;
  std::vector<std::vector<std::string>> rows;  ///< as many cells as columns
  double least_height = 0;                     ///< of a row, for what is written by hand
};

/// Pictures side by side, each with its words.
struct Figure {
  PageSize size;
  Drawing drawing;
  std::string words;  ///< under it
  std::string shows;  ///< in its place, for those who hear the page: what is to be seen and not in the words
};
/// Points of a page that the words under a figure have: what is higher with them is made smaller.
inline constexpr double kUnderFigure = 40;
struct Figures {
  std::vector<Figure> row;
  double most_height = 600;
  double least = 1;  ///< of their size: so much smaller they may be for a page to be filled, or a last one spared
};

/// Where the headings are, by their pages; the first, which is the title, and rank 3 are left out.
struct Contents {};

struct NewPage {};

using Block = std::variant<Heading, Paragraph, Points, Table, Figures, Contents, NewPage>;

struct Document {
  PdfFacts facts;
  std::string head, foot;  ///< on every page
  std::vector<Block> blocks;
};

/// The document as a PDF file's bytes.
Result<std::string> drawn_document(const Document& document, PaperSize paper);

/// On how many pages it comes.
int pages_of(const Document& document, PaperSize paper);

/// How high the blocks are, one under the other, on a page that is high enough.
double height_of(const std::vector<Block>& blocks, PaperSize paper);

/// All its words, a line each, as they stand in it: what a test compares and a reader hears.
std::string words_of(const Document& document);

}  // namespace sightfall::draw
