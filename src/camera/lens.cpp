// SPDX-License-Identifier: GPL-3.0-or-later
#include "camera/lens.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "base/check.h"

namespace sightfall::camera {
namespace {

using namespace units;

/// Nominal sizes of optical formats. They are not standardised: within about 3 % of what makers build (from memory;
/// the diagonal is about 16 mm an inch of the name, not 25.4).
struct NamedFormat {
  const char* name;
  double width_mm, height_mm;
};
constexpr std::array<NamedFormat, 14> kFormats{{{"1/4", 3.20, 2.40},
                                                {"1/3.2", 4.54, 3.42},
                                                {"1/3", 4.80, 3.60},
                                                {"1/2.9", 5.12, 3.84},
                                                {"1/2.8", 5.568, 3.132},
                                                {"1/2.7", 5.37, 4.04},
                                                {"1/2.5", 5.76, 4.29},
                                                {"1/2.3", 6.17, 4.55},
                                                {"1/2", 6.40, 4.80},
                                                {"1/1.8", 7.18, 5.32},
                                                {"1/1.7", 7.60, 5.70},
                                                {"1/1.2", 10.67, 8.00},
                                                {"2/3", 8.80, 6.60},
                                                {"1", 12.8, 9.6}}};

constexpr double kRectilinearLargest = 89.0 * std::numbers::pi / 180;
/// Above this a rectilinear picture is no longer built; a lens that states more is taken for a fisheye form.
constexpr double kWidestRectilinear = 110.0 * std::numbers::pi / 180;

double share_of_range(const Sheet& sheet, Length focal) {
  if (!sheet.zoom()) return 0;
  return std::clamp((focal - sheet.focal.wide) / (sheet.focal.tele - sheet.focal.wide), 0.0, 1.0);
}

double between(const Ends<double>& ends, double share) { return ends.wide + share * (ends.tele - ends.wide); }

Projection projection_of(const Sheet& sheet) {
  if (sheet.projection) return *sheet.projection;
  const bool wide = sheet.view && sheet.view->wide.si() >= kWidestRectilinear;
  return wide ? Projection::kFisheye : Projection::kRectilinear;
}

/// The active width that an angle of view asks for under an undistorted mapping.
Length width_for(Projection projection, Length focal, Angle view) {
  const double half = view.si() / 2;
  return 2.0 * focal * (projection == Projection::kFisheye ? half : std::tan(half));
}

struct Width {
  Length value;
  WidthSource source;
};

std::optional<Width> own_width(const Sheet& sheet) {
  if (sheet.active_width) return Width{*sheet.active_width, WidthSource::kStatedWidth};
  if (!sheet.optical_format) return std::nullopt;
  const auto format = nominal_format(*sheet.optical_format);
  if (!format) return std::nullopt;
  return Width{width_on_format(*format, sheet.columns, sheet.rows), WidthSource::kNominalFormat};
}

/// The width from the stated angle; a zoom's differs a little from end to end, so it is taken between them.
std::optional<Width> width_from_view(const Sheet& sheet, Projection projection, double share) {
  if (!sheet.view) return std::nullopt;
  const Ends<double> widths{width_for(projection, sheet.focal.wide, sheet.view->wide).si(),
                            width_for(projection, sheet.focal.tele, sheet.view->tele).si()};
  return Width{Length{between(widths, share)}, WidthSource::kStatedView};
}

/// Whether a distortion that keeps growing brings the angle to the edge of a width. The fisheye form, which grows
/// farthest, stands still where the image height falls to two thirds of the angle.
bool distortion_meets(Length width, Length focal, Angle view) {
  constexpr double kLeastHeight = 0.7;
  return width / focal > kLeastHeight * view.si();
}

Width active_width(const Sheet& sheet, Projection projection, Length focal) {
  const double share = share_of_range(sheet, focal);
  const bool keeps_own = projection == Projection::kDistorted || sheet.distortion;
  if (keeps_own) {
    const auto view = sheet.distortion ? std::nullopt : stated_view(sheet, focal);
    const auto own = own_width(sheet);
    if (own && view && !distortion_meets(own->value, focal, *view))
      return {width_for(Projection::kFisheye, focal, *view), WidthSource::kStatedView};
    if (own) return *own;
    // A zoom's long end is nearly free of distortion, so its angle tells the width.
    if (sheet.view && sheet.zoom())
      return {width_for(Projection::kRectilinear, sheet.focal.tele, sheet.view->tele), WidthSource::kStatedView};
  }
  if (const auto from_view = width_from_view(sheet, projection, share)) return *from_view;
  const auto own = own_width(sheet);
  CHECK_EQ(own.has_value(), true);  // the reader refuses a sheet that states no angle, width or format
  return *own;
}

/// Half the picture's diagonal, in focal lengths.
double half_diagonal(const Projector& p) { return std::hypot(p.columns, p.rows) / (2 * p.focal_px); }

/// Sets k1 so that half the angle of view falls on the middle of the picture's edge. The Brown form is kept where it
/// still grows out to that angle and to the corner; otherwise the fisheye form, which grows farther.
void meet_view_at_edge(Projector& p, Angle view) {
  const double edge = p.columns / (2 * p.focal_px), half = view.si() / 2, t = std::tan(half);
  p.mapping = Mapping::kBrown;
  if (half < kRectilinearLargest) {
    p.k = {(edge / t - 1) / (t * t), 0, 0, 0, 0};
    p.largest = Angle{kRectilinearLargest};
    const Angle grows_to = monotone_to(p, p.largest);
    const double tan_limit = std::tan(grows_to.si());
    if (grows_to.si() > half && tan_limit * (1 + p.k[0] * tan_limit * tan_limit) > half_diagonal(p)) {
      p.largest = grows_to;
      return;
    }
  }
  p.mapping = Mapping::kFisheye;
  p.k = {(edge / half - 1) / (half * half), 0, 0, 0, 0};
}

/// The angle beyond which no light reaches the picture: just past the corner, within where the mapping grows.
void limit_angle(Projector& p, std::optional<Angle> image_circle) {
  const double limit = p.mapping == Mapping::kBrown ? kRectilinearLargest : std::numbers::pi;
  p.largest = monotone_to(p, Angle{limit});
  if (image_circle) p.largest = std::min(p.largest, *image_circle);
}

void set_stated_distortion(Projector& p, const Distortion& distortion) {
  const auto& c = distortion.coefficients;
  p.mapping = c.size() == 4 ? Mapping::kFisheye : Mapping::kBrown;
  std::copy_n(c.begin(), std::min(c.size(), p.k.size()), p.k.begin());
}

Projector projector_of(const Sheet& sheet, Projection projection, Length focal, Length width) {
  Projector p;
  p.columns = sheet.columns;
  p.rows = sheet.rows;
  p.focal_px = sheet.columns * (focal / width);
  const auto view = stated_view(sheet, focal);
  std::optional<Angle> image_circle;
  if (sheet.distortion) {
    set_stated_distortion(p, *sheet.distortion);
  } else if (projection == Projection::kDistorted && view) {
    meet_view_at_edge(p, *view);
  } else if (projection == Projection::kFisheye) {
    p.mapping = Mapping::kFisheye;
    // A fisheye that sees half the world does so within a circle: its corners are black.
    if (view && view->si() >= 150.0 * deg.si()) image_circle = 0.5 * *view;
  }
  limit_angle(p, image_circle);
  return p;
}

}  // namespace

Lens lens_at(const Sheet& sheet, const LensSetting& setting) {
  const double share = share_of_range(sheet, setting.focal);
  const Projection projection = projection_of(sheet);
  const Width width = active_width(sheet, projection, setting.focal);
  Lens lens;
  lens.projector = projector_of(sheet, projection, setting.focal, width.value);
  lens.active_width = width.value;
  // Only a view the sheet states counts as such, also where the width was its own and the distortion meets the view.
  lens.width_source = sheet.view ? WidthSource::kStatedView : width.source;
  lens.f_number_stated = setting.f_number || sheet.f_number;
  const double open = sheet.f_number ? between(*sheet.f_number, share) : setting.f_number_if_unknown;
  lens.optics = {setting.focal, setting.f_number.value_or(open)};
  return lens;
}

std::optional<Angle> stated_view(const Sheet& sheet, Length focal) {
  if (!sheet.view) return std::nullopt;
  if (!sheet.zoom()) return sheet.view->wide;
  const double share = share_of_range(sheet, focal);
  if (projection_of(sheet) == Projection::kFisheye)
    return Angle{between({sheet.view->wide.si(), sheet.view->tele.si()}, share)};
  // Between the ends the width moves little while the angle falls as the focal length grows.
  const Ends<double> widths{width_for(Projection::kRectilinear, sheet.focal.wide, sheet.view->wide).si(),
                            width_for(Projection::kRectilinear, sheet.focal.tele, sheet.view->tele).si()};
  return Angle{2 * std::atan(between(widths, share) / (2 * focal.si()))};
}

std::optional<Angle> view_of_own_width(const Sheet& sheet, Length focal) {
  const auto own = own_width(sheet);
  if (!own || sheet.distortion || projection_of(sheet) != Projection::kRectilinear) return std::nullopt;
  return Angle{2 * std::atan(own->value / (2.0 * focal))};
}

std::optional<FormatSize> nominal_format(const std::string& optical_format) {
  for (const NamedFormat& format : kFormats)
    if (optical_format == format.name) return FormatSize{format.width_mm * mm, format.height_mm * mm};
  return std::nullopt;
}

std::vector<std::string> known_formats() {
  std::vector<std::string> names;
  names.reserve(kFormats.size());
  for (const NamedFormat& format : kFormats) names.emplace_back(format.name);
  return names;
}

Length width_on_format(const FormatSize& format, int columns, int rows) {
  const double diagonal = std::hypot(format.width.si(), format.height.si());
  return Length{diagonal * columns / std::hypot(columns, rows)};
}

}  // namespace sightfall::camera
