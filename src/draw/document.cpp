// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/document.h"

#include <fmt/format.h>

#include <algorithm>

#include "draw/flow.h"

namespace sightfall::draw {
namespace {

template <class... Of>
struct Overloaded : Of... {
  using Of::operator()...;
};
template <class... Of>
Overloaded(Of...) -> Overloaded<Of...>;

constexpr double kBetweenBlocks = 6;  // between blocks

Lettering lettering_of(const Heading& heading) {
  constexpr double kSizes[] = {17, 12.5, 10};
  return {.size = kSizes[std::clamp(heading.rank, 1, 3) - 1], .bold = true};
}

Lettering lettering_of(Tone tone) {
  switch (tone) {
    case Tone::kLead:
      return {.size = 10.5};
    case Tone::kNote:
      return {.size = 7.8, .colour = kSoftInk};
    case Tone::kCaution:
      return {.size = 9, .bold = true, .colour = kAccent};
    case Tone::kBody:
      break;
  }
  return {.size = 9};
}

/// `below`: what follows it is kept on its page with so much.
void lay(Flow& flow, const Heading& heading, double below) {
  if (heading.new_page && !flow.at_top()) flow.new_page();
  const Lettering lettering = lettering_of(heading);
  constexpr double kAround = 24;
  flow.need(line_height(lettering.size) + kAround + below);
  flow.skip(heading.rank == 3 ? 8 : 14);
  flow.note_heading(heading.text, heading.rank);
  flow.begin(fmt::format("H{}", std::clamp(heading.rank, 1, 3)));
  lay_lines(flow, heading.text, lettering, 0);
  flow.end();
  flow.skip(heading.rank == 1 ? 6 : 3);
}

void lay(Flow& flow, const Paragraph& paragraph) {
  flow.begin("P");
  lay_lines(flow, paragraph.text, lettering_of(paragraph.tone), 0);
  flow.end();
  flow.skip(kBetweenBlocks);
}

void draw_bullet(Canvas& canvas, PagePoint at, bool box) {
  constexpr double kBox = 6.5, kRadius = 1.4;
  const PagePoint middle = at + PagePoint{4, 6};
  if (box)
    canvas.stroke(rectangle(middle - PagePoint{kBox / 2, kBox / 2}, middle + PagePoint{kBox / 2, kBox / 2}),
                  {.width = 0.8});
  else
    canvas.fill(circle(middle, kRadius), kInk);
}

void lay(Flow& flow, const Points& points) {
  constexpr double kIndent = 14;
  flow.begin("L");
  for (const std::string& item : points.items) {
    flow.begin("LI");
    lay_lines(flow, item, lettering_of(Tone::kBody), kIndent,
              [box = points.boxes](Canvas& canvas, PagePoint at) { draw_bullet(canvas, at, box); });
    flow.end();
    flow.skip(points.boxes ? 4 : 2);
  }
  flow.end();
  flow.skip(kBetweenBlocks);
}

/// Scale that makes the figures of a row fit beside one another.
double scale_of(const Flow& flow, const Figures& figures, double between) {
  double width = 0, height = 1;
  for (const Figure& one : figures.row) {
    width += one.size.width;
    height = std::max(height, double(one.size.height));
  }
  const double free = flow.width() - between * (static_cast<double>(figures.row.size()) - 1);
  return std::min(free / std::max(1.0, width),
                  std::min(figures.most_height, flow.whole_page() - kUnderFigure) / height);
}

constexpr double kGutter = 12, kAboveCaption = 3;

/// A row of figures as it is set at a scale, with the lines under each.
struct FigureRow {
  double scale = 1, height = 1, below = 0;
  std::vector<std::vector<std::string>> words;

