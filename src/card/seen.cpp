// SPDX-License-Identifier: GPL-3.0-or-later
#include "card/seen.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "card/laplace.h"
#include "card/sighting.h"
#include "detail/sensor.h"
#include "detail/typical_entries.h"

namespace sightfall::card {
namespace {

using detail::Input;

constexpr double kNinety = 1.6449;  // standard deviations to either end of a 90 % range

/// An uncertain factor. Those without an entry are not asked for, but what is told must allow for them.
struct Unknown {
  Input input = Input::kThreshold;
  Ranged<double> factor{1, 1, 1};  ///< nominal one
  std::string entry;
  std::vector<std::string> held;
  enum class Where { kAll, kNear, kVisible, kSubject } where = Where::kAll;
  SeenSubject subject = SeenSubject::kGreyCard;  ///< of kSubject, with near_infrared
  bool near_infrared = false;

  double at(double z) const { return z < 0 ? std::pow(factor.low, -z / kNinety) : std::pow(factor.high, z / kNinety); }
};

Ranged<double> factor_of(const Ranged<double>& of) { return {of.low / of.nominal, 1, of.high / of.nominal}; }

/// The sum of the squares of the logarithms, one part of it taken away or added.
Ranged<double> combined(const Ranged<double>& a, const Ranged<double>& b, double sign) {
  const auto side = [&](double one, double other) {
    return std::sqrt(std::max(0.0, std::pow(std::log(one), 2) + sign * std::pow(std::log(other), 2)));
  };
  return {std::exp(-side(a.low, b.low)), 1, std::exp(side(a.high, b.high))};
}

bool at_940(const camera::Sheet& sheet) {
  constexpr double kBetween = 895e-9;  // m, of the two usual wavelengths
  return sheet.infrared && sheet.infrared->wavelength && sheet.infrared->wavelength->si() > kBetween;
}

/// Lens and sensor by visible light.
Unknown visible_light(const camera::Sheet& sheet, const Sighting& any) {
  const bool stated = sheet.sensor && sheet.sensor->efficiency;
  Unknown unknown{Input::kSensitivity, any.visible};
  unknown.entry = stated ? "lens_transmission" : "efficiency";
  if (!stated) unknown.held = {"lens_transmission"};
  const bool linked = !sheet.sensor || !sheet.sensor->efficiency_850;
  unknown.where = linked ? Unknown::Where::kAll : Unknown::Where::kVisible;
  return unknown;
}

/// The lamp and what the sensor makes of its light.
Unknown own_infrared(const camera::Sheet& sheet, const Sighting& any) {
  const bool linked = !sheet.sensor || !sheet.sensor->efficiency_850;
  Unknown unknown{Input::kSensitivity};
  unknown.where = Unknown::Where::kNear;
  const Ranged<double> near = linked ? combined(any.infrared, any.visible, -1) : any.infrared;
  unknown.factor = combined(near, any.own_light, +1);
  std::vector<std::string> entries;
  if (sheet.infrared && !sheet.infrared->intensity) {
    entries.emplace_back("infrared_efficiency");
    if (!sheet.infrared->draw) entries.emplace_back(sheet.power.largest ? "infrared_share" : "infrared_draw");
  }
  if (at_940(sheet)) entries.emplace_back("near_940");
  if (linked) entries.emplace_back("near_850");
  if (entries.empty()) return unknown;
  unknown.entry = entries.front();
  unknown.held.assign(entries.begin() + 1, entries.end());
  return unknown;
}

const char* lens_entry(const camera::Sheet& sheet) {
  constexpr std::array<const char*, 3> kEntries{"lens_blur_economy", "lens_blur_standard", "lens_blur_precise"};
  return kEntries.at(static_cast<size_t>(sheet.lens_class.value_or(camera::LensClass::kStandard)));
}

/// The entry to tell of an input that stands for itself; null for one that is only allowed for.
const char* entry_of(Input input, const camera::Sheet& sheet, const camera::Camera& setting) {
  const camera::SensorFacts facts = sheet.sensor.value_or(camera::SensorFacts{});
  switch (input) {
    case Input::kReadNoise:
      return facts.read_noise ? nullptr : "read_noise";
    case Input::kFullWell:
      return facts.full_well ? nullptr : "full_well";
    case Input::kLensBlur:
      return lens_entry(sheet);
    case Input::kThreshold:
      return "contrast_threshold";
    case Input::kNoiseThreshold:
      return "noise_threshold";
    case Input::kTarget:
      return "exposure_target";
    case Input::kGain:
      return facts.largest_gain || setting.largest_gain ? nullptr : "largest_gain";
    default:
      return nullptr;
  }
}

bool of_subject(Input input) { return input == Input::kContrast || input == Input::kReflectance; }

/// Every factor that some sighting leaves open, once.
class Unknowns {
 public:
  Unknowns(const CardRequest& request, const std::vector<Observation>& observations,
           const std::vector<Sighting>& sightings)
      : observations_{observations}, sightings_{sightings} {
    all_.push_back(visible_light(request.sheet, sightings.front()));
    all_.push_back(own_infrared(request.sheet, sightings.front()));
    for (size_t i = 0; i < sightings.size(); ++i)
      for (size_t k = 0; k < detail::kInputCount; ++k) add(request, i, static_cast<Input>(k));
  }

