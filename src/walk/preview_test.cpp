// SPDX-License-Identifier: GPL-3.0-or-later
// A preview against the whole picture made smaller: the same view, exposure, brightness and noise.
#include "walk/preview.h"

#include <gtest/gtest.h>

#include <cmath>

#include "detail/exposure.h"
#include "walk/shoot.h"
#include "walk/test_yard.h"

namespace sightfall::walk {
namespace {

need::Station in_yard(const Yard& yard, const need::Station& station) {
  const need::Lit lit{yard.project, yard.condition};
  return need::in_condition(station, lit.lighting());
}

Shot shot_of(const Yard& yard, const need::Station& station, const need::Lighting& lighting) {
  need::Need need;
  need.speed = Speed{0};
  need.facing = need::Facing::kCamera;
  const std::vector<need::Sample> samples{{{0.5, 6, 1.6}, {0, -1}, 0, 0}};
  const auto view = need::view_of(station, lighting, need, samples, need::light_on(lighting, samples)).front();
  return {&station, detail::nominal(need::subject_inputs(station, need, yard.project.settings.typical)), view.seen};
}

TEST(Preview, HasTheSameViewWithFewerPixels) {
  const Yard yard{640, 480};
  const need::Station small = preview_of(yard.station, 160);
  EXPECT_EQ(small.lens.projector.columns, 160);
  EXPECT_EQ(small.lens.projector.rows, 120);
  EXPECT_NEAR(camera::horizontal_view(small.lens.projector).si(),
              camera::horizontal_view(yard.station.lens.projector).si(), 1e-9);
  EXPECT_NEAR(camera::vertical_view(small.lens.projector).si(), camera::vertical_view(yard.station.lens.projector).si(),
              1e-9);
  EXPECT_EQ(preview_of(yard.station, 640).lens.projector.columns, 640) << "never more than there are";
}

TEST(Preview, IsTheWholePictureMadeSmaller) {
  Yard yard{640, 480};
  yard.project.settings.typical.read_noise = need::exactly(3, "read noise");
  yard.project.settings.typical.full_well = need::exactly(4000, "full well");
  const need::Station plain = need::station_of(yard.project, yard.project.cameras.front());
  const need::Station large = in_yard(yard, plain), small = in_yard(yard, preview_of(plain, 160));
  const Stage whole{yard.project, yard.condition, large, Yard::walker_at(0.5, 6)};
  const Stage less{yard.project, yard.condition, small, Yard::walker_at(0.5, 6)};
  const Shot shot = shot_of(yard, large, whole.lighting()), preview = shot_of(yard, small, less.lighting());
  const auto exposed = detail::exposed(large.constants, shot.seen, shot.values);
  const auto exposed_small = detail::exposed(small.constants, preview.seen, preview.values);
  EXPECT_NEAR(exposed_small.time / exposed.time, 1, 0.02);
  EXPECT_NEAR(exposed_small.gain / exposed.gain, 1, 0.02);
  EXPECT_NEAR(exposed_small.power / exposed.power, 1, 0.02);

  const auto mean_of = [](const Stage& stage, const Shot& s, double power) {
    const Cutout cut = cast_subject(stage, *s.station, power, 4);
    return expose_picture(cast_background(stage, *s.station, power, {}), cut, s);
  };
  const Exposure a = mean_of(whole, shot, exposed.power), b = mean_of(less, preview, exposed_small.power);
  const Plane noisy = electrons(a, shot), noisy_small = electrons(b, preview);
  double differ = 0, spread = 0, spread_small = 0;
  int count = 0;
  for (int row = 1; row < 119; ++row)
    for (int column = 1; column < 159; ++column) {
      double sum = 0, sum_noisy = 0;
      for (int y = 0; y < 4; ++y)
        for (int x = 0; x < 4; ++x) {
          sum += static_cast<double>(a.mean.at[a.mean.index(4 * column + x, 4 * row + y)]);
          sum_noisy += static_cast<double>(noisy.at[noisy.index(4 * column + x, 4 * row + y)]);
        }
      const size_t at = b.mean.index(column, row);
      const auto is = static_cast<double>(b.mean.at[at]);
      differ += std::abs(is / sum - 1);
      if (sum < 16 * 20 || sum > 0.7 * 16 * a.full_scale) continue;  // where neither end cuts the noise
      spread += std::pow(sum_noisy - sum, 2);
      spread_small += std::pow(static_cast<double>(noisy_small.at[at]) - is, 2);
      ++count;
    }
  EXPECT_LT(differ / (118 * 158), 0.03);
  ASSERT_GT(count, 2000);
  EXPECT_NEAR(spread_small / spread, 1, 0.1);
}

}  // namespace
}  // namespace sightfall::walk
