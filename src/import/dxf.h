// SPDX-License-Identifier: GPL-3.0-or-later
// Lines and words on layers as a DXF file, for the builder's CAD. Beside what comes in: only this room knows the
// library that maps and drawings of others are spoken with.
//   Library  GDAL's DXF writer, only in dxf.cpp
//   Units    metres; x east, y north
//   Limits   names of layers: letters, digits, - and _. Words keep every script of the basic plane, as far as whoever
//            opens the file has letters for it; what lies beyond, such as pictures, is an empty square
//   Checked  dxf_test.cpp: read back by GDAL
#pragma once
#include <string>
#include <vector>

#include "base/result.h"
#include "geom/vec.h"

namespace sightfall::import {

struct DxfLine {
  std::string layer;
  std::vector<geom::PlanPoint> points;
  bool closed = false;
};

struct DxfWords {
  std::string layer;
  std::string text;
  geom::PlanPoint at;
  double height = 0.5;  ///< m, of its letters
};

struct DxfDrawing {
  std::vector<DxfLine> lines;
  std::vector<DxfWords> words;
};

/// The file's bytes. Errors: what the library says.
Result<std::string> dxf_of(const DxfDrawing& drawing);

}  // namespace sightfall::import
