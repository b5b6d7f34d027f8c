// SPDX-License-Identifier: GPL-3.0-or-later
// A sheet's lens at one focal length: what the sheet says, and what follows from it where it is silent.
//   Model    a stated angle of view wins and the active width follows from it; without one the stated active width,
//            then the nominal optical format on the pixels' own aspect ratio. A lens named `distorted` keeps its own
//            width and gets the distortion that meets the stated angle at the picture's edge; where its width is so
//            narrow for the angle that no lens does, the angle wins again.
//   Source   nominal formats: table in lens.cpp; docs/models.md section 2
//   Checked  lens_test.cpp; tests/outside/angle_of_view_test.cpp
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/ranged.h"
#include "camera/focus.h"
#include "camera/projection.h"
#include "camera/sheet.h"

namespace sightfall::camera {

/// What the active width was taken from, best first.
enum class WidthSource { kStatedView, kStatedWidth, kNominalFormat };

struct Lens {
  Projector projector;
  ThinLens optics;
  bool f_number_stated = true;
  Length active_width;
  WidthSource width_source = WidthSource::kStatedView;

  PixelPitch pitch() const { return active_width / Pixels{static_cast<double>(projector.columns)}; }
};

/// The f-number assumed where neither the sheet nor the camera gives one is the caller's (detail/typical.h).
struct LensSetting {
  Length focal;
  std::optional<double> f_number;  ///< of an adjustable iris
  double f_number_if_unknown = 1.6;
};

/// The lens of a valid sheet at a focal length within its range.
Lens lens_at(const Sheet& sheet, const LensSetting& setting);

/// The stated angle of view at a focal length, between the ends' angles by the active width; nothing when none is
/// stated.
std::optional<Angle> stated_view(const Sheet& sheet, Length focal);

/// The rectilinear angle of view that the sheet's own width, stated or nominal, gives at a focal length; nothing when
/// it has none or the lens is not rectilinear.
std::optional<Angle> view_of_own_width(const Sheet& sheet, Length focal);

/// Two angles, widths or rates disagree when they differ by more than this share (docs/models.md section 2).
inline constexpr double kDisagreement = 0.05;

/// Width and height of a nominal optical format such as `1/2.8`, in the 4:3 (or the table's own) shape.
struct FormatSize {
  Length width, height;
};
std::optional<FormatSize> nominal_format(const std::string& optical_format);

/// The names that nominal_format knows.
std::vector<std::string> known_formats();

/// The part of a nominal format that pixels of another aspect ratio use: the same diagonal.
Length width_on_format(const FormatSize& format, int columns, int rows);

}  // namespace sightfall::camera