  const std::vector<Unknown>& all() const { return all_; }

  detail::Values values(size_t sighting, const std::vector<double>& z) const {
    std::array<double, detail::kInputCount> values{};
    const detail::RangedInputs& inputs = sightings_[sighting].inputs;
    for (size_t k = 0; k < values.size(); ++k) values[k] = inputs[k].nominal;
    for (size_t u = 0; u < all_.size(); ++u)
      if (applies(all_[u], sighting)) values[static_cast<size_t>(all_[u].input)] *= all_[u].at(z[u]);
    return detail::Values{values};
  }

 private:
  bool applies(const Unknown& unknown, size_t i) const {
    const Sighting& sighting = sightings_[i];
    const Ranged<double>& range = sighting.inputs[static_cast<size_t>(unknown.input)];
    switch (unknown.where) {
      case Unknown::Where::kNear:
        return sighting.near_infrared;
      case Unknown::Where::kVisible:
        return !sighting.near_infrared;
      case Unknown::Where::kSubject:
        return observations_[i].subject == unknown.subject && sighting.near_infrared == unknown.near_infrared &&
               range.low < range.high;
      case Unknown::Where::kAll:
        break;
    }
    return range.low < range.high;
  }

  void add(const CardRequest& request, size_t i, Input input) {
    const Ranged<double>& range = sightings_[i].inputs[static_cast<size_t>(input)];
    const bool elsewhere = input == Input::kSensitivity || input == Input::kInfrared;
    if (elsewhere || range.low <= 0 || range.low >= range.high) return;
    const auto known = [&](const Unknown& u) { return u.input == input && applies(u, i); };
    if (std::any_of(all_.begin(), all_.end(), known)) return;
    Unknown unknown{input, factor_of(range)};
    if (const char* entry = entry_of(input, request.sheet, request.setting)) unknown.entry = entry;
    if (of_subject(input)) {
      unknown.where = Unknown::Where::kSubject;
      unknown.subject = observations_[i].subject;
      unknown.near_infrared = sightings_[i].near_infrared;
    }
    all_.push_back(unknown);
  }

