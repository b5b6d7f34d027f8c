// SPDX-License-Identifier: GPL-3.0-or-later
// Pixels between a picture and the planes that a codec works on.
//   Model    full-range RGB to and from Y'CbCr of ITU-R BT.709, limited range (16-235, 16-240), chroma at half the size
//            each way and sited at the left column of its pair, by bilinear filters with exact rounding
//   Library  libswscale, only in pixels.cpp
//   Limits   chroma detail finer than two pixels is lost, as in every 4:2:0 stream
//   Checked  pixels_test.cpp: against the standard's equations by pencil
#pragma once
#include <array>
#include <cstdint>
#include <memory>

#include "base/result.h"
#include "video/picture.h"

namespace sightfall::video {

/// Up to four planes as FFmpeg lays them out: where each begins, and bytes from row to row.
struct PlanesOut {
  std::array<uint8_t*, 4> begin{};
  std::array<int, 4> stride{};
};
struct PlanesIn {
  std::array<const uint8_t*, 4> begin{};
  std::array<int, 4> stride{};
};

/// How a decoder says its planes are coded, in FFmpeg's numbers.
struct PlaneKind {
  int columns = 0, rows = 0;
  int format = 0;
  int matrix = 0;  ///< colour space; unspecified is taken as BT.709
  bool full_range = false;

  bool operator==(const PlaneKind&) const = default;
};

/// A size that 4:2:0 can hold: odd sides grow by one.
constexpr int even(int side) { return side + side % 2; }

/// Converts pictures of one size into 4:2:0 planes of the even size around it. Where a side is odd its last column or
/// row is repeated.
class IntoPlanes {
 public:
  IntoPlanes(int columns, int rows);
  void convert(const Picture& picture, const PlanesOut& planes) const;

 private:
  struct Free {
    void operator()(void* scaler) const;
  };
  int columns_, rows_;
  std::unique_ptr<void, Free> scaler_;
};

/// Converts a decoder's planes into pictures. Its kind of planes may change from call to call.
class FromPlanes {
 public:
  /// Errors: a format of planes that libswscale does not take.
  Result<Picture> convert(const PlanesIn& planes, const PlaneKind& kind);

 private:
  struct Free {
    void operator()(void* scaler) const;
  };
  PlaneKind kind_;
  std::unique_ptr<void, Free> scaler_;
};

}  // namespace sightfall::video
