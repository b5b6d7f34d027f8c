// SPDX-License-Identifier: GPL-3.0-or-later
// Invented scenes for the tests of this room: a textured ground, something that moves, noise of a known size.
#pragma once
#include <string>
#include <vector>

#include "video/picture.h"

namespace sightfall::video {

struct Scene {
  int columns = 320, rows = 180;
  double sigma = 0;  ///< of white noise, the same in all channels; grey levels
  bool grey = false;
};

Picture picture_of(const Scene& scene, int frame);
std::vector<Picture> clip_of(const Scene& scene, int frames);

/// Peak signal-to-noise ratio over all channels, dB, for pictures that differ.
double psnr(const Picture& a, const Picture& b);

/// A path for a test's own file, which no other test has.
std::string scratch(const std::string& name);
std::vector<uint8_t> bytes_of(const std::string& path);
void write_bytes(const std::string& path, const std::vector<uint8_t>& bytes);

}  // namespace sightfall::video
