// SPDX-License-Identifier: GPL-3.0-or-later
// Laws of projection and of delivered detail that hold for any camera, tried on random ones. Each failure prints its
// seed.
//   Source   docs/models.md section 6: at fixed exposure, ray direction and facing, shorter distance, less blur and
//   more
//            contrast never lower what is delivered. Nearer than the focus a shorter distance is more blur as well, so
//            there the law says nothing; it is held with the focus on the subject, and from afar up to the focus.
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <numbers>
#include <random>
#include <string>
#include <thread>
#include <vector>

#include "camera/lens.h"
#include "camera/projection.h"
#include "chance.h"
#include "detail/delivered.h"
#include "detail/test_ample.h"
#include "file/project.h"

namespace sightfall {
namespace {

using namespace units;
using camera::Projector;
using detail::Input;
using detail::Seen;
using detail::Values;
using geom::Vec3;
using physics::Chance;

constexpr double kRounding = 1e-6;  // relative: the frequency is solved to about 1e-7

/// A subject on a ray: its plane and its motion, which stay as they are while the distance changes.
struct Subject {
  Vec3 ray, across, up, motion;
};

struct Shot {
  Projector projector;
  detail::CameraConstants camera;
  std::array<double, detail::kInputCount> values{};
  Subject subject;
  double distance = 0, passed = 1;
  double others = detail::kAmpleRate, area = 1;

  void set(Input input, double value) { values[static_cast<size_t>(input)] = value; }
  double get(Input input) const { return values[static_cast<size_t>(input)]; }

