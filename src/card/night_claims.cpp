// SPDX-License-Identifier: GPL-3.0-or-later
#include "card/night_claims.h"

#include <fmt/format.h>

#include <algorithm>

#include "detail/sensor.h"
#include "light/spectrum.h"

namespace sightfall::card {
namespace {

using namespace units;
using detail::Input;

std::string level_words(const CardRequest& request, const Seeing& seeing) {
  const std::string& level = seeing.levels.front();
  return level.empty() ? fmt::format("below {}", request.tables.front().levels.front().name) : level;
}

Claim reach_claim(const CardRequest& request, const OpenGround& night) {
  const Length reach = *request.sheet.infrared->reach;
  const Seeing there = night.seeing_at(reach.si());
  const auto& levels = request.tables.front().levels;
  const detail::Level& wanted = levels[std::min(kReachLevel, levels.size() - 1)];
  Claim claim;
  claim.claim = "infrared reach";
  claim.stated = fmt::format("{:g} m", reach.in(m));
  claim.computed = fmt::format("a face there has {:.0f} px/m ({:.0f} to {:.0f}): {}", there.delivered.nominal.si(),
                               there.delivered.low.si(), there.delivered.high.si(), level_words(request, there));
  claim.assumption =
      fmt::format("held to {} ({:g} px/m); open ground, black sky, {}, shutter 1/{:.0f} s, gain {:.0f} dB", wanted.name,
                  wanted.least.si(),
                  request.sheet.infrared->intensity ? "stated intensity" : "intensity estimated from the power drawn",
                  1 / std::max(there.shutter.si(), 1e-6), there.gain);
  claim.holds = there.delivered.low >= wanted.least           ? Holds::kYes
                : there.delivered.high < levels.front().least ? Holds::kNo
                                                              : Holds::kDepends;
  return claim;
}

/// Signal to noise of a matt grey surface under a light, at the shutter that a claim of lowest light may rest on.
double grey_ratio(const OpenGround& night, double lux, double sensitivity, double read_noise, bool colour) {
  constexpr double kGrey = 0.5, kShutter = 1.0 / 25;
  const need::Station& station = night.station();
  const light::PerBand& response = colour ? station.response_day : station.response_night;
  const double rate = sensitivity * kGrey * lux *
                      dot(response, light::photons_per_lux(light::Spectrum::kHalogen));  // as measured: 2856 K
  const detail::SensorNoise noise{read_noise, station.constants.dark * kShutter, 0};
  return detail::signal_to_noise(rate * kShutter, noise);
}

Claim light_claim(const CardRequest& request, const OpenGround& night) {
  const double lux = *request.sheet.lowest_light_lux;
  const auto& inputs = night.inputs();
  const Ranged<double>& read = inputs[static_cast<size_t>(Input::kReadNoise)];
  const Ranged<double>& by_day = night.station().sensitivity_day;
  const Ranged<double>& by_night = night.station().sensitivity_night;
  const Ranged<double> colour{grey_ratio(night, lux, by_day.low, read.high, true),
                              grey_ratio(night, lux, 1, read.nominal, true),
                              grey_ratio(night, lux, by_day.high, read.low, true)};
  const Ranged<double> grey{grey_ratio(night, lux, by_night.low, read.high, false),
                            grey_ratio(night, lux, 1, read.nominal, false),
                            grey_ratio(night, lux, by_night.high, read.low, false)};
  Claim claim;
  claim.claim = "lowest light";
  claim.stated = fmt::format("{:g} lx", lux);
  claim.computed =
      fmt::format("signal to noise {:.1f} ({:.1f} to {:.1f}) in colour, {:.1f} ({:.1f} to {:.1f}) in monochrome",
                  colour.nominal, colour.low, colour.high, grey.nominal, grey.low, grey.high);
  claim.assumption = fmt::format(
      "a matt grey surface of half reflectance under a lamp of 2856 K, 1/25 s, f/{:.2g}, held to {:g}, the first "
      "acceptable signal to noise of ISO 12232; the sheet does not say in which mode",
      night.station().lens.optics.f_number, kAcceptable);
  claim.holds = colour.low >= kAcceptable ? Holds::kYes : grey.high < kAcceptable ? Holds::kNo : Holds::kDepends;
  return claim;
}

}  // namespace

void add_night_claims(const CardRequest& request, const OpenGround& night, std::vector<Claim>& claims) {
  if (request.sheet.infrared && request.sheet.infrared->reach) claims.push_back(reach_claim(request, night));
  if (request.sheet.lowest_light_lux) claims.push_back(light_claim(request, night));
}

}  // namespace sightfall::card
