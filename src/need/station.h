// SPDX-License-Identifier: GPL-3.0-or-later
// A camera ready to be judged: its lens at the focal length set, its pose on the mount, what of it is assumed.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/ranged.h"
#include "camera/camera.h"
#include "camera/lens.h"
#include "camera/sheet.h"
#include "detail/delivered.h"
#include "detail/typical.h"
#include "geom/pose.h"
#include "light/band.h"
#include "need/project.h"
#include "need/sway.h"

namespace sightfall::need {

/// Diameter in pixels of the blur circle that an unknown focus setting is the hyperfocal distance for: what makers of
/// fixed lenses aim at (from memory).
inline constexpr double kUnknownFocusBlur = 2;

/// The camera's own infrared lamp, nominal.
struct OwnInfrared {
  double intensity = 0, exponent = 1;  ///< W/sr on the axis; cos^n
  light::Band band = light::Band::kNear850;
  double photons = 0;  ///< a second and watt
  double offset = 0;   ///< m, between lamp and lens
  Length overlap;      ///< at which its beam enters the view
  bool adaptive = false;
  double glass_return = 0;  ///< 1/m2, of the pane before both lamp and lens
};

inline constexpr int kNoCamera = -1;

/// Light from a source, on a plane turned to it (need/lighting.h).
struct Direct {
  geom::Vec3 towards;      ///< unit, to the source
  light::PerBand normal;   ///< photons/(s m2)
  double flicker = 0;      ///< most of its swing over its mean
  int camera = kNoCamera;  ///< whose infrared it is, by its place in the project
};

struct Station {
  std::string name;
  int number = kNoCamera;  ///< place in the project
  camera::Lens lens;
  geom::Pose pose;
  detail::CameraConstants constants;
  detail::RangedInputs inputs;  ///< the camera's part; subject_inputs adds the subject's
  double frame_rate = 0;        ///< Hz
  std::vector<camera::Mask> masks;
  camera::LensClass lens_class = camera::LensClass::kStandard;  ///< stated or assumed
  SwayAssumed sway_assumed = SwayAssumed::kNothing;
  std::vector<Assumption> assumptions;

  // After dark. A response is in electrons a second and pixel for each photon/(s m2) on a matt white surface, on the
  // axis.
  std::optional<OwnInfrared> infrared;
  light::PerBand response_day, response_night;        ///< filter in, filter out
  Ranged<double> sensitivity_day, sensitivity_night;  ///< factor on them, by visible and by near-infrared light
  camera::InfraredUse infrared_use = camera::InfraredUse::kAutomatic;
  camera::PictureMode picture = camera::PictureMode::kAutomatic;
  camera::Metering metering = camera::Metering::kEven;
  bool has_filter = true;
  double scatter_angle = 18;  ///< sr
  bool infrared_stated = false;

  // Filled in for a condition (need/frame.h).
  bool monochrome = false, infrared_on = false, near_infrared = false;
  double scene_lux = 0;  ///< on what the frame shows
  double flicker = 0;    ///< share by which the frame's mean swings with the mains, where lamps do so most
  light::PerBand response;
  std::vector<Direct> glare;  ///< sources that reach the lens
};

/// A camera of a valid project on its mount, which may be raised.
Station station_of(const Project& project, const camera::Camera& camera, Length raised = Length{0});

/// The same from its parts: the range card has no project. The sheet's estimates stand in for the table's entries;
/// those of a subject or a place have no effect there.
Station station_at(const camera::Sheet& sheet, const camera::Camera& camera, geom::SitePoint eye_site,
                   const detail::Typical& table);

/// Every camera's of a project, in their order.
std::vector<Station> stations_of(const Project& project);

/// Whether the point, in the camera's frame, is in its picture and no mask covers it.
bool shows(const Station& station, geom::Vec3 in_camera);

/// Whether compression is in a project's figures: `before compression`, `through each camera's stream`, or in between.
std::string_view compression_in_words(const Project& project);

/// The longest exposure that automatic exposure goes to, within the sheet's limits.
Ranged<double> slowest_shutter(const camera::Sheet& sheet, const camera::Camera& camera,
                               const detail::Typical& typical);

/// What is assumed of the subject joined to what is assumed of the camera.
detail::RangedInputs subject_inputs(const Station& station, const Need& need, const detail::Typical& typical);

/// Contrast of a kind of subject, in visible light or in near infrared.
const detail::TypicalValue& contrast_of(Subject subject, bool near_infrared, const detail::Typical& typical);

/// Vertical size of a kind of subject.
const detail::TypicalValue& height_of(Subject subject, const detail::Typical& typical);

/// The table's entry behind an input, for the words on how to settle it.
const detail::TypicalValue& entry_of(detail::Input input, const Station& station, Subject subject,
                                     const detail::Typical& typical);

/// Least pixel density that any level of the table asks for: fainter is never looked for.
PixelDensity faintest(const detail::LevelTable& table);

}  // namespace sightfall::need
