// SPDX-License-Identifier: GPL-3.0-or-later
// What stands behind a canvas, for this room's sources alone: the library's context, whose types only they know.
#pragma once
#include <memory>
#include <string>
#include <vector>

#include "draw/canvas.h"

struct _cairo;
struct _cairo_surface;

namespace sightfall::draw {

struct Canvas::Impl {
  _cairo* cairo;
  std::vector<std::string> figures = {};  ///< what those drawn so far show
};

struct ReleaseCairo {
  void operator()(_cairo* cairo) const;
  void operator()(_cairo_surface* surface) const;
};
using Cairo = std::unique_ptr<_cairo, ReleaseCairo>;
using Surface = std::unique_ptr<_cairo_surface, ReleaseCairo>;

}  // namespace sightfall::draw
