// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw/plan_map.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>

#include "draw/missed.h"
#include "draw/plan_layout.h"
#include "draw/plan_strip.h"
#include "draw/test_plan.h"

namespace sightfall::draw {
namespace {

using ::testing::HasSubstr;

uint32_t big_endian(const std::string& bytes, size_t at) {
  uint32_t value = 0;
  for (size_t i = 0; i < 4; ++i) value = value << 8 | static_cast<unsigned char>(bytes[at + i]);
  return value;
}

/// Sets the detail at every point of the map to value(point, what it was).
template <class Value>
void set_detail(Yard& yard, Value value) {
  size_t i = 0;
  for (int r = 0; r < yard.map.rows; ++r)
    for (int c = 0; c < yard.map.columns; ++c, ++i) {
      const geom::PlanPoint cell{static_cast<double>(c), static_cast<double>(r)};
      const double set = value(yard.map.south_west + yard.map.step.si() * cell, yard.map.delivered[i]);
      yard.map.delivered[i] = static_cast<float>(set);
    }
}

PlanPictures drawn(const Yard& yard) {
  Result<PlanPictures> pictures = draw_plan_map(yard.plan());
  EXPECT_TRUE(pictures.has_value());
  return pictures.value_or(PlanPictures{});
}

PlanLayout laid_out(const Yard& yard) {
  const DetailField field{yard.map, yard.project.site};
  return laid_out(yard.plan(), field);
}

TEST(PlanMap, TheSameInputGivesTheSameBytes) {
  const PlanPictures first = drawn(made_yard()), again = drawn(made_yard());
  EXPECT_TRUE(first.svg == again.svg);
  EXPECT_TRUE(first.png == again.png);
}

TEST(PlanMap, ThePngHasItsSizeAndTheSvgTheSame) {
  const PlanPictures pictures = drawn(made_yard());
  ASSERT_GT(pictures.png.size(), 100U);
  EXPECT_EQ(pictures.png.substr(0, 8), "\x89PNG\r\n\x1a\n");
  EXPECT_EQ(big_endian(pictures.png, 16), static_cast<uint32_t>(kPictureWidth));
  const uint32_t height = big_endian(pictures.png, 20);
  EXPECT_GT(height, 900U);
  EXPECT_LT(height, 2000U);
  EXPECT_THAT(pictures.svg, HasSubstr("width=\"1600px\" height=\"" + std::to_string(height) + "px\""));
}

TEST(PlanMap, TheSvgSaysWhatIsWritten) {
  Yard yard = made_yard();
  yard.project.cameras[0].name = "M1 <gate> & lane";
  const std::string svg = drawn(yard).svg;
  for (const char* words :
       {"M1 &lt;gate&gt; &amp; lane", "M2 yard", "glasshouse", "worst: 61 px/m, pixels", "125 px/m",
        "<title>At the gate, the face of anyone walking in</title>", "64 % (58 % to 70 %) of samples",
        "summer noon, before compression", "hedge", "edge of what is seen"})
    EXPECT_THAT(svg, HasSubstr(words));
}

TEST(PlanMap, NoWordsLieOverOthers) {
  const PlanLayout layout = laid_out(made_yard());
  ASSERT_GT(layout.labels.size(), 12U);
  for (size_t i = 0; i < layout.labels.size(); ++i)
    for (size_t j = 0; j < i; ++j)
      EXPECT_FALSE(overlap(layout.labels[i].box, layout.labels[j].box))
          << layout.labels[i].text << " over " << layout.labels[j].text;
}

TEST(PlanMap, WhatMattersMostIsNamedEvenWhenItIsCrowded) {
  Yard yard = made_yard();
  for (int i = 0; i < 12; ++i) {
    site::Window window{"window", {30 + 0.1 * i, 29}, Length{2}, Length{1}, {}};
    yard.project.site.neighbours.push_back(window);
  }
  std::vector<std::string> texts;
  for (const PlacedLabel& label : laid_out(yard).labels) texts.push_back(label.text);
  for (const char* words : {"M1 gate", "M2 yard", "M3 corner", "gate", "worst: 61 px/m, pixels"})
    EXPECT_THAT(texts, ::testing::Contains(words));
}

TEST(PlanMap, EveryCameraIsNamedHoweverManyHangTogether) {
  Yard yard = made_yard();
  const camera::Camera one = yard.project.cameras.front();
  for (int i = 0; i < 24; ++i) {
    yard.project.cameras.push_back(one);
    yard.project.cameras.back().name = "gate house, lane " + std::to_string(i);
  }
  std::vector<std::string> texts;
  for (const PlacedLabel& label : laid_out(yard).labels) texts.push_back(label.text);
  for (const camera::Camera& camera : yard.project.cameras) EXPECT_THAT(texts, ::testing::Contains(camera.name));
}

TEST(PlanMap, FiguresOnLinesAreUprightAndTheLineIsBrokenUnderThem) {
  const PlanLayout layout = laid_out(made_yard());
  int figures = 0;
  for (const PlacedLabel& label : layout.labels) {
    EXPECT_LE(std::abs(label.box.turn), M_PI / 2 + 1e-9);
    const double density = std::strtod(label.text.c_str(), nullptr);
    if (density == 0) continue;
    ++figures;
    for (const ContourLine& line : layout.contours)
      if (line.density.si() == density) {
        for (const geom::Polyline& part : line.parts)
          EXPECT_GT(distance_to_line(part.points, label.box.middle), label.box.width / 2 - 1) << label.text;
      }
  }
  EXPECT_GE(figures, 5);
}

TEST(PlanMap, LinesKeepToTheirDetail) {
  // One camera, nothing in the way: detail is 3000 / distance, so each line is a circle around it.
  Yard yard = made_yard(401);
  yard.project.site.solids.clear();
  yard.project.site.veils.clear();
  const Eye eye{{30, 20}, 180, 90, 3000};
  set_detail(yard, [&](geom::PlanPoint p, double) { return detail_from(eye, p, yard.project.site); });
  const PlanLayout layout = laid_out(yard);
  size_t points = 0;
  for (const ContourLine& line : layout.contours)
    for (const geom::Polyline& part : line.parts)
      for (const PagePoint p : part.points) {
        const double away = geom::norm(layout.frame.to_plan(p) - eye.at);
        EXPECT_NEAR(away, 3000 / line.density.si(), yard.map.step.si()) << line.density.si();
        ++points;
      }
  EXPECT_GT(points, 100U);
}

TEST(PlanMap, HatchingLiesWhereTheNeedIsMissedAndCoversIt) {
  const Yard yard = made_yard();
  const PlanLayout layout = laid_out(yard);
  const DetailField field{yard.map, yard.project.site};
  const geom::Outline& gate = yard.project.site.places[0].outline;
  double hatched = 0;
  for (const geom::Polyline& stroke : layout.missed.lines) {
    hatched += geom::norm(stroke.points[1] - stroke.points[0]);
    const geom::PlanPoint middle = layout.frame.to_plan(0.5 * (stroke.points[0] + stroke.points[1]));
    EXPECT_TRUE(geom::contains(gate, middle));
    EXPECT_LT(field.at(middle).si(), 125);
  }
  int missed = 0, all = 0;
  for (const double x : multiples(0.1, 22.01, 37.99))
    for (const double y : multiples(0.1, 4.51, 13.99)) {
      ++all;
      missed += field.at({x, y}).si() < 125 ? 1 : 0;
    }
  const double page_area = missed * 16 * 9.5 / all * layout.frame.per_metre * layout.frame.per_metre;
  constexpr double kSpacing = 8;  // between strokes: strokes of this spacing cover area / spacing of length
  EXPECT_NEAR(hatched * kSpacing / page_area, 1, 0.05);
}

TEST(PlanMap, NothingIsHatchedWithoutANeed) {
  Yard yard = made_yard();
  PlanMap plan = yard.plan();
  plan.verdict = nullptr;
  plan.required = {};
  const DetailField field{yard.map, yard.project.site};
  EXPECT_TRUE(laid_out(plan, field).missed.lines.empty());
  EXPECT_TRUE(draw_plan_map(plan).has_value());
  EXPECT_EQ(caption(plan).size(), 1U);
}

TEST(PlanMap, ARouteAndALineAreDrawnAndHatchedToo) {
  Yard yard = made_yard();
  yard.map.place = "drive";
  yard.project.settings.units = need::Units::kFeet;
  const PlanLayout route = laid_out(yard);
  EXPECT_FALSE(route.missed.lines.empty());
  for (const geom::Polyline& stroke : route.missed.lines)
    for (const PagePoint p : stroke.points)
      EXPECT_LE(distance_to_line(yard.project.site.places[1].line, route.frame.to_plan(p)), 1.5 + 1e-6);
  yard.project.site.places[1].kind = site::PlaceKind::kLine;
  yard.project.site.places[1].width = {};
  EXPECT_FALSE(laid_out(yard).missed.lines.empty());
  EXPECT_FALSE(drawn(yard).png.empty());
}

TEST(PlanMap, AMetNeedHasNoLimitAndAMetPassageNoHatching) {
  Yard yard = made_yard();
  yard.map.place = "drive";
  yard.verdict.answer = need::Answer::kMet;
  EXPECT_EQ(worst_note(yard.verdict), "worst: 61 px/m");
  EXPECT_FALSE(laid_out(yard).missed.lines.empty());
  yard.project.needs[0].once_a_passage = 3;
  EXPECT_TRUE(laid_out(yard).missed.lines.empty());
}

TEST(PlanMap, EdgesOfWhatIsSeenAreNoBundlesOfLines) {
  Yard yard = made_yard(101);
  set_detail(yard, [](geom::PlanPoint p, double) { return p.x < 40 ? 0.0 : p.x < 60 ? 400.0 : 15.0; });
  yard.project.site = {};
  const PlanLayout layout = laid_out(yard);
  // From bare to 400 px/m: no line. From 400 to 15: only the highest of the four between.
  ASSERT_EQ(layout.contours.size(), 1U);
  EXPECT_EQ(layout.contours[0].density.si(), 250);
}

TEST(PlanMap, ABuildingIsOpenedOnlyWhenItsGroundIsSeen) {
  Yard yard = made_yard();
  EXPECT_FALSE(DetailField(yard.map, yard.project.site).open(0));
  set_detail(yard,
             [](geom::PlanPoint p, double was) { return p.x > 10 && p.x < 20 && p.y > 32 && p.y < 40 ? 200.0 : was; });
  EXPECT_TRUE(DetailField(yard.map, yard.project.site).open(0));
  EXPECT_FALSE(DetailField(yard.map, yard.project.site).open(1));
}

TEST(PlanMap, AnEmptySiteThatNobodySeesIsStillASheet) {
  Yard yard = made_yard(3);
  yard.project.site = {};
  yard.project.cameras.clear();
  yard.verdict.worst.reset();
  for (float& value : yard.map.delivered) value = 0;
  EXPECT_FALSE(drawn(yard).svg.empty());
}

TEST(PlanFrame, KeepsOneScaleForWideAndTallMaps) {
  for (const auto& [columns, rows] : {std::pair{400, 20}, std::pair{20, 400}, std::pair{100, 100}}) {
    need::DetailMap map;
    map.south_west = {3, 4};
    map.step = Length{0.5};
    map.columns = columns;
    map.rows = rows;
    const PlanFrame frame = frame_around(map);
    const geom::PlanPoint far{3 + 0.5 * (columns - 1), 4 + 0.5 * (rows - 1)};
    EXPECT_NEAR(geom::norm(frame.to_page(geom::PlanPoint{3, 4}) - PagePoint{frame.low.x, frame.high.y}), 0, 1e-9);
    EXPECT_NEAR(geom::norm(frame.to_page(far) - PagePoint{frame.high.x, frame.low.y}), 0, 1e-9);
    EXPECT_NEAR(geom::norm(frame.to_plan(frame.to_page(far)) - far), 0, 1e-9);
    EXPECT_GE(frame.low.x, 0);
    EXPECT_LE(frame.high.x, kPictureWidth);
  }
  for (const auto& [value, below] :
       {std::pair{1.0, 1.0}, std::pair{4.9, 2.0}, std::pair{73.0, 50.0}, std::pair{0.3, 0.2}})
    EXPECT_NEAR(round_down_125(value), below, 1e-12);
}

}  // namespace
}  // namespace sightfall::draw
