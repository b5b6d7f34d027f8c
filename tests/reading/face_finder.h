// SPDX-License-Identifier: GPL-3.0-or-later
// Finds faces seen from the front.
//   Library  OpenCV's cascade classifier, only in face_finder.cpp, with the cascade of Debian's opencv-data
//   Limits   one thread
#pragma once
#include <memory>
#include <vector>

#include "crop.h"

namespace sightfall::reading {

class FaceFinder {
 public:
  FaceFinder();
  ~FaceFinder();
  FaceFinder(const FaceFinder&) = delete;
  FaceFinder& operator=(const FaceFinder&) = delete;

  /// Squares of the picture that it takes for a face.
  std::vector<Piece> find(const Grey& picture);

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace sightfall::reading
