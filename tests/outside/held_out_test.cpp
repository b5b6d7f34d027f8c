// SPDX-License-Identifier: GPL-3.0-or-later
// Settings that nothing was fixed on, rendered and measured after their prediction was written down: docs/held_out.md.
#include <gtest/gtest.h>

#include <string>

#include "held_out_settings.h"
#include "picture_measure.h"

namespace sightfall::walk {
namespace {

using detail::Input;

class HeldOutSetting : public testing::TestWithParam<HeldOut> {
 protected:
  HeldOutSetting() {
    GetParam().apply(setting_);
    setting_.finish();
  }

  double on_picture() const {
    const double least = setting_.get(Input::kThreshold), rose = setting_.get(Input::kNoiseThreshold);
    return resolved_in_steps(0.04, 1.02, [&](double frequency) {
      const MeasuredBars m = measured_bars(setting_, frequency);
      return m.contrast() >= least && m.ratio(frequency) >= rose;
    });
  }
  double in_stream() const {
    const auto codec = static_cast<size_t>(GetParam().codec);
    Setting sent = setting_;
    sent.set(Input::kQuantiser, 1);                  // the encoder's own step
    const double from = 0.9 * GetParam().predicted;  // since encoding takes long
    return resolved_in_steps(from, 1.03, [&](double frequency) {
      return contrast_in_stream(sent, codec, frequency) >= setting_.get(Input::kThreshold);
    });
  }

  Setting setting_;
};

TEST_P(HeldOutSetting, IsMeasuredAsPredicted) {
  const double predicted = GetParam().predicted;
  EXPECT_NEAR(resolved_by_kernel(setting_), predicted, 1e-4) << "the kernel still says what was written down";
  const double measured = GetParam().codec < 0 ? on_picture() : in_stream();
  RecordProperty("measured", std::to_string(measured));
  EXPECT_NEAR(measured / predicted, 1, 0.10) << measured << " measured, " << predicted << " predicted";
}

INSTANTIATE_TEST_SUITE_P(Bars, HeldOutSetting, testing::ValuesIn(kHeldOut),
                         [](const auto& info) { return std::string{info.param.name}; });

}  // namespace
}  // namespace sightfall::walk
