// SPDX-License-Identifier: GPL-3.0-or-later
// Calibration on made data: cameras drawn from what is assumed, observations of them with errors; what is stated of
// each camera must hold it as often as it says, and be worth having.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <random>

#include "card/open_ground.h"
#include "card/seen.h"
#include "detail/delivered.h"
#include "detail/typical_entries.h"
#include "file/project.h"

namespace sightfall::card {
namespace {

using namespace units;

constexpr double kNinety = 1.6449;

CardRequest plain_request() {
  CardRequest request;
  camera::Sheet& sheet = request.sheet;
  sheet.name = "made";
  sheet.columns = 2560;
  sheet.rows = 1440;
  sheet.active_width = 5.12 * mm;
  sheet.focal = {6 * mm, 6 * mm};
  sheet.f_number = camera::Ends<double>{1.6, 1.6};
  sheet.lens_class = camera::LensClass::kStandard;
  sheet.frame_rates = {25};
  sheet.shutter = camera::Ends<Time>{0.0001 * s, 0.04 * s};
  sheet.infrared = camera::Infrared{};
  sheet.infrared->half_power = 50 * deg;
  request.setting.focus = 15 * m;
  request.typical = file::default_typical();
  request.materials = file::default_materials();
  request.tables = file::standard_level_tables();
  return request;
}

/// A card at two distances and gains by infrared, one by a lamp, and three readings.
std::vector<Observation> plan() {
  const auto card = [](double distance, double shutter, double gain, std::optional<double> lux = std::nullopt) {
    Observation one;
    one.distance = Length{distance};
    one.shutter = Time{shutter};
    one.gain = gain;
    one.lux = lux;
    return one;
  };
  const auto automatic = [](double distance) {
    Observation one;
    one.distance = Length{distance};
    return one;
  };
  const auto face = [](double distance) {
    Observation one;
    one.subject = SeenSubject::kFace;
    one.distance = Length{distance};
    return one;
  };
  return {card(8, 0.02, 6), card(25, 0.04, 24), card(60, 0.04, 30), card(10, 0.04, 24, 10), automatic(30), face(15)};
}

/// Entries that a draw changes: all that the station takes a range of.
const std::vector<std::string>& drawn_names() {
  static const std::vector<std::string> kNames{
      "contrast_threshold", "contrast_face_near", "contrast_face",      "lens_blur_standard", "view_tolerance",
      "f_number_tolerance", "noise_threshold",    "efficiency",         "near_850",           "lens_transmission",
      "read_noise",         "full_well",          "largest_gain",       "exposure_target",    "shutter_slowest",
      "reflectance_factor", "infrared_draw",      "infrared_efficiency"};
  return kNames;
}

class Draw {
 public:
  explicit Draw(unsigned seed) : random_{seed} {}
  double normal() { return normal_(random_); }

  double of(const Ranged<double>& range) {
    const double z = normal();
    const double end = z < 0 ? range.low : range.high;
    return range.nominal * std::pow(end / range.nominal, std::abs(z) / kNinety);
  }

  detail::Typical truth(detail::Typical typical) {
    for (const std::string& name : drawn_names()) {
      Ranged<double>& value = (typical.*detail::find_entry(name)->member).value;
      value = Ranged<double>::exact(of(value));
    }
    return typical;
  }

  std::vector<Observation> seen(const CardRequest& truth, std::vector<Observation> plan) {
    for (Observation& one : plan) {
      const Shown there = shown(truth, one);
      if (one.subject == SeenSubject::kGreyCard) {
        const double error = kLevelError * there.level + kLevelOffset;
        one.level = std::clamp(there.level + error * normal(), 0.0, 1.0);
        one.noise = there.noise * std::exp(kNoiseError * normal());
      } else {
        const double p = 1 / (1 + std::pow(std::max(there.delivered, 1e-3) / one.needed.si(), -kReadingSlope));
        one.read = std::uniform_real_distribution<double>{0, 1}(random_) < p;
      }
    }
    return plan;
  }

