// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/flow.h"

#include <algorithm>
#include <iterator>
#include <utility>

namespace sightfall::draw {
namespace {

constexpr double kLetters = 8;  // points, in tables
constexpr double kPadding = 3, kOffNext = 4;
/// A row that is higher goes on in a row below, so that it can be parted by a page's end.
constexpr size_t kMostLines = 30;
/// A table's last two rows are not parted by a page's end, unless they are higher together.
constexpr double kTogether = 300;  // points

/// One row, its cells broken to lines.
struct Row {
  std::vector<std::vector<std::string>> cells;
  size_t lines() const {
    size_t most = 1;
    for (const auto& cell : cells) most = std::max(most, cell.size());
    return most;
  }
};

/// How a row is set: a copy of what the table says, for pieces are drawn after it has gone.
struct Setting {
  std::vector<double> lefts, widths;
  std::vector<bool> right;
  double least_height = 0;
  bool head = false;
  double above = kPadding;  // white above and below a row's words

  Lettering lettering() const { return {.size = kLetters, .bold = head}; }
};

Setting setting_of(const Table& table, const Flow& flow, bool head) {
  Setting setting{{}, {}, {}, head ? 0 : table.least_height, head, flow.spacing() * kPadding};
  double sum = 0, left = 0;
  for (const Column& column : table.columns) sum += column.share;
  for (const Column& column : table.columns) {
    setting.lefts.push_back(left);
    setting.widths.push_back(flow.width() * column.share / sum);
    setting.right.push_back(column.right);
    left += setting.widths.back();
  }
  return setting;
}

Row broken(LineBreaks& breaks, const Setting& setting, const std::vector<std::string>& cells) {
  Row row;
  for (size_t i = 0; i < setting.widths.size(); ++i) {
    Lettering lettering = setting.lettering();
    lettering.wrap = setting.widths[i] - 2 * kPadding;
    row.cells.push_back(i < cells.size() ? breaks.of(cells[i], lettering) : std::vector<std::string>{});
  }
  return row;
}

/// The row, or several that together hold it.
std::vector<Row> parted(Row row) {
  std::vector<Row> rows;
  while (row.lines() > kMostLines) {
    Row first;
    for (auto& cell : row.cells) {
      const auto end = cell.begin() + static_cast<std::ptrdiff_t>(std::min(cell.size(), kMostLines));
      first.cells.emplace_back(cell.begin(), end);
      cell.erase(cell.begin(), end);
    }
    rows.push_back(std::move(first));
  }
  rows.push_back(std::move(row));
  return rows;
}

double height_of(const Setting& setting, const Row& row) {
  const double words = static_cast<double>(row.lines()) * line_height(kLetters) + 2 * setting.above;
  return std::max(words, setting.least_height);
}

void draw_cell(Canvas& canvas, PagePoint at, const Setting& setting, size_t i, const std::vector<std::string>& lines) {
  double top = at.y + setting.above;
  for (const std::string& line : lines) {
    // What stands to the right keeps off the next column's left, where it leaves room.
    const double free = setting.widths[i] - 2 * kPadding - measured(line, setting.lettering()).width;
    const double shift = setting.right[i] ? std::max(free / 2, free - kOffNext) : 0;
    canvas.letter_from(line, setting.lettering(), {at.x + setting.lefts[i] + kPadding + shift, top});
    top += line_height(kLetters);
  }
}

void draw_row(Canvas& canvas, PagePoint at, const Setting& setting, const Row& row, double height) {
  const double width = setting.lefts.back() + setting.widths.back();
  for (size_t i = 0; i < row.cells.size(); ++i) {
    const std::string element = setting.head ? "TH" : "TD";
    canvas.begin_element(element);
    draw_cell(canvas, at, setting, i, row.cells[i]);
    canvas.end_element(element);
  }
  const double bottom = at.y + height;
  canvas.stroke(line_shape({{at.x, bottom}, {at.x + width, bottom}}),
                setting.head ? Pen{.width = 1} : Pen{.colour = kFaintInk, .width = 0.5});
}

void lay_row(Flow& flow, const Setting& setting, const Row& row) {
  const double height = height_of(setting, row);
  flow.begin("TR");
  flow.set(height,
           [setting, row, height](Canvas& canvas, PagePoint at) { draw_row(canvas, at, setting, row, height); });
  flow.end();
}

}  // namespace

double line_height(double size) { return 1.28 * size; }

const std::vector<std::string>& LineBreaks::of(const std::string& text, const Lettering& lettering) {
  const auto [at, fresh] = kept_.try_emplace({text, lettering.size, lettering.bold, lettering.wrap});
  if (fresh) at->second = lines_of(text, lettering);
  return at->second;
}

void Flow::new_page() {
  ++number_;
  top_ = kTop;
}

void Flow::need(double height) {
  if (room() < height && !at_top()) new_page();
}

void Flow::skip(double height) {
  if (!at_top()) top_ += spacing_ * height;
}

void Flow::set(double height, std::function<void(Canvas&, PagePoint)> draw) {
  if (begun_ > 0 && pieces_.back().page != number_) {
    for (size_t i = begun_; i > 0; --i) pieces_.back().ends.push_back(open_[i - 1]);
    begun_ = 0;
  }
  pieces_.push_back(
      {number_, top_, {open_.begin() + static_cast<std::ptrdiff_t>(begun_), open_.end()}, {}, std::move(draw)});
  begun_ = open_.size();
  top_ += height;
}

void Flow::begin(const std::string& element) { open_.push_back(element); }

void Flow::end() {
  if (begun_ == open_.size()) {
    pieces_.back().ends.push_back(open_.back());
    --begun_;
  }
  open_.pop_back();
}

double begin_height(const Flow& flow, const Table& table) {
  constexpr double kEnough = 60;
  const bool two = table.rows.size() == 2;  // which stay together
  Table begin = table;
  begin.rows.clear();
  for (const auto& row : table.rows) {
    begin.rows.push_back(row);
    Flow scratch{flow.paper(), flow.breaks(), flow.spacing()};
    lay_table(scratch, begin);
    const double height = scratch.top() - Flow::kTop;
    if ((height > kEnough && !two) || begin.rows.size() == table.rows.size()) return height;
  }
  return 0;
}

void lay_table(Flow& flow, const Table& table) {
  const Setting head = setting_of(table, flow, true), body = setting_of(table, flow, false);
  std::vector<std::string> titles;
  for (const Column& column : table.columns) titles.push_back(column.title);
  const bool headed = std::any_of(titles.begin(), titles.end(), [](const std::string& one) { return !one.empty(); });
  const Row head_row = broken(flow.breaks(), head, titles);
  const double head_height = headed ? height_of(head, head_row) : 0;
  std::vector<Row> rows;
  for (const auto& cells : table.rows) {
    std::vector<Row> parts = parted(broken(flow.breaks(), body, cells));
    rows.insert(rows.end(), std::make_move_iterator(parts.begin()), std::make_move_iterator(parts.end()));
  }
  int page = 0;  // that has the head
  flow.begin("Table");
  for (size_t i = 0; i < rows.size(); ++i) {
    const double height = height_of(body, rows[i]);
    // The last row does not go over a page alone.
    const double both = i + 2 == rows.size() ? height + height_of(body, rows[i + 1]) : 0;
    flow.need((both <= kTogether ? std::max(both, height) : height) + (page == flow.page() ? 0 : head_height));
    if (page != flow.page() && headed) lay_row(flow, head, head_row);
    page = flow.page();
    lay_row(flow, body, rows[i]);
  }
  flow.end();
}

void lay_lines(Flow& flow, const std::string& text, Lettering lettering, double indent,
               const std::function<void(Canvas&, PagePoint)>& mark) {
  constexpr size_t kFew = 3;
  lettering.wrap = flow.width() - indent;
  const std::vector<std::string>& lines = flow.breaks().of(text, lettering);
  lettering.wrap = 0;
  const double height = line_height(lettering.size);
  for (size_t i = 0; i < lines.size(); ++i) {
    const size_t rest = lines.size() - i;
    const size_t together = i == 0 && rest <= kFew ? rest : i == 0 || rest == 2 ? 2 : 1;
    flow.need(static_cast<double>(together) * height);
    if (i == 0 && mark) flow.set(0, mark);
    flow.set(height, [line = lines[i], lettering, indent](Canvas& canvas, PagePoint at) {
      canvas.letter_from(line, lettering, at + PagePoint{indent, 0});
    });
  }
}

}  // namespace sightfall::draw
