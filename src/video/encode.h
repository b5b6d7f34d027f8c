// SPDX-License-Identifier: GPL-3.0-or-later
// Pictures compressed as a camera would: into an MP4 file, or in memory for their sizes and what is left of them.
//   Model    H.264 by x264 at its preset superfast, H.265 by x265 at ultrafast. A camera's encoder is small, quick and
//            fixed: it searches little, as these presets do. Slower presets see through noise as no camera does: at
//            4 grey levels of noise, 1080p, x264 at medium gave 18.6 Mbit/s where superfast gave 30.9, for a tenth of
//            the speed; superfast does some 5 to 20 frames of 3840 x 2160 a second on a core
//   Limits   a stand-in: absolute rates of a given camera differ by its encoder's settings up to some tens of times.
//            What is told is how rate and loss change with light, noise and motion. No B-frames, since cameras that
//            are watched live send none.
//   Colour   ITU-R BT.709, limited range, 4:2:0, and flagged so in the stream
//   Sizes    16 to 16384 a side. 4:2:0 holds even sides only: an odd one grows by one, its last column or row repeated
//   Same     the same pictures and settings give the same bytes, with any number of threads (see `threads`), for one
//            version of the libraries
//   Checked  encode_test.cpp, rate_test.cpp
#pragma once
#include <memory>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "base/result.h"
#include "unit/quantity.h"
#include "video/facts.h"
#include "video/picture.h"

namespace sightfall::video {

/// Aims at this rate over any few seconds; where the scene is so still that the finest pictures need less, it is less.
struct ConstantRate {
  DataRate rate;
};

/// Constant quality: as many bits as it takes, however many. `factor` is x264's or x265's constant rate factor, from 1
/// (finest) to 51; 6 more is about half the rate. The same factor does not mean the same in both codecs.
struct FreeQuality {
  double factor = 0;
};

/// Constant quality under a ceiling, below which it is coarser for as long as that takes.
struct CappedQuality {
  double factor = 0;
  DataRate ceiling;
};

/// The three kinds of rate control that cameras have.
using Rate = std::variant<ConstantRate, FreeQuality, CappedQuality>;

/// A ceiling and a constant rate hold for a buffer that is this long: within any time t there are at most
/// rate * (t + kBuffer) bits.
inline constexpr Time kBuffer{1};

struct EncodeSettings {
  Codec codec = Codec::kH264;
  Frequency frame_rate{25};     ///< 0.1 to 240 Hz
  Rate rate = FreeQuality{23};  ///< rates from 16 kbit/s to 800 Mbit/s
  int keyframe_interval = 50;   ///< frames from one keyframe to the next, 1 to 10000
  /// Threads for H.265, 1 to 64. H.264 is always encoded by one: x264's frames depend on how many work on them, and
  /// with several on chance.
  int threads = 1;
};

/// Writes an MP4 file. It stands under its name once `finish` has succeeded, and under NAME.part before.
class Encoder {
 public:
  /// Errors: settings out of their range, a file that cannot be written.
  static Result<Encoder> open(const std::string& path, int columns, int rows, const EncodeSettings& settings);

  /// A picture of the size that was opened. Errors: a full disk, an encoder that fails.
  Result<void> add(const Picture& picture);
  /// Ends the file; nothing can be added any more. Errors: those of `add`, and a clip without pictures.
  Result<StreamFacts> finish();

  struct Impl;

 private:
  explicit Encoder(std::unique_ptr<Impl> impl);
  std::unique_ptr<Impl> impl_;

 public:
  Encoder(Encoder&&) noexcept;
  Encoder& operator=(Encoder&&) noexcept;
  ~Encoder();
};

struct Encoded {
  StreamFacts facts;
  std::vector<double> quantisers;  ///< of each frame, the mean over its blocks: 0 to 51, coarser as it rises
  std::vector<Picture> pictures;   ///< as a viewer gets them, in the size they had; empty unless asked for
};

enum class Back { kFactsAlone, kPicturesToo };

/// Encodes in memory. Errors: settings out of their range, no pictures.
Result<Encoded> encode(std::span<const Picture> pictures, const EncodeSettings& settings,
                       Back back = Back::kFactsAlone);

}  // namespace sightfall::video