 private:
  std::mt19937 random_;
  std::normal_distribution<double> normal_;
};

double value_of(const detail::Typical& typical, const std::string& name) {
  return (typical.*detail::find_entry(name)->member).value.nominal;
}

/// The truth of what an entry stands for together with what goes with it.
double together(const Narrowed& one, const detail::Typical& truth) {
  double value = value_of(truth, one.name);
  for (const Held& held : one.held) value *= value_of(truth, held.name) / held.value;
  return value;
}

double width(const Ranged<double>& range) { return std::log(range.high / range.low); }

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

/// Log width of delivered detail at 30 m by night: from everything that is open, or from light and sensor alone.
double night_width(const CardRequest& request, bool light_alone) {
  using detail::Input;
  const OpenGround night{request, card_night()};
  detail::RangedInputs inputs = night.inputs();
  const auto of_light = [](Input input) {
    return input == Input::kSensitivity || input == Input::kInfrared || input == Input::kReadNoise ||
           input == Input::kFullWell || input == Input::kGain || input == Input::kTarget;
  };
  for (size_t k = 0; light_alone && k < detail::kInputCount; ++k)
    if (!of_light(static_cast<Input>(k))) inputs[k] = Ranged<double>::exact(inputs[k].nominal);
  const auto range =
      detail::delivered_range(night.station().constants, night.view_at(30).seen, detail::RangedValues{inputs}).value;
  return std::log(std::max(range.high, 1e-3) / std::max(range.low, 1e-3));
}

/// Of the largest gain, in decibels, the width is a difference.
double narrowing(const Narrowed& one) {
  if (one.name == "largest_gain") return (one.after.high - one.after.low) / (one.before.high - one.before.low);
  return width(one.after) / width(one.before);
}

TEST(CalibrationOnMadeData, HoldsTheTruthAsOftenAsItSaysAndNarrows) {
  constexpr int kTrials = 200;
  const CardRequest request = plain_request();
  Draw draw{20261126};
  int inside = 0, all = 0;
  std::map<std::string, std::vector<double>> ratios;
  std::map<std::string, int> hits, told;
  std::vector<double> told_ratios, detail_ratios, light_ratios;
  const double before = night_width(request, false), light_before = night_width(request, true);
  for (int trial = 0; trial < kTrials; ++trial) {
    CardRequest truth = request;
    truth.typical = draw.truth(request.typical);
    const Calibration found = narrowed(request, draw.seen(truth, plan()), "made");
    for (const Narrowed& one : found.parameters) {
      const double value = together(one, truth.typical);
      const bool within = value >= one.after.low && value <= one.after.high;
      inside += within;
      ++all;
      hits[one.name] += within;
      told[one.name] += one.told;
      ratios[one.name].push_back(narrowing(one));
      if (one.told) told_ratios.push_back(ratios[one.name].back());
    }
    CardRequest after = request;
    after.sheet = with(request.sheet, found.estimates);
    detail_ratios.push_back(night_width(after, false) / before);
    light_ratios.push_back(night_width(after, true) / light_before);
  }
  for (const auto& [name, values] : ratios)
    std::printf("%-22s width %.2f of before, held %d, told %d of %d\n", name.c_str(), median(values), hits[name],
                told[name], kTrials);
  std::printf(
      "held %.3f; told width %.2f; delivered at 30 m %.2f, by light and sensor alone %.2f (before %.2f, %.2f)\n",
      static_cast<double>(inside) / all, median(told_ratios), median(detail_ratios), median(light_ratios), before,
      light_before);
  EXPECT_GE(inside, 0.85 * all);
  EXPECT_LE(inside, 0.95 * all);
  EXPECT_LE(median(told_ratios), 0.5);
  // The face's contrast, the lens's blur and the eye's threshold are not told by brightness and noise, and they are
  // most of what is open at 30 m: the whole range narrows no more than a little.
  EXPECT_LE(median(light_ratios), 0.5);
  EXPECT_LE(median(detail_ratios), 1.05);
}

}  // namespace
}  // namespace sightfall::card
