// SPDX-License-Identifier: GPL-3.0-or-later
// Reads plates by Tesseract.
//   Library  Tesseract, only in plate_reader.cpp: a single line, no dictionary
//   Model    a reader that knows the plates' format: figures make one line and letters another, each with its own
//            characters. Each line is read three times, as it is and smoothed by a twentieth and by three fortieths of
//            a character's height, and the reading that Tesseract is surest of counts: a reader averages noise away
//            where that helps. One rule for every cause
//   Limits   one thread
#pragma once
#include <memory>
#include <string>

#include "plate_cells.h"

namespace sightfall::reading {

class PlateReader {
 public:
  PlateReader();
  ~PlateReader();
  PlateReader(const PlateReader&) = delete;
  PlateReader& operator=(const PlateReader&) = delete;

  /// A character a cell; '?' where it found too few.
  std::string read(const Cells& cells);

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace sightfall::reading