  Seen seen(double at_distance) const {
    const Vec3 at = at_distance * subject.ray;
    const auto j = jacobian(projector, at);
    return {.density = surface_density(j, subject.across, subject.up).least,
            .depth = std::max(at.z, 0.0),
            .motion_density = std::hypot(dot(j.u, subject.motion), dot(j.v, subject.motion)),
            .passed = passed,
            .area = area,
            .others = others};
  }
  double delivered(double at_distance) const { return detail::delivered(camera, seen(at_distance), Values{values}); }
  double delivered() const { return delivered(distance); }
  double depth() const { return distance * subject.ray.z; }
};

Projector random_projector(Chance& chance) {
  const bool fisheye = chance.heads();
  Projector p{.mapping = fisheye ? camera::Mapping::kFisheye : camera::Mapping::kBrown,
              .columns = 1920,
              .rows = 1080,
              .focal_px = fisheye ? chance.scale(400, 1500) : chance.scale(800, 20000)};
  if (fisheye)
    p.k = {chance.between(-0.05, 0.02), chance.between(-0.004, 0.004), 0, 0, 0};
  else
    p.k = {chance.between(-0.2, 0.1), chance.between(-0.02, 0.05), 0, 0, 0};
  p.largest = monotone_to(p, 80.0 * deg);
  return p;
}

Shot random_shot(Chance& chance) {
  Shot shot;
  shot.projector = random_projector(chance);
  shot.camera.pitch = chance.scale(1e-6, 6e-6);
  shot.camera.focal = shot.projector.focal_px * shot.camera.pitch;
  shot.camera.sway_rate = chance.heads() ? 0 : chance.scale(1e-3, 0.3);
  const double theta = chance.between(0, 0.9 * shot.projector.largest.si()), phi = chance.between(0, 6.28);
  shot.subject.ray = {std::sin(theta) * std::cos(phi), std::sin(theta) * std::sin(phi), std::cos(theta)};
  const Vec3 normal = chance.direction(), other = chance.direction();
  shot.subject.across = geom::unit(cross(normal, other));
  shot.subject.up = cross(normal, shot.subject.across);
  shot.subject.motion = chance.direction();
  shot.distance = chance.scale(1, 300);
  shot.passed = chance.heads() ? 1 : chance.between(0.2, 1);
  shot.set(Input::kSway, chance.scale(0.2, 3));
  shot.set(Input::kThreshold, chance.between(0.05, 0.3));
  shot.set(Input::kContrast, chance.between(0.2, 1));
  shot.set(Input::kGlare, chance.between(0, 0.1));
  shot.set(Input::kVeilLuminance, chance.between(0, 1.5));
  shot.set(Input::kLensBlur, chance.between(0, 1.5));
  shot.set(Input::kFNumber, chance.scale(1, 11));
  shot.set(Input::kDensityFactor, chance.between(0.9, 1.1));
  shot.set(Input::kFocus, shot.depth() * chance.scale(0.3, 3));
  shot.set(Input::kShutter, chance.scale(1e-5, 0.05));
  shot.set(Input::kSpeed, chance.heads() ? 0 : chance.scale(0.5, 15));
  detail::set_ample_light(shot.values);
  if (chance.heads()) {
    // Dim: noise counts, clipping does not.
    shot.others = chance.scale(1, 1000) / shot.get(Input::kShutter);
    shot.set(Input::kFullWell, 3e5);
    shot.set(Input::kReadNoise, 5);
    shot.area = chance.between(1, 3);
  }
  return shot;
}

/// Tries a law on many random shots; the law gets a shot and returns {before, after}, where after may not be less.
template <class Law>
void never_lower(unsigned seed, Law law) {
  Chance chance{seed};
  int raised = 0;
  for (int i = 0; i < 2000; ++i) {
    const auto [before, after] = law(random_shot(chance), chance);
    ASSERT_GE(after, before * (1 - kRounding)) << "seed " << seed << " case " << i;
    raised += after > before * (1 + kRounding);
  }
  EXPECT_GT(raised, 100) << "the law is hardly tried, seed " << seed;
}

/// One input made better by a random part of its way to its best.
void better_never_lowers(unsigned seed, Input input, double best) {
  never_lower(seed, [&](Shot shot, Chance& chance) {
    const double before = shot.delivered(), now = shot.get(input);
    shot.set(input, now + chance.between(0, 1) * (best - now));
    return std::pair{before, shot.delivered()};
  });
}

TEST(DeliveredLaws, NearerIsNeverLessWithTheFocusOnTheSubject) {
  never_lower(1, [](Shot shot, Chance& chance) {
    shot.set(Input::kFocus, shot.depth());
    const double before = shot.delivered();
    shot.distance *= chance.between(0.2, 1);
    shot.set(Input::kFocus, shot.depth());
    return std::pair{before, shot.delivered()};
  });
}

TEST(DeliveredLaws, NearerIsNeverLessFromAfarUpToTheFocus) {
  never_lower(2, [](Shot shot, Chance& chance) {
    const double nearer = shot.distance * chance.between(0.2, 1);
    shot.set(Input::kFocus, nearer * shot.subject.ray.z * chance.between(0.2, 1));
    return std::pair{shot.delivered(), shot.delivered(nearer)};
  });
}

TEST(DeliveredLaws, NearerThanTheFocusItCanBeLess) {
  Shot shot;
  shot.projector = {.columns = 1921, .rows = 1081, .focal_px = 25000, .largest = 80.0 * deg};
  shot.camera = {.focal = 50e-3, .pitch = 2e-6};
  shot.subject = {{0, 0, 1}, {1, 0, 0}, {0, 1, 0}, {0, 0, -1}};
  for (const auto& [input, value] :
       {std::pair{Input::kThreshold, 0.2}, std::pair{Input::kContrast, 0.8}, std::pair{Input::kLensBlur, 0.5},
        std::pair{Input::kFNumber, 1.4}, std::pair{Input::kDensityFactor, 1.0}, std::pair{Input::kFocus, 100.0}})
    shot.set(input, value);
  detail::set_ample_light(shot.values);
  shot.set(Input::kShutter, 0.01);
  EXPECT_LT(shot.delivered(30), shot.delivered(90)) << "what the law leaves out does happen";
}

TEST(DeliveredLaws, LessLensBlurNeverLowers) { better_never_lowers(3, Input::kLensBlur, 0); }
TEST(DeliveredLaws, SlowerNeverLowers) { better_never_lowers(4, Input::kSpeed, 0); }
TEST(DeliveredLaws, LowerNoiseNeverLowers) {
  better_never_lowers(16, Input::kReadNoise, 0);
  better_never_lowers(17, Input::kNoiseThreshold, 0);
}
TEST(DeliveredLaws, MoreLightNeverLowersAtTheSameExposure) {
  never_lower(18, [](Shot shot, Chance& chance) {
    shot.others = chance.scale(1, 1000) / shot.get(Input::kShutter);
    shot.set(Input::kFullWell, 3e5);
    const double before = shot.delivered();
    shot.others *= chance.scale(1, 100);
    return std::pair{before, shot.delivered()};
  });
}
TEST(DeliveredLaws, ShorterExposureInAmpleLightNeverLowers) {
  never_lower(5, [](Shot shot, Chance& chance) {
    shot.others = detail::kAmpleRate;
    shot.set(Input::kNoiseThreshold, 0);  // a picture that is darker than it need be loses to its own output's steps
    const double before = shot.delivered();
    shot.set(Input::kShutter, shot.get(Input::kShutter) * chance.between(0.05, 1));
    return std::pair{before, shot.delivered()};
  });
}
TEST(DeliveredLaws, MoreContrastNeverLowers) { better_never_lowers(6, Input::kContrast, 1); }
TEST(DeliveredLaws, LessGlareNeverLowers) { better_never_lowers(7, Input::kGlare, 0); }

TEST(DeliveredLaws, WiderIrisNeverLowersInFocus) {
  never_lower(8, [](Shot shot, Chance& chance) {
    shot.set(Input::kFocus, shot.depth());
    const double before = shot.delivered();
    shot.set(Input::kFNumber, shot.get(Input::kFNumber) * chance.between(0.2, 1));
    return std::pair{before, shot.delivered()};
  });
}

TEST(DeliveredLaws, FocusNearerTheSubjectNeverLowers) {
  never_lower(9, [](Shot shot, Chance& chance) {
    const double before = shot.delivered();
    // A part of the way in 1/distance, in which the blur is straight on either side of the subject.
    const double now = 1 / shot.get(Input::kFocus), best = 1 / shot.depth();
    shot.set(Input::kFocus, 1 / (now + chance.between(0, 1) * (best - now)));
    return std::pair{before, shot.delivered()};
  });
}

TEST(DeliveredLaws, LessSwayNeverLowers) {
  never_lower(10, [](Shot shot, Chance& chance) {
    const double before = shot.delivered();
    shot.camera.sway_rate *= chance.between(0, 1);
    return std::pair{before, shot.delivered()};
  });
  better_never_lowers(20, Input::kSway, 0);
}

TEST(DeliveredLaws, ThinnerAndDarkerVeilNeverLowers) {
  never_lower(11, [](Shot shot, Chance& chance) {
    const double before = shot.delivered();
    shot.passed += chance.between(0, 1) * (1 - shot.passed);
    return std::pair{before, shot.delivered()};
  });
  better_never_lowers(12, Input::kVeilLuminance, 0);
}

TEST(DeliveredLaws, LeftAndRightAreAlike) {
  Chance chance{13};
  const auto mirrored = [](Vec3 v) { return Vec3{-v.x, v.y, v.z}; };
  for (int i = 0; i < 1000; ++i) {
    Shot shot = random_shot(chance);
    const auto at = image_point(shot.projector, shot.subject.ray);
    ASSERT_TRUE(at) << "seed 13 case " << i;
    const double before = shot.delivered();
    Subject& s = shot.subject;
    s = {mirrored(s.ray), mirrored(s.across), mirrored(s.up), mirrored(s.motion)};
    const auto other = image_point(shot.projector, s.ray);
    ASSERT_TRUE(other);
    EXPECT_NEAR(at->u + other->u, 2 * shot.projector.centre_u(), 1e-8) << "seed 13 case " << i;
    EXPECT_NEAR(at->v, other->v, 1e-8) << "seed 13 case " << i;
    EXPECT_NEAR(shot.delivered(), before, kRounding * before) << "seed 13 case " << i;
  }
}

TEST(ProjectionLaws, DensityIsTheLimitOfSmallerAndSmallerTargets) {
  Chance chance{14};
  for (int i = 0; i < 300; ++i) {
    const Shot shot = random_shot(chance);
    const Vec3 at = shot.distance * shot.subject.ray;
    const double stated = surface_density(jacobian(shot.projector, at), shot.subject.across, shot.subject.up).across;
    const auto measured = [&](double size) {
      const auto a = image_point(shot.projector, at + (-size / 2) * shot.subject.across);
      const auto b = image_point(shot.projector, at + (size / 2) * shot.subject.across);
      EXPECT_TRUE(a && b) << "seed 14 case " << i;
      return std::hypot(b->u - a->u, b->v - a->v) / size;
    };
    // The error of a target of a size falls with the square of the size.
    const double size = 0.01 * at.z;
    const double coarse = std::abs(measured(size) - stated), fine = std::abs(measured(size / 4) - stated);
    EXPECT_LE(fine, coarse / 8 + 1e-6 * stated) << "seed 14 case " << i;
    EXPECT_LE(fine, 1e-3 * shot.projector.focal_px / at.z) << "seed 14 case " << i;
  }
}

TEST(DeliveredLaws, AnswersDoNotDependOnWhoAsks) {
  Chance chance{15};
  const Shot shot = random_shot(chance);
  std::vector<Seen> seen;
  for (int i = 0; i < 4000; ++i)
    seen.push_back({.density = chance.scale(1, 2000),
                    .depth = chance.scale(0.1, 500),
                    .motion_density = chance.scale(1, 2000),
                    .passed = chance.between(0, 1),
                    .others = chance.scale(1, 1e7)});
  const Values values{shot.values};
  std::vector<double> once(seen.size());
  detail::delivered(shot.camera, seen, values, once);
  std::vector<std::vector<double>> answers(4, std::vector<double>(seen.size()));
  std::vector<std::thread> threads;
  for (auto& answer : answers) threads.emplace_back([&] { detail::delivered(shot.camera, seen, values, answer); });
  for (std::thread& thread : threads) thread.join();
  for (const auto& answer : answers) EXPECT_EQ(answer, once) << "to the last bit, seed 15";
}

/// A lens of a sheet at a share of its range.
void expect_sound(const camera::Sheet& sheet, double share) {
  const Length focal = sheet.focal.wide + share * (sheet.focal.tele - sheet.focal.wide);
  const Projector p = lens_at(sheet, {.focal = focal}).projector;
  int rays = 0;
  for (int i = 0; i <= 40; ++i)
    for (int j = 0; j <= 30; ++j) {
      const geom::ImagePoint at{-0.5 + p.columns * i / 40.0, -0.5 + p.rows * j / 30.0};
      const auto ray = ray_camera(p, at);
      if (!ray) continue;
      ++rays;
      const auto back = image_point(p, 10.0 * *ray);
      ASSERT_TRUE(back) << sheet.name << ' ' << at.u << ' ' << at.v;
      EXPECT_LT(std::hypot(back->u - at.u, back->v - at.v), camera::kRoundTripError.si()) << sheet.name;
    }
  const bool round = sheet.view && sheet.view->wide >= 150.0 * deg;
  EXPECT_GE(rays, round ? 700 : 41 * 31) << sheet.name << ": only a fisheye's corners may be black";
  const auto view = stated_view(sheet, focal);
  if (view && !round) {
    EXPECT_NEAR(horizontal_view(p).in(deg), view->in(deg), 1e-6) << sheet.name << " at " << focal.in(mm) << " mm";
  }
}

TEST(ProjectionLaws, EverySheetOfTheCatalogueGoesThereAndBack) {
  int sheets = 0;
  for (const auto& entry : std::filesystem::directory_iterator{std::string{SIGHTFALL_SOURCE_DIR} + "/data/sheets"}) {
    if (entry.path().extension() != ".json") continue;
    const auto sheet = file::load_sheet(entry.path().string());
    ASSERT_TRUE(sheet) << to_line(sheet.error().front());
    for (const double share : {0.0, 0.35, 1.0}) expect_sound(*sheet, share);
    ++sheets;
  }
  EXPECT_GE(sheets, 14);
}

}  // namespace
}  // namespace sightfall
