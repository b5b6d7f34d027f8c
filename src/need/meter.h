// SPDX-License-Identifier: GPL-3.0-or-later
// A camera's frame as its exposure meter sees it: what each of its rays meets and how it is lit. What does not hang on
// other cameras' infrared is worked out once, for whether they burn it hangs on their meters.
//   Model    kMeterColumns x kMeterRows rays through the picture (need/look.h). docs/models.md section 5
//   Checked  illumination_test.cpp, lighting_test.cpp
#pragma once
#include <memory>
#include <vector>

#include "need/lighting.h"
#include "need/look.h"
#include "need/station.h"

namespace sightfall::need {

inline constexpr int kMeterColumns = 24, kMeterRows = 14;

/// One place of the frame as the meter weighs it.
struct MeteredPatch : Patch {
  double weight = 1;
};

/// What the rays of a camera's frame meet, whatever light falls there.
struct MeterFrame {
  static constexpr int kNone = -1;
  struct Ray {
    geom::Vec3 in_camera;
    Struck struck;
    double weight = 1;
    int surface = kNone, veil = kNone;  ///< among the places
  };
  std::vector<Ray> rays;
  std::vector<SurfacePlace> places;

  /// Of the lighting the scene alone counts.
  MeterFrame(const Station& station, const Lighting& lighting);
};

class Meter {
 public:
  /// In a light whose part that is not cameras' infrared is worked out.
  Meter(std::shared_ptr<const MeterFrame> frame, const Lighting& lighting);
  Meter(const Station& station, const Lighting& lighting);

  /// Light on what the frame shows, lx: what decides between colour and monochrome; of the sky when it shows nothing
  /// else.
  double scene_lux() const { return scene_lux_; }

  /// The frame of that station in the same light, joined by whatever infrared the lighting has.
  std::vector<MeteredPatch> patches(const Station& station, const Lighting& joined) const;

 private:
  std::shared_ptr<const MeterFrame> frame_;
  std::vector<SurfaceLight> light_;  // on each place, but for cameras' infrared
  double scene_lux_ = 0;
};

/// Of every camera. The stations must be the lighting's project's.
std::vector<Meter> meters_of(const std::vector<Station>& stations, const Lighting& lighting);

}  // namespace sightfall::need
