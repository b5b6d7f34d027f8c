// SPDX-License-Identifier: GPL-3.0-or-later
// What each camera sends by day and by night, as cameras really encode: at a constant rate, at a quality under a
// ceiling, or at a quality alone.
//   Model    docs/models.md section 9: bits a pixel of the quality at the noise of the camera's own frame in the
//            condition (detail/codec.h, detail/signal.h: what the verdict counts with), times pixels and frames; the
//            ceiling cuts it, and the quality falls instead
//   Limits   typical `rate_forecast` is wide on purpose: at one noise two encoders lie far apart. A rate that is held
//            is met within kHeld. A rate that was measured on a clip stands in for all of this, ceiling included
//   Checked  file/loads_answer_test.cpp (with the table of data/codec.json)
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/ranged.h"
#include "need/lit_project.h"

namespace sightfall::loads {

/// How near a camera comes to a rate that it holds (from memory).
inline constexpr double kHeld = 0.05;

/// Of a clip, on average.
struct MeasuredRate {
  std::string camera;
  bool night = false;
  DataRate rate;
  std::string condition;  ///< of the project, that the clip is of; empty: the one that stands for this light
};

/// In one light.
struct RateInLight {
  std::string condition;
  double noise = 0;  ///< of the frame, grey levels
  Ranged<DataRate> rate;
  bool at_ceiling = false;  ///< nominally: the quality falls there
  bool measured = false;
};

struct StreamRate {
  std::string camera;
  camera::Stream stream;  ///< in force, or assumed
  bool assumed = false;   ///< nothing is stated: H.264 at the usual quality
  RateInLight day, night;
};

/// A condition of the project for each, or a bright day and a dark night when it has none; of what was measured, the
/// clip's.
std::vector<StreamRate> stream_rates(const need::LitProject& lit, const std::vector<MeasuredRate>& measured);

/// Whether a condition is of the night: after dark, or the dark night in which no lamp burns.
bool by_night(const need::Project& project, const site::Condition& condition);

/// Over day and night.
Ranged<DataRate> mean_of(const StreamRate& rate);
/// The larger of the two, end by end.
Ranged<DataRate> peak_of(const StreamRate& rate);

}  // namespace sightfall::loads
