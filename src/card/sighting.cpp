// SPDX-License-Identifier: GPL-3.0-or-later
#include "card/sighting.h"

#include <algorithm>
#include <cmath>

#include "card/open_ground.h"
#include "detail/delivered.h"
#include "detail/sensor.h"
#include "detail/signal.h"
#include "light/spectrum.h"
#include "need/illumination.h"

namespace sightfall::card {
namespace {

using detail::Input;

constexpr double kGrey = 0.18;

need::Need still(SeenSubject subject) {
  need::Need need;
  need.subject = subject == SeenSubject::kPlate ? need::Subject::kPlate : need::Subject::kFace;
  need.speed = Speed{0};
  return need;
}

/// On the axis; by a lamp that is told, the camera's own is off.
CardRequest request_for(const CardRequest& request, const Observation& observation) {
  CardRequest asked = request;
  asked.height.reset();
  asked.tilt.reset();
  if (!observation.lux) return asked;
  const bool colour = *observation.lux >= request.typical.night_switch.value.nominal;
  asked.setting.picture = colour ? camera::PictureMode::kColour : camera::PictureMode::kMonochrome;
  asked.setting.infrared = camera::InfraredUse::kOff;
  return asked;
}

light::PerBand reflectance_of(const CardRequest& request, SeenSubject subject) {
  if (subject == SeenSubject::kGreyCard) return {{kGrey, kGrey, kGrey}};
  constexpr double kUnknown = 0.3;  // of a table without subjects
  return request.materials.reflectance(subject == SeenSubject::kFace ? "skin" : "plate sheeting", kUnknown);
}

void light_subject(const CardRequest& request, const OpenGround& ground, const Observation& observation, Sighting& s) {
  const need::Station& station = ground.station();
  if (observation.lux) {
    const light::PerBand falls = *observation.lux * light::photons_per_lux(light::Spectrum::kLed);
    s.seen.others = dot(station.response, reflectance_of(request, observation.subject) * falls);
    s.seen.path = s.seen.glare = 0;
    s.constants.metering = {};  // a frame lit as the subject is
    s.near_infrared = false;
  } else if (observation.subject == SeenSubject::kGreyCard && station.infrared_on) {
    const double distance = observation.distance.si();
    const double through = ground.lighting().transmission(distance)[station.infrared->band];
    s.seen.own = station.response[station.infrared->band] * need::own_light(*station.infrared, 1, distance) * kGrey *
                 through * through;
  }
}

Ranged<double>& at(Sighting& sighting, Input input) { return sighting.inputs[static_cast<size_t>(input)]; }

}  // namespace

Sighting sighting_of(const CardRequest& request, const Observation& observation) {
  const CardRequest asked = request_for(request, observation);
  const OpenGround ground{asked, card_night(), still(observation.subject)};
  const need::Station& station = ground.station();
  Sighting s;
  s.constants = station.constants;
  s.inputs = ground.inputs();
  s.near_infrared = station.infrared_on;
  s.visible = station.sensitivity_day;
  s.infrared = station.sensitivity_night;
  s.own_light = station.inputs[static_cast<size_t>(Input::kInfrared)];
  const need::SampleView view = ground.view_at(observation.distance.si());
  if (view.gate == detail::Limit::kNone) s.seen = view.seen;
  light_subject(request, ground, observation, s);
  if (observation.subject == SeenSubject::kGreyCard) at(s, Input::kReflectance) = Ranged<double>::exact(1);
  s.exposed_by_hand = observation.shutter && observation.gain;
  if (s.exposed_by_hand) {
    constexpr double kNeverReached = 1e9;  // so that the exposure stays at the shutter and the gain that are told
    s.constants.shutter_fixed = true;
    at(s, Input::kShutter) = Ranged<double>::exact(observation.shutter->si());
    at(s, Input::kGain) = Ranged<double>::exact(detail::ratio_of_decibels(*observation.gain));
    at(s, Input::kTarget) = Ranged<double>::exact(kNeverReached);
    s.constants.limits.adaptive = false;
  }
  return s;
}

Shown shown_by(const Sighting& sighting, const detail::Values& values) {
  const detail::Signal signal = detail::signal_of(sighting.constants, sighting.seen, values);
  const double mean = std::clamp(signal.subject + signal.behind, 1e-9, signal.full_scale);
  Shown shown;
  shown.level = std::sqrt(mean / signal.full_scale);
  shown.noise = signal.deviation / (2 * std::sqrt(mean * signal.full_scale));  // through the tone curve's slope
  shown.delivered = detail::delivered(sighting.constants, sighting.seen, values);
  return shown;
}

Shown shown(const CardRequest& request, const Observation& observation) {
  const Sighting sighting = sighting_of(request, observation);
  return shown_by(sighting, detail::nominal(sighting.inputs));
}

}  // namespace sightfall::card
