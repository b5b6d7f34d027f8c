// SPDX-License-Identifier: GPL-3.0-or-later
// Settings that no other test has, and the resolved frequency that the kernel told for each before any was rendered.
//   Source   invented; `predicted` in cycles a pixel by resolved_by_kernel, written down and committed first
#pragma once
#include <array>
#include <functional>

#include "file/project.h"
#include "picture_setting.h"

namespace sightfall::walk {

struct HeldOut {
  const char* name;
  std::function<void(Setting&)> apply;
  double predicted = 0;
  int codec = -1;  // of data/codec.json; none: free of a stream
};

inline void stream(Setting& s, size_t codec, double bits_per_pixel) {
  s.station.constants.codec = file::default_typical().codecs.at(codec);
  s.station.constants.bits_per_pixel = bits_per_pixel;
  s.set(detail::Input::kQuantiser, 1 / detail::kSpread);  // bars: the table's own step
}

/// Light in electrons of one exposure.
inline void light(Setting& s, double electrons) { s.seen.others = electrons / s.get(detail::Input::kShutter); }

inline const std::array<HeldOut, 8> kHeldOut{{
    {"day_small_pixels_closed_iris",
     [](Setting& s) {
       s.station.constants.pitch = 1.45e-6;
       s.set(detail::Input::kFNumber, 4);
       s.set(detail::Input::kLensBlur, 0.95);
       s.set(detail::Input::kContrast, 0.6);
     },
     0.1847},
    {"day_long_lens_too_near",
     [](Setting& s) {
       s.station.constants.focal = 9e-3;
       s.set(detail::Input::kFocus, 30);
       s.set(detail::Input::kFNumber, 1.8);
       s.set(detail::Input::kContrast, 0.7);
       s.set(detail::Input::kLensBlur, 0.6);
       s.seen.depth = 5.5;
     },
     0.2132},
    {"dusk_walker_noise_reduction",
     [](Setting& s) {
       s.set(detail::Input::kShutter, 1.0 / 60);
       s.set(detail::Input::kSpeed, 1.1);
       s.set(detail::Input::kContrast, 0.5);
       s.seen.motion_density = 120;
       s.station.constants.smear = 0.7;
       light(s, 60);
     },
     0.1709},
    {"night_noise_high_gain",
     [](Setting& s) {
       s.set(detail::Input::kShutter, 0.04);
       s.set(detail::Input::kGain, 16);
       s.set(detail::Input::kReadNoise, 3.2);
       s.set(detail::Input::kFullWell, 6000);
       s.set(detail::Input::kNoiseThreshold, 6);
       s.set(detail::Input::kContrast, 0.5);
       light(s, 4);
     },
     0.1529},
    {"day_fog_and_stray_light",
     [](Setting& s) {
       s.set(detail::Input::kContrast, 0.85);
       s.set(detail::Input::kGlare, 0.3);
       s.set(detail::Input::kLensBlur, 0.7);
       light(s, 700);
       s.path = 0.9 * s.seen.others;
     },
     0.1942},
    {"night_burnt_out_and_soft",
     [](Setting& s) {
       s.set(detail::Input::kShutter, 0.02);
       s.set(detail::Input::kContrast, 0.8);
       s.set(detail::Input::kLensBlur, 1.1);
       light(s, 13000);
     },
     0.0986},
    {"day_stream_h264",
     [](Setting& s) {
       s.set(detail::Input::kFullWell, 5000);
       s.set(detail::Input::kContrast, 0.55);
       light(s, 500);
       stream(s, 0, 0.008);
     },
     0.2173, 0},
    {"dusk_stream_h265_and_focus",
     [](Setting& s) {
       s.set(detail::Input::kFullWell, 5000);
       s.set(detail::Input::kContrast, 0.6);
       s.seen.depth = 6;
       light(s, 160);
       stream(s, 1, 0.003);
     },
     0.2072, 1},
}};

}  // namespace sightfall::walk
