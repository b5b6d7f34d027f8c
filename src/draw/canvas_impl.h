// SPDX-License-Identifier: GPL-3.0-or-later
// What stands behind a canvas, for this room's sources alone: the library's context, whose type only they know.
#pragma once
#include <cairo.h>

#include <memory>

#include "draw/canvas.h"

namespace sightfall::draw {

struct Canvas::Impl {
  cairo_t* cairo;
};

struct ReleaseCairo {
  void operator()(cairo_t* cairo) const { cairo_destroy(cairo); }
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
using Cairo = std::unique_ptr<cairo_t, ReleaseCairo>;
using Surface = std::unique_ptr<cairo_surface_t, ReleaseCairo>;

}  // namespace sightfall::draw
