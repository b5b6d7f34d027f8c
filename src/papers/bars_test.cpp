// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/bars.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "detail/delivered.h"
#include "file/project.h"

namespace sightfall::papers {
namespace {

using namespace units;
using ::testing::HasSubstr;
using ::testing::SizeIs;

need::Project usual() {
  need::Project project;
  project.settings.typical = file::default_typical();
  return project;
}

TEST(Bars, AreHalfACycleOfWhatTheLevelDelivers) {
  const need::Project project = usual();
  const double cycles = detail::reference_frequency(0.20);
  EXPECT_NEAR(bar_width(PixelDensity{250}, project).si(), 1 / (2 * cycles * 250), 1e-12);
  EXPECT_NEAR(bar_width(PixelDensity{250}, project).in(mm), 4.40, 0.005);  // by pencil, at 0.4546 cycles a pixel
  EXPECT_EQ(bar_words(PixelDensity{125}, project), "8.8 mm");
}

std::vector<draw::Figures> figures_of(const std::vector<draw::Block>& blocks) {
  std::vector<draw::Figures> all;
  for (const draw::Block& block : blocks)
    if (const auto* figures = std::get_if<draw::Figures>(&block)) all.push_back(*figures);
  return all;
}

TEST(Bars, ThatNoPageHoldsAreToldAsStrips) {
  std::vector<draw::Block> blocks;
  add_bar_chart(usual(), {{"coarse", PixelDensity{20}}, {"middle", PixelDensity{40}}, {"fine", PixelDensity{250}}},
                draw::PaperSize::kA4, blocks);
  const auto figures = figures_of(blocks);
  ASSERT_THAT(figures, SizeIs(2));
  EXPECT_THAT(figures[0].row[0].words, HasSubstr("fine, 250 px/m: bars of 4.4 mm"));
  EXPECT_THAT(figures[1].row[0].words, HasSubstr("middle, 40 px/m: bars of 27.5 mm"));
  draw::Document document;
  document.blocks = blocks;
  EXPECT_THAT(draw::words_of(document), HasSubstr("coarse, 20 px/m: bars of 55.0 mm: no page holds them"));
}

TEST(Bars, AreDrawnAtTheirOwnSizeOnEitherPaper) {
  for (const draw::PaperSize paper : {draw::PaperSize::kA4, draw::PaperSize::kLetter}) {
    std::vector<draw::Block> blocks;
    add_bar_chart(usual(), {{"middle", PixelDensity{40}}, {"less", PixelDensity{80}}}, paper, blocks);
    constexpr int kMargins = 102, kAboveAndUnder = 64 + 58;  // points; a figure as wide as the text is not scaled
    for (const draw::Figures& figures : figures_of(blocks)) {
      EXPECT_EQ(figures.row[0].size.width, draw::points_of(paper).width - kMargins);
      EXPECT_LE(figures.row[0].size.height, draw::points_of(paper).height - kAboveAndUnder - draw::kUnderFigure);
      EXPECT_GE(figures.most_height, figures.row[0].size.height);
    }
  }
}

TEST(Bars, StandTogetherWhereOnePageHoldsThem) {
  for (const draw::PaperSize paper : {draw::PaperSize::kA4, draw::PaperSize::kLetter}) {
    std::vector<draw::Block> blocks;
    add_bar_chart(usual(),
                  {{"validate", PixelDensity{500}},
                   {"characterise", PixelDensity{250}},
                   {"perceive", PixelDensity{125}},
                   {"discern", PixelDensity{80}}},
                  paper, blocks);
    ASSERT_THAT(figures_of(blocks), SizeIs(1));
    draw::Document document;
    document.blocks = blocks;
    EXPECT_EQ(draw::pages_of(document, paper), 1);
  }
}

TEST(Bars, StandUnderWhatIsSaidOfThem) {
  for (const draw::PaperSize paper : {draw::PaperSize::kA4, draw::PaperSize::kLetter}) {
    draw::Document document;
    add_bar_chart(usual(), {{"outline", PixelDensity{40}}}, paper, document.blocks);
    EXPECT_EQ(draw::pages_of(document, paper), 1);
  }
}

TEST(Bars, MoreDetailIsToldAsMore) {
  using enum need::Subject;
  EXPECT_NE(look_for_words(PixelDensity{125}, kFace), look_for_words(PixelDensity{250}, kFace));
  EXPECT_EQ(look_for_words(PixelDensity{62.5}, kPerson), look_for_words(PixelDensity{40}, kPerson));
  EXPECT_NE(look_for_words(PixelDensity{250}, kPlate), look_for_words(PixelDensity{250}, kFace));
}

}  // namespace
}  // namespace sightfall::papers
