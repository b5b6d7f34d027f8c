// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/stream_rate.h"

#include <algorithm>

#include "camera/stream_in_force.h"
#include "detail/signal.h"
#include "loads/ranges.h"
#include "need/lighting.h"
#include "need/station.h"

namespace sightfall::loads {
namespace {

using namespace units;
using camera::RateControl;

/// Noise of a camera's frame in the light that it is in, grey levels.
double frame_noise(const need::Project& project, need::Station station) {
  if (!station.constants.codec) station.constants.codec = project.settings.typical.codecs.front();
  // Nothing but the frame itself is asked about; light enough that an even frame is exposed on it.
  constexpr double kPlenty = 1e8;
  const detail::Seen seen{.density = 100, .depth = 20, .others = kPlenty};
  return detail::signal_of(station.constants, seen, detail::nominal(station.inputs)).frame_noise;
}

Ranged<DataRate> forecast(const need::Project& project, const StreamRate& rate, const need::Station& station,
                          double noise) {
  const detail::Typical& typical = project.settings.typical;
  const camera::Camera& camera = need::the_named(project.cameras, rate.camera);
  const camera::Sheet& sheet = need::the_named(project.catalogue, camera.sheet);
  const detail::CodecTable& codec = *typical.codecs.at(static_cast<size_t>(rate.stream.codec));
  const double pixels = static_cast<double>(sheet.columns) * sheet.rows * station.frame_rate;
  const Ranged<double> quality =
      rate.stream.quality ? Ranged<double>::exact(*rate.stream.quality) : typical.stream_quality.value;
  return each(spread({quality, typical.rate_forecast.value},
                     [&](const auto& at) { return at[1] * pixels * codec.bits_at_quality(at[0], noise); }),
              [](double bits) { return DataRate{bits}; });
}

void set_rate(const need::Project& project, const StreamRate& rate, const need::Station& station, RateInLight& light) {
  const std::optional<DataRate>& stated = rate.stream.rate;
  if (rate.stream.control == RateControl::kConstant && stated) {
    light.rate = {(1 - kHeld) * *stated, *stated, (1 + kHeld) * *stated};
    return;
  }
  light.rate = forecast(project, rate, station, light.noise);
  if (!stated) return;
  light.at_ceiling = light.rate.nominal >= *stated;
  light.rate = each(light.rate, [&](DataRate one) { return std::min(one, *stated); });
  if (light.at_ceiling) light.rate.high = (1 + kHeld) * *stated;
}

/// A condition by day, or by night, with every camera in its light.
struct Lit {
  std::string name;
  const std::vector<need::Station>* stations;
};

/// The project's first such condition; a named light when it has none, which `named` then holds.
Lit lit_by(const need::LitProject& lit, bool night, std::optional<need::ConditionLight>& named) {
  for (const site::Condition& condition : lit.project().conditions)
    if (by_night(lit.project(), condition) == night) return {condition.name, &lit.in(condition).nominal.stations};
  site::Condition condition;
  condition.name = night ? "dark night" : "bright day";
  condition.light = night ? site::NamedLight::kDarkNight : site::NamedLight::kBrightDay;
  named = lit.light_of(condition);
  return {condition.name, &named->nominal.stations};
}

const MeasuredRate* clip_of(const std::vector<MeasuredRate>& measured, const std::string& camera, bool night) {
  for (const MeasuredRate& one : measured)
    if (one.camera == camera && one.night == night) return &one;
  return nullptr;
}

}  // namespace

std::vector<StreamRate> stream_rates(const need::LitProject& lit, const std::vector<MeasuredRate>& measured) {
  const need::Project& project = lit.project();
  std::vector<StreamRate> rates;
  for (const camera::Camera& camera : project.cameras) {
    const auto& stream = camera::stream_of(need::the_named(project.catalogue, camera.sheet), camera);
    StreamRate rate{camera.name, stream.value_or(camera::Stream{}), !stream, {}, {}};
    if (!stream) rate.stream.control = RateControl::kFree;
    rates.push_back(rate);
  }
  if (rates.empty()) return rates;
  for (const bool night : {false, true}) {
    std::optional<need::ConditionLight> named;
    const Lit usual = lit_by(lit, night, named);
    for (size_t i = 0; i < rates.size(); ++i) {
      RateInLight& light = night ? rates[i].night : rates[i].day;
      const MeasuredRate* clip = clip_of(measured, rates[i].camera, night);
      const bool elsewhere = clip != nullptr && !clip->condition.empty() && clip->condition != usual.name;
      const site::Condition* other = elsewhere ? &need::the_named(project.conditions, clip->condition) : nullptr;
      light.condition = elsewhere ? other->name : usual.name;
      light.noise = frame_noise(project, (elsewhere ? lit.in(*other).nominal.stations : *usual.stations)[i]);
      if (clip == nullptr) {
        set_rate(project, rates[i], lit.stations()[i], light);
      } else {
        light.rate = Ranged<DataRate>::exact(clip->rate);
        light.measured = true;
      }
    }
  }
  return rates;
}

bool by_night(const need::Project& project, const site::Condition& condition) {
  return condition.light == site::NamedLight::kDarkNight || need::is_dark(project, condition);
}

Ranged<DataRate> mean_of(const StreamRate& rate) {
  return each(added(rate.day.rate, rate.night.rate), [](DataRate both) { return both / 2; });
}

Ranged<DataRate> peak_of(const StreamRate& rate) {
  return {std::max(rate.day.rate.low, rate.night.rate.low), std::max(rate.day.rate.nominal, rate.night.rate.nominal),
          std::max(rate.day.rate.high, rate.night.rate.high)};
}

}  // namespace sightfall::loads
