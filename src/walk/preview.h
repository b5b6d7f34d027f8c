// SPDX-License-Identifier: GPL-3.0-or-later
// A picture with fewer pixels of the same view, which is there at once: what the whole picture looks like made smaller.
//   Model    every blur in pixels shrinks with the pixels' number; a pixel collects what those that it stands for
//            collect, holds what they hold and has their noise together, so that exposure and infrared are the same
//   Limits   texture finer than its own pixel is faded, not averaged. Figures of detail are those of the whole picture
//            alone
//   Checked  preview_test.cpp
#pragma once
#include "need/station.h"

namespace sightfall::walk {

inline constexpr int kPreviewColumns = 480;

/// A station, not yet in a condition (need/frame.h), with a picture of at most that many columns.
need::Station preview_of(const need::Station& station, int columns = kPreviewColumns);

}  // namespace sightfall::walk
