// SPDX-License-Identifier: GPL-3.0-or-later
#include "card/claims.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "camera/lens.h"

namespace sightfall::card {
namespace {

using namespace units;
using camera::kDisagreement;
using camera::Sheet;

bool agrees(double stated, double computed) { return std::abs(computed / stated - 1) <= kDisagreement; }

Angle rectilinear(Length width, Length focal) { return Angle{2 * std::atan(width / (2.0 * focal))}; }

std::string degrees(Angle angle) { return fmt::format("{:.1f}", angle.in(deg)); }

bool undistorted(const Sheet& sheet) {
  return (!sheet.projection || *sheet.projection == camera::Projection::kRectilinear) && !sheet.distortion;
}

/// A width on the sensor with the words for where it is from.
struct Candidate {
  Length width;
  std::string words;
};

std::vector<Candidate> widths_of(const Sheet& sheet) {
  std::vector<Candidate> widths;
  if (sheet.active_width) widths.push_back({*sheet.active_width, "the stated active width"});
  if (!sheet.optical_format) return widths;
  const auto format = camera::nominal_format(*sheet.optical_format);
  if (!format) return widths;
  const Length same_diagonal = camera::width_on_format(*format, sheet.columns, sheet.rows);
  const double table_aspect = format->width / format->height;
  widths.push_back(
      {format->width, fmt::format("the nominal table width of {} in ({:.2g}:1)", *sheet.optical_format, table_aspect)});
  if (!agrees(format->width.si(), same_diagonal.si()))
    widths.push_back({same_diagonal, fmt::format("{} x {} pixels on the diagonal of {} in", sheet.columns, sheet.rows,
                                                 *sheet.optical_format)});
  return widths;
}

Claim angle_claim(const Sheet& sheet, const char* end, Length focal, Angle stated) {
  Claim claim;
  claim.claim = fmt::format("angle of view{} at {:g} mm", end, focal.in(mm));
  claim.stated = fmt::format("{:g} degrees", stated.in(deg));
  const std::vector<Candidate> widths = widths_of(sheet);
  if (widths.empty()) {
    claim.assumption = "the sheet states neither an active width nor an optical format to hold it against";
    return claim;
  }
  if (!undistorted(sheet)) {
    claim.assumption = "the lens is not rectilinear, so the angle does not follow from format and focal length";
    return claim;
  }
  size_t agreeing = 0;
  for (const Candidate& candidate : widths) {
    const Angle computed = rectilinear(candidate.width, focal);
    agreeing += agrees(stated.si(), computed.si()) ? 1 : 0;
    claim.computed += (claim.computed.empty() ? "" : " or ") + degrees(computed) + " degrees";
    claim.assumption += (claim.assumption.empty() ? "from " : "; from ") + candidate.words;
  }
  claim.holds = agreeing == widths.size() ? Holds::kYes : agreeing == 0 ? Holds::kNo : Holds::kDepends;
  if (claim.holds != Holds::kYes) claim.assumption += "; nominal formats are unreliable, so the stated angle is used";
  return claim;
}

void add_angles(const Sheet& sheet, std::vector<Claim>& claims) {
  if (!sheet.view) return;
  claims.push_back(angle_claim(sheet, sheet.zoom() ? " (short end)" : "", sheet.focal.wide, sheet.view->wide));
  if (sheet.zoom()) claims.push_back(angle_claim(sheet, " (long end)", sheet.focal.tele, sheet.view->tele));
}

/// A frame cannot follow faster than it is read out.
void add_frame_rate(const Sheet& sheet, std::vector<Claim>& claims) {
  if (sheet.frame_rates.empty()) return;
  const double rate = *std::max_element(sheet.frame_rates.begin(), sheet.frame_rates.end());
  Claim claim;
  claim.claim = "frame rate";
  claim.stated = fmt::format("{:g} a second", rate);
  if (!sheet.readout) {
    claim.assumption = "the sheet does not state the readout time";
  } else {
    const double most = 1 / sheet.readout->si();
    claim.computed = fmt::format("at most {:.0f} a second", most);
    claim.assumption = fmt::format("a frame is read out in {:g} ms", sheet.readout->in(ms));
    claim.holds = rate <= most * (1 + kDisagreement) ? Holds::kYes : Holds::kNo;
  }
  claims.push_back(claim);
}

/// What a powered device may draw, W, by class (IEEE 802.3).
constexpr std::array<double, 9> kClassPower{12.95, 3.84, 6.49, 12.95, 25.5, 40, 51, 62, 71.3};

/// The class in a supply's words, such as `PoE class 3`.
std::optional<size_t> class_of(const std::string& supply) {
  const size_t at = supply.find("class ");
  if (at == std::string::npos || at + 6 >= supply.size()) return std::nullopt;
  const char digit = supply[at + 6];
  if (digit < '0' || digit > '8') return std::nullopt;
  return static_cast<size_t>(digit - '0');
}

void add_power(const Sheet& sheet, std::vector<Claim>& claims) {
  if (!sheet.power.supply) return;
  const auto power_class = class_of(*sheet.power.supply);
  if (!power_class) return;
  Claim claim;
  claim.claim = "power class";
  claim.stated = *sheet.power.supply;
  const double allowed = kClassPower.at(*power_class);
  if (!sheet.power.largest) {
    claim.assumption = "the sheet does not state the largest draw";
  } else {
    const double draw = sheet.power.largest->in(W);
    claim.computed = fmt::format("draws up to {:g} W, {:.1f} % of the {:g} W that class {} leaves a device", draw,
                                 100 * draw / allowed, allowed, *power_class);
    claim.assumption = "the stated largest draw is with infrared, heater and motor together";
    claim.holds = draw <= allowed ? Holds::kYes : Holds::kNo;
  }
  claims.push_back(claim);
}

}  // namespace

std::string_view in_words(Holds holds) {
  constexpr std::array<std::string_view, 4> kWords{"yes", "no", "depends", "unknown"};
  return kWords.at(static_cast<size_t>(holds));
}

std::vector<Claim> audit(const Sheet& sheet) {
  std::vector<Claim> claims;
  add_angles(sheet, claims);
  add_frame_rate(sheet, claims);
  add_power(sheet, claims);
  return claims;
}

}  // namespace sightfall::card
