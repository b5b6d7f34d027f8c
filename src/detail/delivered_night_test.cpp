// SPDX-License-Identifier: GPL-3.0-or-later
// Delivered detail after dark: noise, clipping, mist, wide dynamic range, lamps that swing, the iris.
#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "detail/test_plain.h"
#include "detail/transfer.h"

namespace sightfall::detail {
namespace {

/// A camera after dark with its own infrared: figures that give answers by pencil.
struct Night {
  CameraConstants camera = kCamera;
  Seen seen = kSeen;
  Values values = Values{plain_values()}
                      .with(Input::kFullWell, 10000)
                      .with(Input::kGain, 50)
                      .with(Input::kShutter, 0.04)
                      .with(Input::kSpeed, 0)
                      .with(Input::kGlare, 0);
  explicit Night(double own) {
    seen.others = 0;
    seen.own = own;
    seen.cover = 0.05;
    camera.shutter_fixed = false;
    const std::vector<MeterPixel> dark(16, MeterPixel{0, 1});
    camera.metering = Metering{dark};
  }
  double delivered() const { return detail::delivered(camera, seen, values); }
};

TEST(DeliveredAtNight, NoiseTestIsRosesOverABar) {
  const Night night{75};  // 3 electrons in the 1/25 s that a dark frame leads to
  const Signal s = signal_of(night.camera, night.seen, night.values);
  EXPECT_NEAR(s.subject, 3, 1e-9);
  EXPECT_NEAR(s.exposed.gain, 50, 1e-9);
  EXPECT_NEAR(s.deviation * s.deviation, 3 + 4 + std::pow(200 * 2 * std::sqrt(3 / 200.0) / 255, 2) / 12, 1e-9);
  // Where the answer is set by noise, 2 C' (mu / sigma) sqrt(7 / (4 x^2)) is the threshold itself.
  const double x = night.delivered() / 150 * night.values.reference();
  const double modulation =
      0.75 * sinc_transfer(1, x) * gaussian_transfer(0.55, x) * diffraction_transfer(550e-9 * 1.6 / 2e-6, x);
  EXPECT_NEAR(2 * modulation * 3 / s.deviation * std::sqrt(7.0 / 4) / x, 4, 1e-3);
  EXPECT_EQ(limit_of(night.camera, night.seen, night.values), Limit::kNoise);
}

TEST(DeliveredAtNight, OfAFaceTheMiddleTonesBurnOutBeforeTheDarkOfABar) {
  Night bars{6500}, face{6500};  // 260 electrons in 1/25 s, where 200 are full scale at the largest gain
  face.seen.shaded = true;
  EXPECT_LT(face.delivered(), 0.8 * bars.delivered());
  EXPECT_GT(face.delivered(), 0);
  EXPECT_EQ(limit_of(face.camera, face.seen, face.values), Limit::kClipping);
  Night dimmer{2000}, dim{2000};  // 140 electrons at the brightest
  dim.seen.shaded = true;
  EXPECT_NEAR(dim.delivered(), dimmer.delivered(), 1e-9 * dim.delivered()) << "nothing clips";
}

TEST(DeliveredAtNight, AFaceTooNearTheLampBurnsOutAndAdaptivePowerBringsItBack) {
  Night near{20000};  // 800 electrons in 1/25 s, where 200 are full scale at the largest gain
  EXPECT_EQ(near.delivered(), 0);
  EXPECT_EQ(limit_of(near.camera, near.seen, near.values), Limit::kClipping);
  EXPECT_EQ(signal_of(near.camera, near.seen, near.values).clipped, 1);
  near.camera.limits.adaptive = true;
  EXPECT_GT(near.delivered(), 75);
  const Signal s = signal_of(near.camera, near.seen, near.values);
  EXPECT_LT(s.exposed.power, 0.2);
  EXPECT_NEAR(s.subject * 1.75, 200, 1e-6) << "its bright parts just reach full scale";
}

TEST(DeliveredAtNight, MistLaysItsLightOverTheSubject) {
  Night mist{20000};
  mist.camera.limits.adaptive = true;
  const double clear = mist.delivered();
  mist.seen.own_path = 10000;
  const double dim = mist.delivered();
  EXPECT_LT(dim, clear);
  mist.seen.own_path = 80000;  // contrast 0.75 / 5 is under the threshold
  EXPECT_EQ(mist.delivered(), 0);
  EXPECT_EQ(limit_of(mist.camera, mist.seen, mist.values), Limit::kAir);
}

TEST(DeliveredAtNight, WideDynamicRangeSavesWhatBurnsOut) {
  Night bright{0};
  bright.seen.others = 20000;
  EXPECT_EQ(bright.delivered(), 0);
  bright.camera.dynamic_ratio = 16;
  EXPECT_GT(bright.delivered(), 50);
  EXPECT_NEAR(signal_of(bright.camera, bright.seen, bright.values).subject, 50, 1e-9);
}

TEST(DeliveredAtNight, AveragedFramesHelpWhatStandsStill) {
  Night night{250};
  night.camera.averaged = 4;
  night.camera.frame_rate = 25;
  const double still = night.delivered();
  night.seen.motion_density = 150;
  night.values = night.values.with(Input::kSpeed, 1.4);
  EXPECT_GT(still, Night{250}.delivered());
  EXPECT_NEAR(signal_of(night.camera, night.seen, night.values).deviation,
              signal_of(Night{250}.camera, Night{250}.seen, Night{250}.values).deviation, 1e-9);
}

TEST(DeliveredAtNight, InfraredFocusShiftMovesThePlaneOfFocus) {
  Night night{20000};
  night.camera.limits.adaptive = true;
  const double sharp = night.delivered();
  night.camera.focus_shift = 20e-6;  // 20 um / 1.6 = 12.5 um of blur: 6 pixels
  EXPECT_LT(night.delivered(), 0.5 * sharp);
  EXPECT_EQ(limit_of(night.camera, night.seen, night.values), Limit::kFocus);
}

TEST(DeliveredAtNight, GlassBeforeLampAndLensLaysItsLightOverTheSubject) {
  Night dusty{20000};
  dusty.camera.limits.adaptive = true;
  const double clean = dusty.delivered();
  dusty.seen.own_glass = 10000;
  dusty.values = dusty.values.with(Input::kGlass, 1);
  EXPECT_LT(dusty.delivered(), clean);
  dusty.seen.own_glass = 80000;
  EXPECT_EQ(dusty.delivered(), 0);
  EXPECT_EQ(limit_of(dusty.camera, dusty.seen, dusty.values), Limit::kGlare);
}

TEST(DeliveredAtNight, MainsLampsSwingUnlessTheShutterAveragesThem) {
  Night lit{0};
  lit.seen.others = 5000;
  lit.seen.flicker = 0.5;
  lit.camera.flicker_rate = 100;
  const auto subject_at = [&](double shutter, double phase) {
    lit.camera.shutter_fixed = true;
    return signal_of(lit.camera, lit.seen, lit.values.with(Input::kShutter, shutter).with(Input::kFlicker, phase))
        .subject;
  };
  // |sinc(100 Hz * 1/400 s)| = sin(pi/4) / (pi/4).
  EXPECT_NEAR(subject_at(1.0 / 400, -1) / subject_at(1.0 / 400, 0), 1 - 0.5 * std::sqrt(0.5) / (M_PI / 4), 1e-9);
  EXPECT_NEAR(subject_at(1.0 / 400, 1) / subject_at(1.0 / 400, 0), 1 + 0.5 * std::sqrt(0.5) / (M_PI / 4), 1e-9);
  for (const double whole : {1.0 / 100, 1.0 / 50, 1.0 / 25})
    EXPECT_NEAR(subject_at(whole, -1), subject_at(whole, 1), 1e-9) << whole;
}

TEST(DeliveredAtNight, AnIrisThatClosesCostsSharpnessAndGivesDepth) {
  CameraConstants fixed = kCamera;
  fixed.shutter_fixed = false;
  CameraConstants automatic = fixed;
  automatic.limits.iris_range = 25;  // f/1.6 to f/8
  const Values still = Values{plain_values()}
                           .with(Input::kSpeed, 0)
                           .with(Input::kShutter, 0.04)
                           .with(Input::kFullWell, kAmpleRate / 1e3);
  EXPECT_LT(exposed(automatic, kSeen, still).iris, 1);
  EXPECT_LT(delivered(automatic, kSeen, still), delivered(fixed, kSeen, still)) << "diffraction";
  Seen near = kSeen;
  near.depth = 1;
  EXPECT_GT(delivered(automatic, near, still), delivered(fixed, near, still)) << "depth of field";
}

}  // namespace
}  // namespace sightfall::detail
