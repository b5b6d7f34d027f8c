// SPDX-License-Identifier: GPL-3.0-or-later
// A camera ready to be judged: its lens at the focal length set, its pose on the mount, what of it is assumed.
#pragma once
#include <string>
#include <vector>

#include "base/ranged.h"
#include "camera/camera.h"
#include "camera/lens.h"
#include "camera/sheet.h"
#include "detail/delivered.h"
#include "detail/typical.h"
#include "geom/pose.h"
#include "need/project.h"

namespace sightfall::need {

/// Diameter in pixels of the blur circle that an unknown focus setting is the hyperfocal distance for: what makers of
/// fixed lenses aim at (from memory).
inline constexpr double kUnknownFocusBlur = 2;

struct Station {
  std::string name;
  camera::Lens lens;
  geom::Pose pose;
  detail::CameraConstants constants;
  detail::RangedInputs inputs;  ///< the camera's part; subject_inputs adds the subject's
  double frame_rate = 0;        ///< Hz
  camera::LensClass lens_class = camera::LensClass::kStandard;  ///< stated or assumed
  bool shutter_stated = false;
  std::vector<Assumption> assumptions;
};

/// A camera of a valid project on its mount, which may be raised.
Station station_of(const Project& project, const camera::Camera& camera, Length raised = Length{0});

/// The same from its parts: the range card has no project.
Station station_at(const camera::Sheet& sheet, const camera::Camera& camera, geom::SitePoint eye_site,
                   const detail::Typical& typical);

/// The longest exposure of the sheet's limits that keeps within the daylight shutter, as a range.
Ranged<double> daylight_shutter(const camera::Sheet& sheet, const detail::Typical& typical);

/// What is assumed of the subject joined to what is assumed of the camera.
detail::RangedInputs subject_inputs(const Station& station, const Need& need, const detail::Typical& typical);

/// Contrast of a kind of subject by day.
const detail::TypicalValue& contrast_of(Subject subject, const detail::Typical& typical);

/// Vertical size of a kind of subject.
const detail::TypicalValue& height_of(Subject subject, const detail::Typical& typical);

/// The table's entry behind an input, for the words on how to settle it.
const detail::TypicalValue& entry_of(detail::Input input, const Station& station, Subject subject,
                                     const detail::Typical& typical);

/// Least pixel density that any level of the table asks for: fainter is never looked for.
PixelDensity faintest(const detail::LevelTable& table);

}  // namespace sightfall::need
