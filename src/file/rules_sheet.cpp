// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <cmath>

#include "camera/lens.h"
#include "file/field.h"
#include "file/rules.h"
#include "file/words.h"

namespace sightfall::file {
namespace {

using namespace sightfall::units;
using camera::Projection;

template <Dim D>
std::string both(const camera::Ends<Quantity<D>>& ends, Quantity<D> unit) {
  if (ends.wide == ends.tele) return number(ends.wide, unit);
  return fmt::format("[{}, {}]", number(ends.wide, unit), number(ends.tele, unit));
}

/// One sheet, where it is told, and where what is wrong with it goes.
class SheetRules {
 public:
  SheetRules(const camera::Sheet& sheet, const Spot& spot, Report& report)
      : sheet_{sheet}, spot_{spot}, report_{report} {}

  void check() {
    check_order();
    check_width();
    check_view();
    check_iris();
    check_distortion();
    check_stream(sheet_.stream, spot_, report_);
  }

 private:
  void wrong(const char* field, std::string text) { report_.add(ErrorKind::kField, spot_.at(field), std::move(text)); }

  bool readable(const char* field) const { return report_.clean(spot_.path, field); }

  void check_order() {
    if (sheet_.focal.wide > sheet_.focal.tele)
      wrong("focal_mm", "found " + both(sheet_.focal, mm) + "; the wide (shorter) end stands first");
    if (sheet_.shutter && sheet_.shutter->wide > sheet_.shutter->tele)
      wrong("shutter_s", "found " + both(*sheet_.shutter, s) + "; the shortest stands first");
    if (const auto& t = sheet_.temperature_c; t && t->wide > t->tele)
      wrong("temperature_c",
            fmt::format("found [{}, {}]; the coldest stands first", print_number(t->wide), print_number(t->tele)));
  }

  /// How wide the picture is on the sensor must follow from something, and make pixels of a size that is made.
  void check_width() {
    if (!sheet_.view && !sheet_.active_width && !sheet_.optical_format && readable("view_deg") &&
        readable("active_width_mm") && readable("optical_format"))
      wrong("view_deg", "missing; needed is at least one of view_deg, active_width_mm and optical_format");
    if (sheet_.optical_format && !camera::nominal_format(*sheet_.optical_format)) {
      const std::vector<std::string> known = camera::known_formats();
      wrong("optical_format", "found " + in_quotes(*sheet_.optical_format) + "; known are " +
                                  listed(std::vector<std::string_view>(known.begin(), known.end())));
    }
    if (sheet_.active_width)
      check_pitch("active_width_mm", *sheet_.active_width, number(*sheet_.active_width, mm) + " mm");
  }

  void check_pitch(const char* field, Length width, const std::string& how) {
    constexpr double kFinest = 0.3, kCoarsest = 100;  // um
    const double pitch = width.in(um) / sheet_.columns;
    if (pitch >= kFinest && pitch <= kCoarsest) return;
    wrong(field, fmt::format("{} over {} pixels makes each {:.3g} um wide; allowed is {} to {} um", how, sheet_.columns,
                             pitch, kFinest, kCoarsest));
  }

  void check_view() {
    if (!sheet_.view || sheet_.focal.wide > sheet_.focal.tele) return;
    constexpr double kStraightest = 179;  // degrees
    const auto [wide, tele] = *sheet_.view;
    if (sheet_.zoom() ? wide <= tele : wide != tele) {
      wrong("view_deg", "found " + both(*sheet_.view, deg) +
                            (sheet_.zoom() ? "; the angle must fall from the wide end to the tele end"
                                           : "; one focal length has one angle of view"));
    } else if (!fisheye() && wide.in(deg) > kStraightest) {
      wrong("view_deg",
            fmt::format("found {}; a lens that is no fisheye sees at most {} deg", number(wide, deg), kStraightest));
    } else {
      check_view_on_sensor(sheet_.focal.wide, wide);
      if (sheet_.zoom()) check_view_on_sensor(sheet_.focal.tele, tele);
    }
  }

  bool fisheye() const {
    constexpr double kWidestUnnamed = 110;  // degrees; a wider lens is taken for a fisheye, as in camera/lens.cpp
    return sheet_.projection ? *sheet_.projection == Projection::kFisheye : sheet_.view->wide.in(deg) >= kWidestUnnamed;
  }

  /// A distorted lens's angle does not tell its width.
  void check_view_on_sensor(Length focal, Angle view) {
    if (sheet_.projection && *sheet_.projection == Projection::kDistorted) return;
    const double half = view.in(rad) / 2;
    check_pitch("view_deg", 2 * (fisheye() ? half : std::tan(half)) * focal,
                fmt::format("a view of {} deg at {} mm", number(view, deg), number(focal, mm)));
  }

  void check_iris() {
    if (!sheet_.smallest_iris) return;
    if (sheet_.iris == camera::Iris::kFixed)
      return wrong("smallest_iris", R"(allowed only with iris "manual" or "automatic"; a fixed one does not close)");
    if (!sheet_.f_number) return;
    const double open = std::max(sheet_.f_number->wide, sheet_.f_number->tele);
    if (*sheet_.smallest_iris < open)
      wrong("smallest_iris", fmt::format("found {}; an iris closes to no less than its open f-number, {}",
                                         print_number(*sheet_.smallest_iris), print_number(open)));
  }

  void check_distortion() {
    if (!sheet_.distortion || !sheet_.projection) return;
    const size_t count = sheet_.distortion->coefficients.size();
    if (*sheet_.projection == Projection::kRectilinear)
      return wrong("distortion", R"(allowed only with projection "distorted" (5 numbers) or "fisheye" (4 numbers))");
    const bool fisheye = *sheet_.projection == Projection::kFisheye;
    if (count != (fisheye ? 4 : 5))
      wrong("distortion", fmt::format("found {} numbers; projection \"{}\" has {}", count,
                                      fisheye ? "fisheye" : "distorted", fisheye ? 4 : 5));
  }

  const camera::Sheet& sheet_;
  const Spot& spot_;
  Report& report_;
};

}  // namespace

void check_sheet(const camera::Sheet& sheet, const Spot& spot, Report& report) {
  check_estimates(sheet, spot, report);
  for (const char* field : {"", "pixels", "focal_mm"})
    if (!report.clean(spot.path, field)) return;
  SheetRules(sheet, spot, report).check();
}

void check_stream(const std::optional<camera::Stream>& stream, const Spot& spot, Report& report) {
  if (!stream || !report.clean(spot.path, "stream")) return;
  const bool free = stream->control == camera::RateControl::kFree;
  const bool constant = stream->control == camera::RateControl::kConstant;
  if (!free && !stream->rate)
    report.add(ErrorKind::kField, spot.at("stream.bit_rate_kbps"), "missing; needed where a rate or a ceiling is held");
  if (free && stream->rate)
    report.add(
        ErrorKind::kField, spot.at("stream.bit_rate_kbps"),
        fmt::format(R"(found {}; a quality alone is held: "control" is "free")", number(*stream->rate, kbit / s)));
  if (constant && stream->quality)
    report.add(ErrorKind::kField, spot.at("stream.quality"),
               fmt::format(R"(found {}; a rate is held: "control" is "constant")", print_number(*stream->quality)));
}

}  // namespace sightfall::file
