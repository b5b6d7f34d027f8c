// SPDX-License-Identifier: GPL-3.0-or-later
// Pictures as people have them, decoded whole: what cannot be shown is refused before it is kept.
//   Library  libpng and libjpeg-turbo, only in plan_picture.cpp
//   Limits   kMostPlanSide a side, kMostPlanPixels in all, known from the head before any pixel is decoded
//   Checked  plan_upload_test.cpp: kinds of pixels, pictures cut short, damaged and too large; fuzzed by cuts and flips
#pragma once
#include <span>

#include "base/result.h"
#include "video/picture.h"

namespace sightfall::serve {

inline constexpr int kMostPlanSide = 12000;
inline constexpr int kMostPlanPixels = 80'000'000;

bool is_png(std::span<const uint8_t> bytes);
bool is_jpeg(std::span<const uint8_t> bytes);

/// What shows through is white.
Result<video::Picture> decode_png(std::span<const uint8_t> bytes);

/// Upright: turned as the camera that took it says (Exif 2.3, tag Orientation).
Result<video::Picture> decode_jpeg(std::span<const uint8_t> bytes);

}  // namespace sightfall::serve
