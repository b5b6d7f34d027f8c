// SPDX-License-Identifier: GPL-3.0-or-later
// FFmpeg kept at this room's wall: it prints nothing, and what it complains about becomes an error's text.
#pragma once
#include <string>

namespace sightfall::video {

/// While one lives, FFmpeg's complaints on this thread are held here; complaints that nobody holds are dropped. The
/// first one ends the library's printing for the whole process.
class Quiet {
 public:
  Quiet();
  ~Quiet();
  Quiet(const Quiet&) = delete;
  Quiet& operator=(const Quiet&) = delete;

  /// What failed, in FFmpeg's words: its last complaint if there was one, else the meaning of its error code.
  std::string said(int code) const;
  void hear(std::string text) { heard_ = std::move(text); }

 private:
  std::string heard_;
  Quiet* outer_;
};

}  // namespace sightfall::video
