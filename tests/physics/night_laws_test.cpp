// SPDX-License-Identifier: GPL-3.0-or-later
// Laws of the light for random sites, cameras, hours and weathers: nothing negative or not a number, detail within the
// density, what falls with the square of the distance, who asks does not matter.
#include <gtest/gtest.h>

#include <cmath>
#include <map>

#include "detail/test_ample.h"
#include "light/ephemeris.h"
#include "need/frame.h"
#include "need/illumination.h"
#include "need/trial.h"
#include "random_project.h"

namespace sightfall::need {
namespace {

using namespace units;
using physics::Chance;
using physics::random_project;

std::string seed_and_case(unsigned seed, int i) {
  return "seed " + std::to_string(seed) + " case " + std::to_string(i);
}

site::Lamp random_lamp(Chance& chance, int i) {
  site::Lamp lamp;
  lamp.name = "lamp " + std::to_string(i);
  lamp.at = physics::plan_point(chance, 28);
  lamp.height = Length{chance.between(2, 8)};
  lamp.heading = Angle{chance.between(0, 6)};
  lamp.tilt = Angle{chance.between(0, 1.57)};
  lamp.burns = chance.heads() ? site::Burns::kAlways : site::Burns::kAfterDark;
  if (chance.heads()) {
    lamp.light = chance.heads() ? site::LampLight::kInfrared850 : site::LampLight::kInfrared940;
    lamp.draw = Power{chance.scale(1, 100)};
  } else {
    lamp.light = static_cast<site::LampLight>(chance.between(0, 2.999));
    lamp.lumens = LuminousFlux{chance.scale(100, 20000)};
  }
  if (chance.heads()) lamp.beam = Angle{chance.between(0.2, 2.5)};
  return lamp;
}

site::Condition random_condition(Chance& chance) {
  site::Condition condition;
  condition.name = "when";
  condition.air = static_cast<site::AirKind>(chance.between(0, 3.999));
  if (chance.heads()) condition.visibility = Length{chance.scale(20, 50000)};
  if (chance.heads()) {
    condition.light = static_cast<site::NamedLight>(chance.between(0, 5.999));
  } else {
    condition.when = site::ClockTime{};
    condition.julian_day = light::julian_day(2026, 1, 1, chance.between(0, 24 * 365));
    condition.weather = static_cast<site::Weather>(chance.between(0, 2.999));
  }
  return condition;
}

Project random_night(Chance& chance) {
  Project project = random_project(chance);
  project.site.anchor = site::Anchor{.latitude = Angle{chance.between(-1.5, 1.5)},
                                     .longitude = Angle{chance.between(-3, 3)},
                                     .turn = Angle{chance.between(-3, 3)}};
  for (int i = 0; i < 3; ++i) project.site.lamps.push_back(random_lamp(chance, i));
  for (camera::Sheet& sheet : project.catalogue)
    if (chance.heads()) {
      sheet.infrared = camera::Infrared{};
      sheet.infrared->adaptive = chance.heads();
      if (chance.heads()) sheet.infrared->wavelength = 940 * nm;
      sheet.power.largest = Power{chance.scale(3, 30)};
      sheet.wide_dynamic_range = chance.heads();
      sheet.infrared->shared_glass = chance.heads();
      if (chance.heads()) sheet.iris = camera::Iris::kAutomatic;
    }
  project.conditions = {random_condition(chance)};
  return project;
}

TEST(NightLaws, AnyHourAndWeatherGivesFiniteDetailWithinTheDensity) {
  constexpr unsigned kSeed = 51;
  Chance chance{kSeed};
  int seen = 0, delivering = 0;
  for (int i = 0; i < 150; ++i) {
    const Project project = random_night(chance);
    const site::Scene scene{project.site, site::Leaves::kOn};
    std::vector<Station> stations;
    for (const camera::Camera& camera : project.cameras) stations.push_back(station_of(project, camera));
    const Lighting lighting = with_cameras(Lighting{project, scene, project.conditions.front()}, stations);
    const auto samples = samples_of(project, project.needs.front(), 24);
    const auto lights = light_on(lighting, samples);
    for (const camera::Camera& camera : project.cameras) {
      const Station station = in_condition(station_of(project, camera), lighting);
      const detail::RangedInputs inputs = subject_inputs(station, project.needs.front(), project.settings.typical);
      for (const SampleView& view : view_of(station, lighting, project.needs.front(), samples, lights)) {
        if (view.gate != detail::Limit::kNone) continue;
        for (const double rate :
             {view.seen.others, view.seen.own, view.seen.path, view.seen.own_path, view.seen.own_glass,
              view.seen.flicker, view.seen.glare, view.seen.cover, view.seen.air}) {
          ASSERT_TRUE(std::isfinite(rate)) << seed_and_case(kSeed, i);
          ASSERT_GE(rate, 0) << seed_and_case(kSeed, i);
        }
        const detail::DeliveredRange range =
            detail::delivered_range(station.constants, view.seen, detail::RangedValues{inputs});
        for (const double value : {range.value.low, range.value.nominal, range.value.high}) {
          ASSERT_TRUE(std::isfinite(value)) << seed_and_case(kSeed, i);
          ASSERT_GE(value, 0) << seed_and_case(kSeed, i);
          ASSERT_LE(value, 1.1 * view.seen.density) << seed_and_case(kSeed, i);
        }
        ++seen;
        delivering += range.value.nominal > 0 ? 1 : 0;
      }
    }
  }
  EXPECT_GT(seen, 500);
  EXPECT_GT(delivering, 100);
}

TEST(NightLaws, VerdictsAreTheSameWhoeverAsksAndWhenever) {
  constexpr unsigned kSeed = 52;
  Chance chance{kSeed};
  for (int i = 0; i < 10; ++i) {
    const Project project = random_night(chance);
    const site::Scene scene{project.site, site::Leaves::kOn};
    const Lighting lighting{project, scene, project.conditions.front()};
    std::vector<Station> stations;
    for (const camera::Camera& camera : project.cameras) stations.push_back(station_of(project, camera));
    const Trial trial{{&project, &lighting, "when"}, project.needs.front(), in_condition(stations, lighting), 64};
    const Judgement once = trial.judge(), again = trial.judge();
    EXPECT_EQ(once.share, again.share) << seed_and_case(kSeed, i);
    EXPECT_EQ(once.answer, again.answer) << seed_and_case(kSeed, i);
    EXPECT_EQ((Replacing{trial, 0, stations[0]}.nominal_share()), trial.nominal_share()) << seed_and_case(kSeed, i);
  }
}

TEST(NightLaws, WhatAChangeMayBringIsNoLessThanWhatItBrings) {
  constexpr unsigned kSeed = 53;
  Chance chance{kSeed};
  for (int i = 0; i < 20; ++i) {
    const Project project = random_night(chance);
    const site::Scene scene{project.site, site::Leaves::kOn};
    const Lighting lighting{project, scene, project.conditions.front()};
    const std::vector<Station> stations = stations_of(project);
    const Trial trial{{&project, &lighting, "when"}, project.needs.front(), in_condition(stations, lighting), 64};
    camera::Camera turned = project.cameras.front();
    turned.heading = turned.heading + Angle{chance.between(-0.3, 0.3)};
    Replacing replacing{trial, 0, station_of(project, turned)};
    EXPECT_GE(replacing.most_share(), replacing.nominal_share()) << seed_and_case(kSeed, i);
    EXPECT_LE(replacing.most_share(), 1) << seed_and_case(kSeed, i);
  }
}

TEST(NightLaws, AnAnswerOnItsOwnIsTheJudgements) {
  constexpr unsigned kSeed = 54;
  Chance chance{kSeed};
  std::map<Answer, int> count;
  for (int i = 0; i < 60; ++i) {
    Project project = random_night(chance);
    project.needs.front().share = chance.between(0, 0.3);
    const site::Scene scene{project.site, site::Leaves::kOn};
    const Lighting lighting{project, scene, project.conditions.front()};
    const std::vector<Station> stations = in_condition(stations_of(project), lighting);
    const auto fresh = [&] { return Trial{{&project, &lighting, "when"}, project.needs.front(), stations, 64}; };
    const Answer answer = fresh().answer();
    EXPECT_EQ(answer, fresh().judge().answer) << seed_and_case(kSeed, i);
    ++count[answer];
    const double share = fresh().nominal_share(), bound = fresh().nominal_share(0.5);
    EXPECT_EQ(bound < 0.5, share < 0.5) << seed_and_case(kSeed, i);
    EXPECT_GE(bound, share) << seed_and_case(kSeed, i);
  }
  for (const Answer one : {Answer::kMet, Answer::kMarginal, Answer::kMissed}) EXPECT_GT(count[one], 3) << in_words(one);
}

TEST(NightLaws, ALampsLightFallsWithTheSquareOfTheDistance) {
  constexpr unsigned kSeed = 53;
  Chance chance{kSeed};
  for (int i = 0; i < 200; ++i) {
    Project project;
    project.settings.typical = file::default_typical();
    project.site.lamps = {random_lamp(chance, i)};
    project.site.lamps.front().burns = site::Burns::kAlways;
    project.site.lamps.front().height = Length{200};  // the ground plays no part
    site::Condition night;
    night.light = site::NamedLight::kDarkNight;
    night.visibility = Length{2e5};
    const site::Scene scene{project.site, site::Leaves::kOn};
    const Lighting lighting{project, scene, night};
    const geom::SitePoint lamp = lighting.lamps().front().pose.eye_site;
    const geom::Vec3 way = chance.direction();
    const double near = chance.between(1, 10);
    const geom::SitePoint first = lamp + near * way, second = lamp + 2 * near * way;
    const auto one = lighting.at({&first, 1}, 4).front(), two = lighting.at({&second, 1}, 4).front();
    ASSERT_EQ(one.direct.size(), two.direct.size()) << seed_and_case(kSeed, i);
    for (const light::Band band : light::kBands) {
      if (one.direct.empty() || one.direct[0].normal[band] <= 0) continue;
      EXPECT_NEAR(one.direct[0].normal[band] / two.direct[0].normal[band], 4, 0.01) << seed_and_case(kSeed, i);
    }
  }
}

TEST(NightLaws, MoreInfraredNeverLowersDetailAtTheSameExposureUnlessItClips) {
  constexpr unsigned kSeed = 54;
  Chance chance{kSeed};
  int raised = 0;
  for (int i = 0; i < 2000; ++i) {
    detail::CameraConstants camera{chance.scale(2e-3, 3e-2), chance.scale(1e-6, 4e-6)};
    detail::Seen seen{.density = chance.scale(20, 1000), .depth = 20, .area = chance.between(1, 2)};
    seen.own = chance.scale(10, 1e5);
    seen.own_path = chance.heads() ? 0 : seen.own * chance.between(0, 1);
    std::array<double, detail::kInputCount> v{};
    detail::set_ample_light(v);
    const auto set = [&](detail::Input input, double value) { v[static_cast<size_t>(input)] = value; };
    set(detail::Input::kThreshold, 0.2);
    set(detail::Input::kContrast, chance.between(0.3, 1));
    set(detail::Input::kLensBlur, 0.5);
    set(detail::Input::kFNumber, 1.6);
    set(detail::Input::kDensityFactor, 1);
    set(detail::Input::kFocus, 20);
    set(detail::Input::kShutter, 0.04);
    camera.smear = chance.heads() ? 0 : 0.5;
    const detail::Values values{v};
    const double before = detail::delivered(camera, seen, values);
    const double after = detail::delivered(camera, seen, values.with(detail::Input::kInfrared, chance.scale(1, 30)));
    ASSERT_GE(after, before * (1 - 1e-4)) << seed_and_case(kSeed, i);
    raised += after > before * 1.001 ? 1 : 0;
  }
  EXPECT_GT(raised, 200);
}

}  // namespace
}  // namespace sightfall::need
