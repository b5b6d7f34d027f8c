// SPDX-License-Identifier: GPL-3.0-or-later
// What compression leaves of a pattern: how coarse a codec's quantiser gets at a rate, and how much of a pattern comes
// through it.
//   Model    a codec's loss depends on amplitudes over the quantiser's step, 2^((QP - 4) / 6) grey levels (ITU-T H.264
//            and H.265). Of bars of an amplitude and noise, both over the step, a share survives; the rest of the
//            codec's error, kDistortion of a step, joins the noise. The step follows from the bits a pixel and the
//            frame's noise (constant rate, ceiling) or from the quality asked for
//   Source   data/codec.json, tabulated from real encodes by tools/make_codec_table (x264 superfast, x265 ultrafast)
//   Limits   encoders of cameras differ: the step carries a range (`stream_step` in data/typical.json). Bars across and
//            down, moving at a walk's pace over a still textured ground, grey; colour is coarser
//   Domain   total for finite inputs >= 0
//   Checked  codec_test.cpp; tests/outside/picture_test.cpp (bars encoded and measured)
#pragma once
#include <string>
#include <vector>

namespace sightfall::detail {

/// Share of a quantiser's step that a codec's error has as its standard deviation, where a pattern comes through: the
/// median of the survey's where the step is coarser than the noise (0.09 to 0.11 with H.264, 0.04 to 0.06 with H.265).
inline constexpr double kDistortion = 0.08;

/// How many times coarser a quantiser is to characters and faces than to the long bars of the table: a bar's energy
/// lies in one or two of a codec's coefficients, theirs is spread. Found by having predicted plates read by machine
/// (docs/reading.md): with 3 compression takes as much as distance does, within 15 %, for two readers; with 1 half of
/// it.
inline constexpr double kSpread = 3;

class CodecTable {
 public:
  /// Encodes of a scene with one noise (grey levels), finest first.
  struct Rates {
    double noise = 0;
    std::vector<double> quality;         ///< constant rate factor asked for
    std::vector<double> quantiser;       ///< mean QP that came of it
    std::vector<double> bits_per_pixel;  ///< mean over the frames
  };
  /// Of bars of an amplitude in noise, both over the step, the share that survives at each of the frequencies.
  struct Surviving {
    double noise = 0, amplitude = 0;
    std::vector<double> share;
  };

  CodecTable() = default;
  /// CHECK: every list is as its own comment says, noises and amplitudes form a grid in rising order.
  CodecTable(std::vector<double> frequencies, std::vector<Rates> rates, const std::vector<Surviving>& surviving);

  /// Step in grey levels of a frame with this noise, at a rate.
  double step_at_rate(double bits_per_pixel, double noise) const;
  /// The same at a constant quality.
  double step_at_quality(double factor, double noise) const;
  /// The quality that gives a step to frames with this noise.
  double quality_of_step(double step, double noise) const;
  /// Bits a pixel of frames with this noise at a constant quality.
  double bits_at_quality(double factor, double noise) const;

  /// Share of bars that survives; amplitude and noise over the step, frequency in cycles a pixel.
  double surviving(double amplitude, double noise, double frequency) const;

 private:
  /// Rates as they are looked up: noise as log2(1 + noise), bits as log2.
  struct LogRates {
    double noise = 0;
    std::vector<double> quality, quantiser, bits_per_pixel;
  };

  /// What is to one as a value is to the other.
  double between_noises(double noise, std::vector<double> LogRates::*from, std::vector<double> LogRates::*to,
                        double value) const;

  std::vector<double> frequencies_, noises_, amplitudes_, log_amplitudes_;
  std::vector<LogRates> rates_;
  std::vector<double> share_;  // by noise, amplitude, frequency
};

/// A quantiser's step in grey levels, and the quantiser of a step.
double step_of(double quantiser);
double quantiser_of(double step);

}  // namespace sightfall::detail
