// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/card_picture.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace sightfall::draw {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

/// A card and a curve by hand: detail falls as 3000 over the distance by day, by its square by night.
struct Drawn {
  card::CardRequest request;
  card::RangeCard card;
  std::vector<card::Mark> curve;

  Drawn() {
    request.tables = {{"test", "a table made up", {{"coarse", PixelDensity{25}}, {"fine", PixelDensity{250}}}}};
    card.camera = "north <eye>";
    card.focal = Length{12e-3};
    card.focus = Length{20};
    card.f_number = 1.6;
    card.infrared = card.monochrome = true;
    card.clipping.fixed = Length{2.5};
    for (double distance = 1; distance <= 200; distance *= 1.2) {
      card::Mark mark;
      mark.distance = Length{distance};
      mark.density = PixelDensity{3000 / distance};
      mark.day.delivered = Ranged<PixelDensity>::exact(mark.density);
      mark.night.delivered = Ranged<PixelDensity>::exact(PixelDensity{distance < 80 ? 3000 / distance / distance : 0});
      curve.push_back(mark);
    }
  }
  PlanPictures pictures() const {
    const Result<PlanPictures> drawn = draw_card({&request, &card, &curve});
    EXPECT_TRUE(drawn.has_value());
    return drawn.value_or(PlanPictures{});
  }
};

TEST(CardPicture, TheSameInputGivesTheSameBytes) {
  const PlanPictures first = Drawn().pictures(), again = Drawn().pictures();
  EXPECT_TRUE(first.svg == again.svg);
  EXPECT_TRUE(first.png == again.png);
  EXPECT_EQ(first.png.substr(0, 8), "\x89PNG\r\n\x1a\n");
}

TEST(CardPicture, SaysWhatIsDrawn) {
  Drawn drawn;
  for (const char* words : {"<title>north &lt;eye&gt;</title>", "burns out nearer than 2.5 m, full power",
                            "250 px/m: fine", "the camera's own infrared, monochrome", "a table made up"})
    EXPECT_THAT(drawn.pictures().svg, HasSubstr(words));
  drawn.card.clipping.fixed.reset();
  EXPECT_THAT(drawn.pictures().svg, Not(HasSubstr("burns out")));
}

TEST(CardPicture, ANightWithLessDetailIsADifferentPicture) {
  Drawn drawn;
  const std::string before = drawn.pictures().svg;
  for (card::Mark& mark : drawn.curve) mark.night.delivered = Ranged<PixelDensity>::exact(PixelDensity{0});
  EXPECT_TRUE(drawn.pictures().svg != before);
}

TEST(CardPicture, EqualRatiosAreEqualStretches) {
  const PagePoint a = chart_point(Length{2}, PixelDensity{20}), b = chart_point(Length{10}, PixelDensity{100}),
                  c = chart_point(Length{50}, PixelDensity{500});
  EXPECT_NEAR(b.x - a.x, c.x - b.x, 1e-9);
  EXPECT_NEAR(a.y - b.y, b.y - c.y, 1e-9);
  EXPECT_GT(b.x, a.x) << "farther is to the right";
  EXPECT_LT(b.y, a.y) << "more is up";
}

}  // namespace
}  // namespace sightfall::draw
