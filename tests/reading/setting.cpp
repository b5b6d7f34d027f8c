// SPDX-License-Identifier: GPL-3.0-or-later
#include "setting.h"

namespace sightfall::reading {

using detail::Input;

Setting::Setting(double density) {
  constexpr double kAmple = 1e5;  // electrons a second: 1000 in 1/100 s
  constexpr double kDepth = 20;   // m
  seen.density = seen.motion_density = density;
  seen.depth = kDepth;
  seen.others = kAmple;
  camera.focal = 6e-3;
  camera.pitch = 2e-6;
  set(Input::kContrast, 0.85);
  set(Input::kLensBlur, 0.55);
  set(Input::kFNumber, 1.6);
  set(Input::kFocus, kDepth);
  set(Input::kShutter, 0.01);
  set(Input::kReadNoise, 2.5);
  set(Input::kFullWell, 8000);
  set(Input::kTarget, 0.18);
  set(Input::kThreshold, Thresholds{}.contrast);
  set(Input::kNoiseThreshold, Thresholds{}.noise);
  constexpr double kGain = 16;  // 24 dB
  set(Input::kGain, kGain);
  for (const Input factor : {Input::kDensityFactor, Input::kSensitivity, Input::kReflectance, Input::kInfrared,
                             Input::kScatter, Input::kFlare, Input::kGlass, Input::kQuantiser})
    set(factor, 1);
}

detail::CameraConstants camera_in_light(const Setting& setting) {
  detail::CameraConstants camera = setting.camera;
  const std::array frame{detail::MeterPixel{setting.seen.others + setting.seen.path + setting.seen.glare, 0}};
  camera.metering = detail::Metering{frame};
  return camera;
}

double delivered(const Setting& setting, const Thresholds& thresholds) {
  Setting judged = setting;
  judged.set(Input::kThreshold, thresholds.contrast);
  judged.set(Input::kNoiseThreshold, thresholds.noise);
  return detail::delivered(camera_in_light(judged), judged.seen, detail::Values{judged.inputs});
}

}  // namespace sightfall::reading
