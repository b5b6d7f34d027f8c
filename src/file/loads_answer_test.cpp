// SPDX-License-Identifier: GPL-3.0-or-later
// The loads of the demo and of the example that uses every field, as JSON; and the rates that stand behind them.
#include "file/loads_answer.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <iterator>
#include <map>

#include "file/edit_tree.h"
#include "file/golden_test.h"
#include "file/project.h"
#include "need/lit_project.h"
#include "need/station.h"

namespace sightfall::file {
namespace {

using namespace units;
using ::testing::HasSubstr;

need::Project demo() {
  auto project = load_project((source_folder() / "demo" / "alder_lane.sightfall.json").string());
  EXPECT_TRUE(project.has_value());
  return project ? std::move(*project) : need::Project{};
}

TEST(LoadsAnswer, HasEachPartAtItsTop) {
  const need::Project project = demo();
  const std::string text = answer_text(project, loads::loads(project, {{}, true, false}));
  const auto value = parse_json(text, "t");
  ASSERT_TRUE(value.has_value());
  for (const char* part : {"power", "cable", "network", "storage", "mount", "overlook"})
    EXPECT_TRUE(find_member(*value, part) != nullptr) << part;
}

/// Real encodes (data/codec.json), H.264, bits a pixel at 1 and at 4 grey levels of noise: 0.01523 and 0.25117 at a
/// quality of 24, which is 16 times; 0.00687 and 0.01754 at 28, which is 2.6 times.
TEST(LoadsAnswer, AStreamThatHoldsAQualityGrowsWithTheNoiseAsItsEncodesDid) {
  const detail::CodecTable& h264 = *default_typical().codecs.front();
  EXPECT_NEAR(h264.bits_at_quality(24, 4) / h264.bits_at_quality(24, 1), 0.25117 / 0.01523, 0.01);
  EXPECT_NEAR(h264.bits_at_quality(28, 4) / h264.bits_at_quality(28, 1), 0.01754 / 0.00687, 0.01);
  need::Project project = demo();
  camera::Camera& camera = project.cameras.front();
  camera.stream = camera::Stream{camera::Codec::kH264, camera::RateControl::kFree, {}, 24.0};
  const camera::Sheet& sheet = need::the_named(project.catalogue, camera.sheet);
  const loads::StreamRate rate = loads::stream_rates(need::LitProject{project}, {}).front();
  const double frames = need::station_of(project, camera).frame_rate;
  const std::map<double, double> encodes{{0, 0.03254}, {1, 0.01523}, {2, 0.03448},
                                         {4, 0.25117}, {8, 0.94801}, {16, 1.43862}};
  for (const loads::RateInLight* light : {&rate.day, &rate.night}) {
    const double bits = light->rate.nominal.si() / (static_cast<double>(sheet.columns) * sheet.rows * frames);
    const auto above = encodes.upper_bound(std::min(light->noise, 15.9));
    const auto [least, most] = std::minmax(std::prev(above)->second, above->second);
    EXPECT_GE(bits, 0.999 * least) << light->condition << ", noise " << light->noise;
    EXPECT_LE(bits, 1.001 * most) << light->condition << ", noise " << light->noise;
  }
}

/// A stream that holds a quality grows more than tenfold as the noise goes from one to four grey levels (encodes of
/// data/codec.json); one that is capped stays at its ceiling, and says so.
TEST(LoadsAnswer, NoiseMakesAnUncappedStreamManyTimesAsLarge) {
  const detail::CodecTable& h264 = *default_typical().codecs.front();
  EXPECT_GT(h264.bits_at_quality(24, 4) / h264.bits_at_quality(24, 1), 10);
  need::Project project = demo();
  for (camera::Sheet& sheet : project.catalogue)
    if (sheet.name == "Medlar medium 8 MP") sheet.stream.reset();  // the yard's, and no other camera's
  for (const loads::StreamRate& rate : loads::stream_rates(need::LitProject{project}, {})) {
    EXPECT_EQ(rate.assumed, rate.camera == "yard");
    EXPECT_EQ(rate.day.condition, "summer day");
    EXPECT_EQ(rate.night.condition, "December evening");
    EXPECT_GT(rate.night.noise, rate.day.noise) << rate.camera;
    if (rate.assumed) {
      EXPECT_GT(rate.night.rate.nominal, 2 * rate.day.rate.nominal) << rate.camera;
    } else {
      EXPECT_TRUE(rate.night.at_ceiling) << rate.camera;
      EXPECT_EQ(rate.night.rate.nominal, *rate.stream.rate);
    }
  }
}

TEST(LoadsAnswer, AMeasuredRateStandsInForTheForecast) {
  const need::Project project = demo();
  const auto rates = loads::stream_rates(need::LitProject{project}, {{"yard", true, 6.0 * (Mbit / s), {}}});
  for (const loads::StreamRate& rate : rates) {
    EXPECT_EQ(rate.night.measured, rate.camera == "yard");
    EXPECT_FALSE(rate.day.measured);
    if (rate.night.measured) {
      EXPECT_EQ(rate.night.rate.high, 6.0 * (Mbit / s));
    }
  }
}

/// A forecast by night that is at its ceiling; a clip's rate is what it is, in the condition of the clip.
TEST(LoadsAnswer, AMeasuredRateIsNotAtTheForecastsCeiling) {
  need::Project project = demo();
  site::Condition fog;
  fog.name = "fog", fog.light = site::NamedLight::kDarkNight, fog.visibility = 60.0 * m;
  project.conditions.push_back(fog);
  const auto rates = loads::stream_rates(need::LitProject{project}, {});
  const auto capped = std::find_if(rates.begin(), rates.end(), [](const auto& one) { return one.night.at_ceiling; });
  ASSERT_NE(capped, rates.end());
  const auto night = [&](const std::string& condition) {
    const auto measured =
        loads::stream_rates(need::LitProject{project}, {{capped->camera, true, 6.0 * (Mbit / s), condition}});
    return measured[static_cast<size_t>(capped - rates.begin())].night;
  };
  EXPECT_FALSE(night("fog").at_ceiling);
  EXPECT_EQ(night("fog").condition, "fog");
  EXPECT_EQ(night("").condition, "December evening");
}

/// Lamps that burn after dark do not burn in the dark night, but it is one.
TEST(LoadsAnswer, TheDarkNightIsOfTheNight) {
  need::Project project = demo();
  site::Condition black;
  black.name = "power cut", black.light = site::NamedLight::kDarkNight;
  project.conditions.insert(project.conditions.begin(), black);
  EXPECT_TRUE(loads::by_night(project, black));
  const auto rates = loads::stream_rates(need::LitProject{project}, {});
  EXPECT_EQ(rates.front().day.condition, "summer day");
  EXPECT_EQ(rates.front().night.condition, "power cut");
}

TEST(LoadsAnswer, AConstantRateIsWhatIsStated) {
  need::Project project = demo();
  project.cameras.front().stream =
      camera::Stream{camera::Codec::kH264, camera::RateControl::kConstant, 8.0 * (Mbit / s), {}};
  const auto rate = loads::stream_rates(need::LitProject{project}, {}).front();
  EXPECT_EQ(rate.day.rate.nominal, 8.0 * (Mbit / s));
  EXPECT_NEAR(rate.night.rate.high.in(Mbit / s), 8.4, 1e-9);
}

}  // namespace
}  // namespace sightfall::file
