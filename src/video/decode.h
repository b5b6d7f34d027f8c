// SPDX-License-Identifier: GPL-3.0-or-later
// Clips read back: what their stream is, and their pictures.
//   Model    H.264 and H.265 in MP4, QuickTime, Matroska and MPEG-TS. Planes become RGB by the matrix and range
//            that the stream states; BT.709, limited, where it states none. Turned or stretched display is not applied
//   Limits   strict: a clip that is cut short, damaged or changes its size on the way is an error, not half an answer.
//            But neither codec has checksums: a few flipped bits inside a frame may pass as pictures
//   Checked  decode_test.cpp, containers_test.cpp, mp4_boxes_test.cpp
#pragma once
#include <functional>
#include <string>

#include "base/result.h"
#include "video/facts.h"
#include "video/picture.h"

namespace sightfall::video {

/// What the file's stream is; no picture is decoded.
Result<StreamFacts> facts_of(const std::string& path);

struct Clip {
  StreamFacts facts;  ///< of the whole file, however many pictures were taken
  int pictures = 0;   ///< that were handed over
};

/// Hands over the pictures in the order in which they are shown, until there are no more or `take` says false.
Result<Clip> read(const std::string& path, const std::function<bool(Picture)>& take);

}  // namespace sightfall::video
