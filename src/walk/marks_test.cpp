// SPDX-License-Identifier: GPL-3.0-or-later
// A walk on a plain project: figures by pencil, errors, the picture where it should be and the same on any threads.
#include "walk/marks.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <tbb/global_control.h>

#include <cmath>

#include "need/test_project.h"
#include "walk/film.h"

namespace sightfall::walk {
namespace {

using namespace units;
using testing::HasSubstr;

/// The plain project with few pixels: 200 to a tangent of one.
struct Plain {
  need::Project project = need::plain_project();
  site::Condition condition;

  explicit Plain(std::vector<geom::PlanPoint> line = {{0, 30}, {0, 3}}) {
    project.catalogue.front().columns = 200;
    project.catalogue.front().rows = 150;
    site::Place path;
    path.name = "path";
    path.kind = site::PlaceKind::kRoute;
    path.line = std::move(line);
    path.speed = Speed{0};
    project.site.places = {path};
    project.settings.materials.all = {{"skin", {{0.4, 0.6, 0.5}}, "test"}, {"clothing", {{0.2, 0.3, 0.3}}, "test"}};
    condition.name = "day";
  }
  WalkRequest request(std::vector<double> marks) const {
    WalkRequest request{&project, &condition, &project.cameras.front(), &project.site.places.front(), {}, {}, 3};
    for (const double mark : marks) request.marks.push_back(mark * m);
    return request;
  }
};

TEST(Walk, TellsTheVerdictsOwnFigures) {
  const Plain plain;
  const auto walk = Walk::begin(plain.request({5, 10, 20}));
  ASSERT_TRUE(walk) << to_line(walk.error());
  ASSERT_EQ(walk->marks().size(), 3U);
  for (const Mark& mark : walk->marks()) {
    EXPECT_NEAR(mark.density.si(), 200 / mark.distance.si(), 0.01);
    EXPECT_NEAR(mark.delivered.nominal.si(), mark.density.si(), 0.05) << "sharper than the reference";
    EXPECT_NEAR(mark.gone.si(), 30 - mark.distance.si(), 0.03);
    ASSERT_TRUE(mark.middle);
    EXPECT_NEAR(mark.middle->u, 99.5, 1e-6);
    EXPECT_NEAR(mark.middle->v, 74.5, 1e-6);
  }
}

TEST(Walk, DefaultMarksGoFromFirstToLastSeen) {
  const Plain plain;
  const auto walk = Walk::begin(plain.request({}));
  ASSERT_TRUE(walk);
  ASSERT_EQ(walk->marks().size(), static_cast<size_t>(kDefaultMarks));
  EXPECT_NEAR(walk->marks().front().distance.si(), 30, 0.6);
  EXPECT_LT(walk->marks().back().distance.si(), 4);
}

TEST(Walk, WhoWalksAwayIsNotMadeOut) {
  const Plain plain{{{0, 3}, {0, 30}}};
  const auto walk = Walk::begin(plain.request({10}));
  ASSERT_TRUE(walk);
  EXPECT_EQ(walk->marks().front().limit, detail::Limit::kAngle);
  EXPECT_EQ(walk->marks().front().density, PixelDensity{0});
}

TEST(Walk, RefusesARouteThatIsNeverSeenAndAMarkThatIsNotOnIt) {
  const Plain behind{{{0, -30}, {0, -3}}};
  const auto never = Walk::begin(behind.request({}));
  ASSERT_FALSE(never);
  EXPECT_THAT(to_line(never.error()), HasSubstr("never sees anyone on \"path\""));
  const Plain plain;
  const auto beyond = Walk::begin(plain.request({50}));
  ASSERT_FALSE(beyond);
  EXPECT_THAT(to_line(beyond.error()), HasSubstr("--marks: found 50; \"path\" runs 3.0 to 30.0 m from the mount"));
}

TEST(Walk, ThePictureIsTheSameForAnyNumberOfThreads) {
  const Plain plain;
  const auto walk = Walk::begin(plain.request({6}));
  ASSERT_TRUE(walk);
  const auto on_threads = [&](size_t threads) {
    const tbb::global_control limit{tbb::global_control::max_allowed_parallelism, threads};
    return Film{*walk}.picture(walk->marks().front()).rgb;
  };
  const auto one = on_threads(1);
  EXPECT_EQ(one, on_threads(2));
  EXPECT_EQ(one, on_threads(5));
  Plain other;
  WalkRequest request = other.request({6});
  request.seed = 4;
  const auto seeded = Walk::begin(request);
  EXPECT_NE(one, Film{*seeded}.picture(walk->marks().front()).rgb) << "another seed, other noise";
}

TEST(Walk, TheSubjectStandsWhereItIsProjected) {
  const Plain plain;
  WalkRequest request = plain.request({6});
  request.mover = Mover::kTarget;
  const auto walk = Walk::begin(request);
  ASSERT_TRUE(walk);
  const need::Station& station = walk->station();
  const Mark& mark = walk->marks().front();
  SubjectMesh board = placed(target_board(Length{1.6}), mark.foot, mark.forward);
  const Stage stage{plain.project, plain.condition, station, {board, ""}};
  const Cutout cut = cast_subject(stage, station, 1, 2);
  ASSERT_FALSE(cut.empty());
  // The board alone: rows above its lower edge. Its corners lie 0.25 m from the axis, 6 m away: 8.3 px.
  double left = 1e9, right = -1e9, top = 1e9;
  for (int row = 0; row < cut.rate.rows; ++row)
    for (int column = 0; column < cut.rate.columns; ++column) {
      if (cut.cover.at[cut.cover.index(column, row)] <= 0) continue;
      const double u = cut.left + (column + 0.5) / cut.finer - 0.5, v = cut.top + (row + 0.5) / cut.finer - 0.5;
      left = std::min(left, u), right = std::max(right, u), top = std::min(top, v);
    }
  const double half = 200 * 0.25 / (mark.distance.si());
  EXPECT_NEAR(left, 99.5 - half, 0.25);
  EXPECT_NEAR(right, 99.5 + half, 0.25);
  EXPECT_NEAR(top, 74.5 - half, 0.25);
}

TEST(PieceAround, StaysWithinThePicture) {
  camera::Projector p;
  p.columns = 200, p.rows = 150;
  const PictureBox box = piece_around(p, {5, 148}, 60, 40);
  EXPECT_EQ(box.left, 0);
  EXPECT_EQ(box.right, 59);
  EXPECT_EQ(box.top, 110);
  EXPECT_EQ(box.bottom, 149);
  const PictureBox all = piece_around(p, {100, 75}, 1000, 1000);
  EXPECT_EQ(all.right, 199);
  EXPECT_EQ(all.bottom, 149);
}

TEST(Cut, TakesThePartInside) {
  const Picture picture{3, 2, {1, 1, 1, 2, 2, 2, 3, 3, 3, 4, 4, 4, 5, 5, 5, 6, 6, 6}};
  EXPECT_THAT(cut(picture, {1, 0, 2, 1}).rgb, testing::ElementsAre(2, 2, 2, 3, 3, 3, 5, 5, 5, 6, 6, 6));
}

}  // namespace
}  // namespace sightfall::walk
