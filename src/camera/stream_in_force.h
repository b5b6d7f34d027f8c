// SPDX-License-Identifier: GPL-3.0-or-later
// The stream that a camera sends: as it is set or, where nothing is set, as its sheet delivers it.
#pragma once
#include <optional>
#include <string_view>

#include "camera/camera.h"
#include "camera/sheet.h"

namespace sightfall::camera {

/// Unset: nothing is stated, and figures are before compression. Refers into what it is given.
inline const std::optional<Stream>& stream_of(const Sheet& sheet, const Camera& camera) {
  return camera.stream ? camera.stream : sheet.stream;
}

/// Whether compression is in a sheet's figures.
inline std::string_view compression_in_words(const Sheet& sheet) {
  return sheet.stream ? "through its stream" : "before compression";
}

}  // namespace sightfall::camera