  FigureRow(LineBreaks& breaks, const Figures& figures, double at_scale) : scale{at_scale} {
    Lettering lettering = lettering_of(Tone::kNote);
    const double line = line_height(lettering.size);
    for (const Figure& one : figures.row) {
      lettering.wrap = scale * one.size.width;
      words.push_back(one.words.empty() ? std::vector<std::string>{} : breaks.of(one.words, lettering));
      height = std::max(height, scale * one.size.height);
      below = std::max(below, kAboveCaption + line * static_cast<double>(words.back().size()));
    }
  }
  double whole() const { return height + below; }
};

/// Smaller, where it is allowed to be and then fits into the room, or white is saved.
FigureRow row_for(const Flow& flow, const Figures& figures) {
  const double whole = scale_of(flow, figures, kGutter), share = std::max(figures.least, flow.spacing());
  FigureRow row{flow.breaks(), figures, share * whole};
  if (row.whole() <= flow.room() || flow.at_top()) return row;
  for (int percent = static_cast<int>(100 * share) - 5; percent > 100 * figures.least; percent -= 5)
    if (FigureRow smaller{flow.breaks(), figures, percent / 100.0 * whole}; smaller.whole() <= flow.room())
      return smaller;
  return row;
}

/// The least height of the row with what stands under it.
double least_height(const Flow& flow, const Figures& figures) {
  return FigureRow{flow.breaks(), figures, figures.least * scale_of(flow, figures, kGutter)}.whole() + kBetweenBlocks;
}

void lay(Flow& flow, const Figures& figures) {
  if (figures.row.empty()) return;
  const FigureRow row = row_for(flow, figures);
  const Lettering lettering = lettering_of(Tone::kNote);
  const double line = line_height(lettering.size);
  flow.need(row.whole());
  double left = 0;
  for (size_t i = 0; i < figures.row.size(); ++i) {
    const Figure& one = figures.row[i];
    const bool last = i + 1 == figures.row.size();
    flow.set(last ? row.whole() : 0, [=, scale = row.scale, says = row.words[i]](Canvas& canvas, PagePoint at) {
      const PagePoint corner = at + PagePoint{left, 0};
      canvas.figure(one.shows, [&] { canvas.placed(corner, scale, [&] { one.drawing(canvas); }); });
      if (says.empty()) return;
      canvas.begin_element("Caption");
      for (size_t k = 0; k < says.size(); ++k)
        canvas.letter_from(
            says[k], lettering,
            corner + PagePoint{0, scale * one.size.height + kAboveCaption + line * static_cast<double>(k)});
      canvas.end_element("Caption");
    });
    left += row.scale * one.size.width + kGutter;
  }
  flow.skip(kBetweenBlocks);
}

void lay_contents(Flow& flow, const std::vector<FlowHeading>& headings) {
  Table table{{{"", 12}, {"", 1, true}}, {}};
  for (size_t i = 1; i < headings.size(); ++i)
    if (const FlowHeading& one = headings[i]; one.rank < 3)
      table.rows.push_back({std::string(one.rank == 1 ? "" : "      ") + one.text, std::to_string(one.page)});
  lay_table(flow, table);
  flow.skip(kBetweenBlocks);
}

double begin_height(const Flow& flow, const std::vector<Block>& blocks, size_t which);

/// A short paragraph leads to what follows it, and stays with that.
double begin_height(const Flow& flow, const Paragraph& paragraph, const std::vector<Block>& blocks, size_t next) {
  constexpr size_t kShort = 4;
  Lettering lettering = lettering_of(paragraph.tone);
  lettering.wrap = flow.width();
  const size_t lines = flow.breaks().of(paragraph.text, lettering).size();
  const double height = static_cast<double>(std::min(lines, kShort)) * line_height(lettering.size) + kBetweenBlocks;
  return lines > kShort ? height : height + begin_height(flow, blocks, next);
}

/// How much of a block stays with what is before it.
double begin_height(const Flow& flow, const std::vector<Block>& blocks, size_t which) {
  constexpr double kUsual = 46, kMost = 300;
  if (which >= blocks.size()) return 0;
  if (const auto* heading = std::get_if<Heading>(&blocks[which]))
    return heading->new_page ? 0
                             : line_height(lettering_of(*heading).size) + 24 + begin_height(flow, blocks, which + 1);
  if (const auto* figures = std::get_if<Figures>(&blocks[which])) return std::min(kMost, least_height(flow, *figures));
  if (const auto* table = std::get_if<Table>(&blocks[which])) return std::min(kMost, begin_height(flow, *table));
  if (const auto* paragraph = std::get_if<Paragraph>(&blocks[which]))
    return std::min(kMost, begin_height(flow, *paragraph, blocks, which + 1));
  return kUsual;
}

bool begins_page(const Block& block) {
  const auto* heading = std::get_if<Heading>(&block);
  return std::holds_alternative<NewPage>(block) || (heading != nullptr && heading->new_page);
}

/// `headings`: of an earlier laying, whose pages the contents tell. `spacings`: of each part that begins on a page of
/// its own; those that are not told keep the last one.
Flow laid(const Document& document, PageSize page, LineBreaks& breaks, const std::vector<FlowHeading>& headings,
          const std::vector<double>& spacings = {}) {
  Flow flow{page, breaks};
  size_t part = 0;
  for (size_t i = 0; i < document.blocks.size(); ++i) {
    if (i > 0 && begins_page(document.blocks[i])) ++part;
    if (part < spacings.size()) flow.set_spacing(spacings[part]);
    std::visit(
        Overloaded{[&](const Heading& heading) { lay(flow, heading, begin_height(flow, document.blocks, i + 1)); },
                   [&](const Paragraph& paragraph) {
                     if (paragraph.text.ends_with(':')) flow.need(begin_height(flow, document.blocks, i));
                     lay(flow, paragraph);
                   },
                   [&](const Table& table) {
                     flow.need(begin_height(flow, document.blocks, i));
                     lay_table(flow, table);
                     flow.skip(kBetweenBlocks + 2);
                   },
                   [&](const Contents&) { lay_contents(flow, headings); },
                   [&](const NewPage&) {
                     if (!flow.at_top()) flow.new_page();
                   },
                   [&](const auto& other) { lay(flow, other); }},
        document.blocks[i]);
  }
  return flow;
}

/// The blocks by parts that begin on a page of their own.
std::vector<Document> parts_of(const Document& document) {
  std::vector<Document> parts(1);
  for (const Block& block : document.blocks) {
    if (!parts.back().blocks.empty() && begins_page(block)) parts.emplace_back();
    parts.back().blocks.push_back(block);
  }
  return parts;
}

/// A little less white where that saves a last page of few lines.
double spacing_of(const Document& part, PageSize page, LineBreaks& breaks, const std::vector<FlowHeading>& headings) {
  constexpr double kFewLines = 220;
  const Flow usual = laid(part, page, breaks, headings);
  if (usual.page() == 1 || usual.top() - Flow::kTop > kFewLines) return 1;
  for (const double spacing : {0.9, 0.8, 0.7, 0.6})
    if (laid(part, page, breaks, headings, {spacing}).page() < usual.page()) return spacing;
  return 1;
}

Flow laid(const Document& document, PaperSize paper, LineBreaks& breaks) {
  const PageSize page = points_of(paper);
  const Flow first = laid(document, page, breaks, {});
  std::vector<double> spacings;
  for (const Document& part : parts_of(document)) spacings.push_back(spacing_of(part, page, breaks, first.headings()));
  // The contents' own length moves the pages once; it does not change with their numbers.
  const Flow second = laid(document, page, breaks, first.headings(), spacings);
  return laid(document, page, breaks, second.headings(), spacings);
}

void draw_margins(Canvas& canvas, const Document& document, PageSize page, int number, int count) {
  const Lettering small{.size = 7.5, .colour = kSoftInk};
  const double left = Flow::kSide, right = page.width - Flow::kSide, top = Flow::kTop - 26,
               bottom = page.height - Flow::kBottom + 14;
  canvas.letter_from(document.head, small, {left, top});
  const std::string pages = fmt::format("{} / {}", number, count);
  canvas.letter_from(pages, small, {right - measured(pages, small).width, top});
  canvas.stroke(line_shape({{left, top + 13}, {right, top + 13}}), {.colour = kFaintInk, .width = 0.5});
  Lettering foot = small;
  foot.wrap = right - left;
  canvas.letter_from(document.foot, foot, {left, bottom});
}

std::vector<Drawing> drawings_of(const Document& document, PageSize page, const Flow& flow) {
  std::vector<Drawing> pages;
  const int count = flow.pieces().empty() ? 1 : flow.pieces().back().page;
  for (int number = 1; number <= count; ++number)
    pages.emplace_back([&document, &flow, page, number, count](Canvas& canvas) {
      draw_margins(canvas, document, page, number, count);
      for (const FlowPiece& piece : flow.pieces()) {
        if (piece.page != number) continue;
        for (const std::string& element : piece.begins) canvas.begin_element(element);
        piece.draw(canvas, {Flow::kSide, piece.top});
        for (const std::string& element : piece.ends) canvas.end_element(element);
      }
    });
  return pages;
}

}  // namespace

PageSize points_of(PaperSize paper) { return paper == PaperSize::kA4 ? PageSize{595, 842} : PageSize{612, 792}; }

Result<std::string> drawn_document(const Document& document, PaperSize paper) {
  const PageSize page = points_of(paper);
  LineBreaks breaks;
  const Flow flow = laid(document, paper, breaks);
  std::vector<Bookmark> bookmarks;
  for (const FlowHeading& one : flow.headings())
    if (one.rank < 3) bookmarks.push_back({one.text, one.rank, one.page, one.top});
  return drawn_pdf(page, document.facts, drawings_of(document, page, flow), bookmarks);
}

int pages_of(const Document& document, PaperSize paper) {
  LineBreaks breaks;
  const Flow flow = laid(document, paper, breaks);
  return flow.pieces().empty() ? 1 : flow.pieces().back().page;
}

double height_of(const std::vector<Block>& blocks, PaperSize paper) {
  constexpr int kHighEnough = 100000;
  LineBreaks breaks;
  const Flow flow = laid(Document{{}, "", "", blocks}, PageSize{points_of(paper).width, kHighEnough}, breaks, {});
  return flow.top() - Flow::kTop;
}

std::string words_of(const Document& document) {
  std::string text = document.head + "\n" + document.foot + "\n";
  const auto line = [&](const std::string& words) { text += words + "\n"; };
  for (const Block& block : document.blocks)
    std::visit(Overloaded{[&](const Heading& one) { line(one.text); }, [&](const Paragraph& one) { line(one.text); },
                          [&](const Points& one) { std::for_each(one.items.begin(), one.items.end(), line); },
                          [&](const Figures& one) {
                            for (const Figure& figure : one.row) line(figure.shows), line(figure.words);
                          },
                          [&](const Table& one) {
                            for (const Column& column : one.columns) line(column.title);
                            for (const auto& row : one.rows) std::for_each(row.begin(), row.end(), line);
                          },
                          [](const auto&) {}},
               block);
  return text;
}

}  // namespace sightfall::draw