  const std::vector<Observation>& observations_;
  const std::vector<Sighting>& sightings_;
  std::vector<Unknown> all_;
};

/// What was seen, in the order of `predictions`.
std::vector<Datum> data_of(const std::vector<Observation>& observations) {
  std::vector<Datum> data;
  for (const Observation& one : observations) {
    if (one.level) data.push_back({Datum::Kind::kValue, *one.level, kLevelError * *one.level + kLevelOffset});
    if (one.noise) data.push_back({Datum::Kind::kValue, std::log(std::max(*one.noise, 1e-6)), kNoiseError});
    if (one.read) data.push_back({Datum::Kind::kReading, *one.read ? 1.0 : 0.0, 1});
  }
  return data;
}

std::vector<double> predictions(const std::vector<Observation>& observations, const std::vector<Sighting>& sightings,
                                const Unknowns& unknowns, const std::vector<double>& z) {
  std::vector<double> predicted;
  for (size_t i = 0; i < observations.size(); ++i) {
    const Observation& one = observations[i];
    const Shown shown = shown_by(sightings[i], unknowns.values(i, z));
    if (one.level) predicted.push_back(shown.level);
    if (one.noise) predicted.push_back(std::log(std::max(shown.noise, 1e-6)));
    if (one.read) predicted.push_back(kReadingSlope * std::log(std::max(shown.delivered, 1e-3) / one.needed.si()));
  }
  return predicted;
}

const detail::TypicalValue& value_of(const detail::Typical& typical, const std::string& entry) {
  return typical.*detail::find_entry(entry)->member;
}

/// What is told of several entries together moves each by the same factor; one of them carries the range.
Narrowed narrowed_of(const Unknown& unknown, const detail::Typical& typical, double mode, double deviation) {
  constexpr double kTold = 0.8;
  const double nominal = value_of(typical, unknown.entry).value.nominal;
  const auto within = [](const std::string& name, double value) {
    const detail::TypicalEntry& entry = *detail::find_entry(name);
    return std::clamp(value, entry.lowest, entry.highest);
  };
  const double share = std::pow(unknown.at(mode), 1 / (1.0 + static_cast<double>(unknown.held.size())));
  const auto value = [&](double z, double others) {
    const double factor = unknown.at(z) / others;
    const bool in_decibels = unknown.input == Input::kGain;
    return within(unknown.entry, in_decibels ? nominal + detail::decibels(factor) : nominal * factor);
  };
  Narrowed one;
  one.name = unknown.entry;
  one.unit = value_of(typical, unknown.entry).unit;
  double others = 1;
  for (const std::string& name : unknown.held) {
    const double before = value_of(typical, name).value.nominal;
    one.held.push_back({name, value_of(typical, name).unit, within(name, before * share)});
    others *= one.held.back().value / before;
  }
  one.before = {value(-kNinety, 1), nominal, value(kNinety, 1)};
  one.after = {value(mode - kNinety * deviation, others), value(mode, others),
               value(mode + kNinety * deviation, others)};
  one.told = deviation <= kTold;
  return one;
}

void add_estimates(const Narrowed& one, const std::string& source, std::vector<camera::Estimate>& estimates) {
  estimates.push_back({one.name, one.after, source});
  for (const Held& held : one.held)
    estimates.push_back({held.name, Ranged<double>::exact(held.value),
                         fmt::format("told only together with {}, whose range is that of both; {}", one.name, source)});
}

}  // namespace

Calibration narrowed(const CardRequest& request, const std::vector<Observation>& observations,
                     const std::string& file) {
  Calibration calibration;
  calibration.observations = observations.size();
  if (observations.empty()) return calibration;
  std::vector<Sighting> sightings;
  sightings.reserve(observations.size());
  for (const Observation& one : observations) sightings.push_back(sighting_of(request, one));
  const Unknowns unknowns{request, observations, sightings};
  const Posterior posterior = laplace(unknowns.all().size(), data_of(observations), [&](const std::vector<double>& z) {
    return predictions(observations, sightings, unknowns, z);
  });
  const detail::Typical typical = detail::with_estimates(request.typical, request.sheet.estimates);
  const std::string source =
      fmt::format("from {} observation{} in {}", observations.size(), observations.size() == 1 ? "" : "s", file);
  for (size_t u = 0; u < unknowns.all().size(); ++u) {
    const Unknown& unknown = unknowns.all()[u];
    if (unknown.entry.empty() || unknown.factor.low >= unknown.factor.high) continue;
    calibration.parameters.push_back(narrowed_of(unknown, typical, posterior.mode[u], posterior.deviation[u]));
    if (calibration.parameters.back().told) add_estimates(calibration.parameters.back(), source, calibration.estimates);
  }
  return calibration;
}

camera::Sheet with(camera::Sheet sheet, const std::vector<camera::Estimate>& estimates) {
  for (const camera::Estimate& estimate : estimates) {
    const auto same = std::find_if(sheet.estimates.begin(), sheet.estimates.end(),
                                   [&](const camera::Estimate& one) { return one.name == estimate.name; });
    if (same == sheet.estimates.end())
      sheet.estimates.push_back(estimate);
    else
      *same = estimate;
  }
  return sheet;
}

}  // namespace sightfall::card
