// SPDX-License-Identifier: GPL-3.0-or-later
// Where everything of a document lies on its pages.
//   Checked  document_test.cpp
#pragma once
#include <functional>
#include <map>
#include <string>
#include <tuple>
#include <vector>

#include "draw/document.h"

namespace sightfall::draw {

/// A piece of a page with its place; elements of the structure begin before it and end after it, in these orders.
struct FlowPiece {
  int page = 1;
  double top = 0;
  std::vector<std::string> begins, ends;
  std::function<void(Canvas&, PagePoint)> draw;  ///< with its top left corner
};

struct FlowHeading {
  std::string text;
  int rank = 1, page = 1;
  double top = 0;
};

/// Texts broken to lines, each once however often it is laid.
class LineBreaks {
 public:
  const std::vector<std::string>& of(const std::string& text, const Lettering& lettering);

 private:
  std::map<std::tuple<std::string, double, bool, double>, std::vector<std::string>> kept_;
};

/// Fills pages from the top.
class Flow {
 public:
  /// `breaks` must outlive it. `spacing`: share of the white between things, and around words in tables, that is left.
  Flow(PageSize page, LineBreaks& breaks, double spacing = 1) : page_{page}, breaks_{&breaks}, spacing_{spacing} {}

  PageSize paper() const { return page_; }
  LineBreaks& breaks() const { return *breaks_; }
  double width() const { return width_on(page_); }
  double room() const { return page_.height - kBottom - top_; }
  double whole_page() const { return height_on(page_); }
  int page() const { return number_; }
  bool at_top() const { return top_ == kTop; }
  double top() const { return top_; }
  double spacing() const { return spacing_; }
  void set_spacing(double spacing) { spacing_ = spacing; }

  void new_page();
  /// A new page where less than so much is left, unless this one is empty.
  void need(double height);
  /// White below what was set last; nothing at the top of a page.
  void skip(double height);
  void set(double height, std::function<void(Canvas&, PagePoint)> draw);
  /// What is set between the two is an element; one that goes over a page is an element on each.
  void begin(const std::string& element);
  void end();
  void note_heading(const std::string& text, int rank) { headings_.push_back({text, rank, number_, top_}); }

  const std::vector<FlowPiece>& pieces() const { return pieces_; }
  const std::vector<FlowHeading>& headings() const { return headings_; }

  static constexpr double kSide = 51, kTop = 64, kBottom = 58;
  /// What the margins leave of a page.
  static double width_on(PageSize page) { return page.width - 2 * kSide; }
  static double height_on(PageSize page) { return page.height - kBottom - kTop; }

 private:
  PageSize page_;
  LineBreaks* breaks_;
  double spacing_ = 1;
  int number_ = 1;
  double top_ = kTop;
  std::vector<FlowPiece> pieces_;
  std::vector<FlowHeading> headings_;
  std::vector<std::string> open_;
  size_t begun_ = 0;  // of the open ones, how many began before the last piece
};

/// The table laid from where the flow is.
void lay_table(Flow& flow, const Table& table);
/// Height of its head and of so many first rows that it does not look torn off.
double begin_height(const Flow& flow, const Table& table);

/// A text broken to the width that an indent leaves, each line where the flow is; `mark` is drawn beside the first. No
/// line of a paragraph stands alone at a page's foot or head, and few lines are not parted.
void lay_lines(Flow& flow, const std::string& text, Lettering lettering, double indent,
               const std::function<void(Canvas&, PagePoint)>& mark = nullptr);

/// Height of a line of a size.
double line_height(double size);

}  // namespace sightfall::draw
