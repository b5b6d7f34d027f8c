// SPDX-License-Identifier: GPL-3.0-or-later
// What stands behind a canvas, for this room's sources alone: the library's context, whose type only they know.
#pragma once
#include "draw/canvas.h"

struct _cairo;

namespace sightfall::draw {

struct Canvas::Impl {
  _cairo* cairo;
};

}  // namespace sightfall::draw
