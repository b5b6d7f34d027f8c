// SPDX-License-Identifier: GPL-3.0-or-later
// Documents on pages: nothing lost over page ends, heads of tables again, bookmarks, the same bytes.
#include "draw/document.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "draw/flow.h"

namespace sightfall::draw {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

Document with(std::vector<Block> blocks) { return {{"A title", "A subject", ""}, "head", "foot", std::move(blocks)}; }

size_t count(const std::string& text, const std::string& what) {
  size_t found = 0;
  for (size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) ++found;
  return found;
}

Table long_table(int rows) {
  Table table{{{"name", 3}, {"number", 1, true}}, {}};
  for (int i = 0; i < rows; ++i) table.rows.push_back({"row", std::to_string(i)});
  return table;
}

TEST(Document, IsTheSameEachTime) {
  const Document document = with({Heading{1, "One"}, Paragraph{"Some words."}, Contents{}, long_table(100)});
  const auto first = drawn_document(document, PaperSize::kA4), second = drawn_document(document, PaperSize::kA4);
  ASSERT_TRUE(first && second);
  EXPECT_EQ(*first, *second);
  EXPECT_THAT(*first, HasSubstr("/Outlines"));
  EXPECT_THAT(*first, HasSubstr("/StructTreeRoot"));
  EXPECT_THAT(*first, HasSubstr("20000101000000"));
}

TEST(Document, TellsTheDateThatIsGiven) {
  Document document = with({Paragraph{"Some words."}});
  document.facts.date = "2026-11-27";
  const auto bytes = drawn_document(document, PaperSize::kA4);
  ASSERT_TRUE(bytes);
  EXPECT_THAT(*bytes, HasSubstr("20261127000000"));
}

TEST(Document, LettersAndA4HaveTheirSizes) {
  const Document document = with({Paragraph{"Some words."}});
  EXPECT_THAT(*drawn_document(document, PaperSize::kA4), HasSubstr("595 842"));
  EXPECT_THAT(*drawn_document(document, PaperSize::kLetter), HasSubstr("612 792"));
}

TEST(Flow, ATableGoesOverPagesWithItsHeadOnEach) {
  LineBreaks breaks;
  Flow flow{points_of(PaperSize::kA4), breaks};
  lay_table(flow, long_table(120));
  EXPECT_EQ(flow.page(), 3);
  size_t tables = 0, rows = 0, begun = 0, ended = 0;
  for (const FlowPiece& piece : flow.pieces()) {
    for (const std::string& one : piece.begins) tables += one == "Table" ? 1 : 0, rows += one == "TR" ? 1 : 0;
    begun += piece.begins.size(), ended += piece.ends.size();
  }
  EXPECT_EQ(tables, 3U);
  EXPECT_EQ(rows, 123U);
  EXPECT_EQ(begun, ended);
}

TEST(Flow, NothingIsLeftOutOfARowThatIsHigherThanAPage) {
  std::string words;
  for (int i = 0; i < 3000; ++i) words += "word ";
  LineBreaks breaks;
  Flow flow{points_of(PaperSize::kA4), breaks};
  lay_table(flow, {{{"", 1}, {"", 1}}, {{words, "short"}}});
  EXPECT_GT(flow.page(), 1);
  for (const FlowPiece& piece : flow.pieces()) EXPECT_LT(piece.top, points_of(PaperSize::kA4).height - Flow::kBottom);
}

TEST(Flow, AParagraphGoesOverPages) {
  std::string words;
  for (int i = 0; i < 3000; ++i) words += "word ";
  const Document document = with({Paragraph{words}});
  EXPECT_GT(pages_of(document, PaperSize::kA4), 1);
  const auto bytes = drawn_document(document, PaperSize::kA4);
  ASSERT_TRUE(bytes);
  EXPECT_EQ(count(*bytes, "/S /P"), static_cast<size_t>(pages_of(document, PaperSize::kA4)));
}

TEST(Flow, NoLineOfAParagraphStandsAlone) {
  const double height = line_height(9);
  for (const char* text : {"one\ntwo\nthree", "one\ntwo\nthree\nfour\nfive"})
    for (int left = 1; left < 5; ++left) {
      LineBreaks breaks;
      Flow flow{points_of(PaperSize::kA4), breaks};
      flow.set(flow.room() - (left + 0.5) * height, [](Canvas&, PagePoint) {});
      lay_lines(flow, text, {.size = 9}, 0, [](Canvas&, PagePoint) {});
      int on[3] = {};
      for (const FlowPiece& piece : flow.pieces()) ++on[piece.page];
      // The filler is on the first page; the mark is with the first line.
      EXPECT_NE(on[1], 3) << text << left;
      EXPECT_NE(on[2], 1) << text << left;
    }
}

/// A picture without words under it, so high.
Figures filler(double height) {
  return {{{{100, static_cast<int>(height)}, [](Canvas&) {}, "", ""}}, std::floor(height)};
}

TEST(Document, AHeadingStaysWithWhatFollows) {
  const double room = Flow::height_on(points_of(PaperSize::kA4));
  int moved = 0;
  for (int above = static_cast<int>(room) - 100; above < static_cast<int>(room) - 30; above += 3) {
    std::vector<Block> blocks{filler(above), Heading{2, "Heading"}, Paragraph{"line"}};
    if (height_of(blocks, PaperSize::kA4) <= room) continue;
    ++moved;
    // A page holds the figures with the line, and not with the heading and the line.
    blocks.emplace_back(filler(400));
    blocks.emplace_back(filler(room - 438));
    EXPECT_EQ(pages_of(with(blocks), PaperSize::kA4), 3) << above;
  }
  EXPECT_GT(moved, 3);
}

TEST(Document, WhatLeadsToATableOrAListStaysWithIt) {
  const double room = Flow::height_on(points_of(PaperSize::kA4));
  const Table table = long_table(3);
  const std::vector<std::vector<Block>> groups{
      {Heading{1, "Loads"}, Paragraph{"Met by all."}, Heading{2, "Power"}, table},
      {table},
      {Paragraph{"What is so:"}, Points{{"one thing that is so"}}}};
  for (const auto& blocks : groups) {
    const double height = height_of(blocks, PaperSize::kA4);
    // Where not all of it fits under the first picture all of it is on the next page, and the second picture does not
    // fit there with it.
    for (double left = 45; left < height - 20; left += 7) {
      std::vector<Block> all{filler(room - left)};
      all.insert(all.end(), blocks.begin(), blocks.end());
      all.emplace_back(filler(room - height + 20));
      EXPECT_EQ(pages_of(with(all), PaperSize::kA4), 3) << left << " of " << height;
    }
  }
}

TEST(Document, ALastPageOfFewLinesIsSpared) {
  for (const PaperSize paper : {PaperSize::kA4, PaperSize::kLetter}) {
    const double room = Flow::height_on(points_of(paper));
    std::vector<Block> blocks{Heading{1, "Settings"}};
    Points points;
    const auto height = [&] { return height_of({blocks[0], points}, paper); };
    while (height() < room) points.items.emplace_back("one of many things to tick");
    while (height() < room + 30) points.items.emplace_back("one that goes a little over the page");
    blocks.emplace_back(points);
    EXPECT_EQ(pages_of(with(blocks), paper), 1);
    blocks.emplace_back(long_table(20));
    EXPECT_EQ(pages_of(with(blocks), paper), 2);  // where that does not do it, the white stays
  }
}

TEST(Document, AClosingParagraphUnderItsHeadingIsNoPageOfItsOwn) {
  for (const PaperSize paper : {PaperSize::kA4, PaperSize::kLetter}) {
    const double room = Flow::height_on(points_of(paper));
    std::vector<Block> blocks{Heading{1, "Report"}};
    while (height_of(blocks, paper) < room - 30) blocks.emplace_back(Paragraph{"one of many lines"});
    blocks.emplace_back(Heading{1, "What this is"});
    blocks.emplace_back(Paragraph{"one\ntwo\nthree\nfour\nfive"});
    EXPECT_EQ(pages_of(with(blocks), paper), 1);
  }
}

TEST(Document, ARowOrTwoThatGoOverAreSparedInEachPartByItself) {
  for (const PaperSize paper : {PaperSize::kA4, PaperSize::kLetter}) {
    const double room = Flow::height_on(points_of(paper));
    std::vector<Block> blocks;
    for (int part = 0; part < 3; ++part) {
      const Heading heading{2, "Settings", true};
      int rows = 1;
      while (height_of({heading, long_table(rows)}, paper) < room + 20) ++rows;
      blocks.emplace_back(heading);
      blocks.emplace_back(part == 1 ? long_table(3) : long_table(rows));
    }
    EXPECT_EQ(pages_of(with(blocks), paper), 3);
  }
}

TEST(Flow, TheLastRowOfATableDoesNotGoOverAPageAlone) {
  for (const double least : {0.0, 60.0, 130.0})
    for (int left = 1; left < 100; ++left) {
      LineBreaks breaks;
      Flow flow{points_of(PaperSize::kA4), breaks};
      flow.set(flow.room() - 7 * left, [](Canvas&, PagePoint) {});
      lay_table(flow, {{{"", 1}}, {{"one"}, {"two"}, {"three"}, {"four"}, {"five"}}, least});
      int over = 0;
      for (const FlowPiece& piece : flow.pieces()) over += piece.page == 2 ? 1 : 0;
      EXPECT_NE(over, 1) << least << ", " << left;
    }
}

TEST(Document, AHeadingStaysWithATableOfTwoRowsThatStayTogether) {
  const double room = Flow::height_on(points_of(PaperSize::kA4));
  const Table table{{{"", 1}}, {{"one"}, {"two"}}, 120};
  // On its page with the heading it leaves no room for the second picture, without it it would.
  for (int left = 45; left < 260; left += 7) {
    const std::vector<Block> blocks{filler(room - left), Heading{2, "Signed"}, table, filler(room - 250)};
    EXPECT_EQ(pages_of(with(blocks), PaperSize::kA4), 3) << left;
  }
}

TEST(Document, APictureThatIsTooHighIsMadeSmaller) {
  const Figure tall{{100, 5000}, [](Canvas&) {}, "words"};
  EXPECT_EQ(pages_of(with({Figures{{tall}, 5000}}), PaperSize::kA4), 1);
}

TEST(Document, APictureIsMadeALittleSmallerToFillAPage) {
  std::vector<Block> blocks;
  for (int i = 0; i < 30; ++i) blocks.emplace_back(Paragraph{"line"});
  const PageSize page = points_of(PaperSize::kA4);
  // With the lines before it, it is a little too high.
  const double room = Flow::height_on(page) - 30 * (line_height(9) + 6);
  const Figure wide{
      {static_cast<int>(Flow::width_on(page)), static_cast<int>(1.05 * room)}, [](Canvas&) {}, "words", "a field"};
  blocks.emplace_back(Figures{{wide}});
  EXPECT_EQ(pages_of(with(blocks), PaperSize::kA4), 2);
  std::get<Figures>(blocks.back()).least = 0.7;
  EXPECT_EQ(pages_of(with(blocks), PaperSize::kA4), 1);
  std::get<Figures>(blocks.back()).row.front().size.height = static_cast<int>(1.6 * room);
  EXPECT_EQ(pages_of(with(blocks), PaperSize::kA4), 2);
}

TEST(Document, APictureIsMadeSmallerToSpareALastPage) {
  for (const PaperSize paper : {PaperSize::kA4, PaperSize::kLetter}) {
    const double room = Flow::height_on(points_of(paper));
    std::vector<Block> blocks{filler(200)};
    while (height_of(blocks, paper) < room - 50) blocks.emplace_back(Paragraph{"one\ntwo\nthree\nfour\nfive\nsix"});
    while (height_of(blocks, paper) < room + 40) blocks.emplace_back(Paragraph{"line"});
    EXPECT_EQ(pages_of(with(blocks), paper), 2);  // white between paragraphs alone does not do it
    std::get<Figures>(blocks.front()).least = 0.7;
    EXPECT_EQ(pages_of(with(blocks), paper), 1);
  }
}

TEST(Document, FiguresAreHeardAndTheirCaptionsRead) {
  const auto bytes = drawn_document(with({Figures{{{{100, 50}, [](Canvas&) {}, "words", "a field"}}}}), PaperSize::kA4);
  ASSERT_TRUE(bytes);
  EXPECT_EQ(count(*bytes, "/S /Figure\n   /Alt <FEFF00610020006600690065006C0064>"), 1U);
  EXPECT_EQ(count(*bytes, "/S /Caption"), 1U);
}

TEST(Document, HasAllItsWords) {
  const std::string words = words_of(with({Heading{1, "One"}, Paragraph{"Two"}, Points{{"three"}}, long_table(1)}));
  for (const char* word : {"head", "foot", "One", "Two", "three", "name", "row", "0"})
    EXPECT_THAT(words, HasSubstr(word));
}

TEST(Canvas, BreaksLinesAndLosesNoWord) {
  const std::string text = "one two three four five six seven";
  std::string joined;
  const auto lines = lines_of(text, {.size = 10, .wrap = 60});
  EXPECT_GT(lines.size(), 2U);
  for (const std::string& line : lines) joined += (joined.empty() ? "" : " ") + line;
  EXPECT_EQ(joined, text);
}

TEST(Canvas, ANumberKeepsItsUnit) {
  const std::string text =
      "share 100 % to 11 %, worst place 55 px/m to 0 px/m; 143 px/m (67 to 180), 12.6 Mbit/s, 3 m.";
  for (int wide = 50; wide < 400; wide += 5)
    for (const std::string& line : lines_of(text, {.size = 8, .wrap = double(wide)}))
      for (const char* torn : {"%", "px", "m", "Mbit", "s,"})
        EXPECT_FALSE(line.starts_with(torn)) << wide << ": " << line;
}

TEST(Canvas, FeetKeepTheirInches) {
  const std::string text = "12 ft 7 in from shop, and 103 ft 11 in from the pier; 9 in above it, lens 10 ft 0 in.";
  for (int wide = 50; wide < 300; wide += 5)
    for (const std::string& line : lines_of(text, {.size = 8, .wrap = double(wide)})) {
      for (const char* torn : {"ft", "in", "7 in", "11 in", "0 in"})
        EXPECT_FALSE(line.starts_with(torn)) << wide << line;
      EXPECT_FALSE(line.ends_with(" ft")) << wide << ": " << line;
    }
}

TEST(Canvas, KnowsLettersThatNoTypefaceHas) {
  EXPECT_EQ(letters_without_shape("Gate, ворота"), 0);
  EXPECT_GT(letters_without_shape("\xF4\x8F\xBF\xBD"), 0);  // U+10FFFD, for private use
}

}  // namespace
}  // namespace sightfall::draw
