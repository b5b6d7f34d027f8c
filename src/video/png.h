// SPDX-License-Identifier: GPL-3.0-or-later
// Pictures as PNG files, exactly (ISO/IEC 15948).
//   Library  libavcodec, only in png.cpp
//   Limits   eight bits of grey or of red, green and blue: what this room writes. A picture whose pixels are all grey
//            is written as grey, at a third of the size
//   Checked  png_test.cpp
#pragma once
#include <cstdint>
#include <span>
#include <vector>

#include "base/result.h"
#include "video/picture.h"

namespace sightfall::video {

/// The bytes of a PNG file, the same for the same picture. Errors: no pixels, or too many.
Result<std::vector<uint8_t>> png_of(const Picture& picture);

/// Errors: bytes that are no PNG file, cut short, damaged or of another kind of pixels.
Result<Picture> picture_of_png(std::span<const uint8_t> bytes);

}  // namespace sightfall::video
