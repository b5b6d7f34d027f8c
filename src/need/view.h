// SPDX-License-Identifier: GPL-3.0-or-later
// What one camera has of a need's samples: whether it is in the picture, unhidden and turned towards it, and how
// finely.
//   Model    docs/models.md sections 2 and 3: density is the smaller singular value on the subject's plane; facing is a
//            gate for a face or a plate, which have planes of their own; a body's plane is the vertical one turned to
//            the camera. A face or plate is seen when every point of it is in the picture and unhidden, a body when
//            most are
//   Checked  view_test.cpp; tests/physics
#pragma once
#include <vector>

#include "detail/delivered.h"
#include "detail/limit.h"
#include "need/illumination.h"
#include "need/lighting.h"
#include "need/need.h"
#include "need/samples.h"
#include "need/station.h"

namespace sightfall::need {

/// One sample in one camera's picture. `gate` is kNone when it is seen; otherwise why it is not.
struct SampleView {
  detail::Seen seen;
  detail::Limit gate = detail::Limit::kOutOfView;
  double height_density = 0;  ///< px/m along the subject's vertical

  bool operator==(const SampleView&) const = default;
};

/// One entry for each sample, in their order. The station is in the lighting's condition (frame.h); `lights` are the
/// light at each sample.
std::vector<SampleView> view_of(const Station& station, const Lighting& lighting, const Need& need,
                                const std::vector<Sample>& samples, const std::vector<PlaceLight>& lights);

/// The same without light, of which neither the density nor most gates know: the station need be in no condition.
std::vector<SampleView> unlit_view_of(const Station& station, const Lighting& lighting, const Need& need,
                                      const std::vector<Sample>& samples);

/// Puts the light at a sample into its view of unlit_view_of(); the station is in the lighting's condition.
void put_in_light(const Station& station, const Lighting& lighting, const Need& need, const Sample& sample,
                  const PlaceLight& light, SampleView& view);

/// How a need's subject stands at a sample before a camera.
Posed posed_at(const Station& station, const Lighting& lighting, const Need& need, const Sample& sample);

/// The light at each sample.
std::vector<PlaceLight> light_on(const Lighting& lighting, const std::vector<Sample>& samples);

}  // namespace sightfall::need
