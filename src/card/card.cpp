// SPDX-License-Identifier: GPL-3.0-or-later
#include "card/card.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "base/check.h"
#include "card/night_claims.h"
#include "card/open_ground.h"
#include "detail/delivered.h"
#include "detail/sensor.h"
#include "light/infrared.h"
#include "need/cautions.h"
#include "need/station.h"
#include "need/view.h"

namespace sightfall::card {
namespace {

using namespace units;
using detail::Input;
using need::Station;

/// What an angle takes in at a depth; without end for half the world or more.
Length span(Angle view, double depth) {
  constexpr double kHalfTurn = 3.1;  // rad
  if (view.si() >= kHalfTurn) return Length{std::numeric_limits<double>::infinity()};
  return Length{2 * depth * std::tan(view.si() / 2)};
}

Mark mark_at(const OpenGround& day, const OpenGround& night, Length distance) {
  Mark mark;
  mark.distance = distance;
  const need::SampleView view = day.view_at(distance.si());
  const bool seen = view.gate == detail::Limit::kNone;
  const double depth = seen ? view.seen.depth : distance.si();
  mark.width = span(camera::horizontal_view(day.station().lens.projector), depth);
  mark.height = span(camera::vertical_view(day.station().lens.projector), depth);
  if (seen) mark.density = PixelDensity{view.seen.density * day.values()[Input::kDensityFactor]};
  mark.day = day.seeing_at(distance.si());
  mark.night = night.seeing_at(distance.si());
  return mark;
}

constexpr double kNearest = 0.1, kFarthest = 2000;  // m: between these reaches are looked for

/// Distances on which a reach is bracketed, then narrowed by halving.
std::vector<double> ladder() {
  constexpr int kSteps = 400;
  std::vector<double> distances;
  for (int i = 0; i <= kSteps; ++i)
    distances.push_back(kNearest * std::pow(kFarthest / kNearest, static_cast<double>(i) / kSteps));
  return distances;
}

/// The place between a distance that passes and one that does not where it turns.
template <class Passes>
double edge(Passes passes, double inside, double outside) {
  constexpr int kHalvings = 40;
  for (int i = 0; i < kHalvings; ++i) {
    const double middle = (inside + outside) / 2;
    (passes(middle) ? inside : outside) = middle;
  }
  return inside;
}

struct Stretch {
  Length near, far;
};

/// The stretches of distance that pass, the nearest first; the last has an infinite end when it still passes at the end
/// of the ladder. `on_ladder` says what passes there. One that lies between two rungs is not found.
template <class Passes>
std::vector<Stretch> stretches_where(const std::vector<bool>& on_ladder, Passes passes) {
  const std::vector<double> distances = ladder();
  std::vector<Stretch> stretches;
  for (size_t i = 0; i < distances.size(); ++i) {
    if (!on_ladder[i]) continue;
    const double near = i == 0 ? distances[i] : edge(passes, distances[i], distances[i - 1]);
    while (i + 1 < distances.size() && on_ladder[i + 1]) ++i;
    const bool ends = i + 1 < distances.size();
    const double far = ends ? edge(passes, distances[i], distances[i + 1]) : std::numeric_limits<double>::infinity();
    stretches.push_back({Length{near}, Length{far}});
  }
  return stretches;
}

/// What lies between stretches, where it is long enough to be told: a rung of the ladder is shorter, so that none is
/// missed.
std::vector<Gap> gaps_between(const std::vector<Stretch>& stretches) {
  std::vector<Gap> gaps;
  for (size_t i = 1; i < stretches.size(); ++i) {
    const Gap gap{stretches[i - 1].far, stretches[i].near};
    if (gap.to - gap.from >= std::max(kShortestGap, kShortestGapShare * gap.from)) gaps.push_back(gap);
  }
  return gaps;
}

FocusReach within_one_pixel(const Station& station, Length focus) {
  const camera::DepthOfField field =
      camera::depth_of_field(station.lens.optics, focus, station.lens.pitch() * (1.0 * px));
  return {field.near, field.far};
}

/// Focus as the only loss: everything else as in the reference camera, whose answer is the density itself.
FocusReach within_seventy_percent(const Station& station, Length focus, double threshold) {
  constexpr double kShare = 0.7;
  const double reference = detail::reference_frequency(threshold);
  const auto passes = [&](double distance) {
    const Length blur = camera::blur_circle(station.lens.optics, focus, Length{distance});
    const double defocus = blur / (station.lens.pitch() * (1.0 * px));
    const detail::Blur blurs{detail::kReferenceBlur, 0, defocus, 0, 0};
    return detail::resolved_frequency(blurs, detail::kReferenceContrast, threshold) >= kShare * reference;
  };
  std::vector<bool> on_ladder;
  for (const double distance : ladder()) on_ladder.push_back(passes(distance));
  const std::vector<Stretch> stretches = stretches_where(on_ladder, passes);
  return stretches.empty() ? FocusReach{} : FocusReach{stretches.front().near, stretches.back().far};
}

LevelReach reach_of(const OpenGround& ground, const std::vector<double>& on_ladder, std::string table,
                    const detail::Level& level) {
  const auto enough = [&](double delivered) { return delivered >= level.least.si(); };
  std::vector<bool> reached(on_ladder.size());
  std::transform(on_ladder.begin(), on_ladder.end(), reached.begin(), enough);
  const std::vector<Stretch> stretches =
      stretches_where(reached, [&](double distance) { return enough(ground.delivered_at(distance)); });
  LevelReach reach{std::move(table), level.name, std::nullopt, std::nullopt, gaps_between(stretches)};
  if (stretches.empty()) return reach;
  reach.nearest = stretches.front().near;
  reach.farthest = stretches.back().far;
  return reach;
}

std::vector<LevelReach> reaches(const OpenGround& ground, const std::vector<detail::LevelTable>& tables) {
  std::vector<double> on_ladder;
  for (const double distance : ladder()) on_ladder.push_back(ground.delivered_at(distance));
  std::vector<LevelReach> result;
  for (const detail::LevelTable& table : tables)
    for (const detail::Level& level : table.levels) result.push_back(reach_of(ground, on_ladder, table.name, level));
  return result;
}

/// Farthest distance at which a face's bright parts burn out; none when they never do.
std::optional<Length> clips_within(const OpenGround& night) {
  const std::vector<double> distances = ladder();
  const auto clipped = [&](double distance) { return night.signal_at(distance).clipped > 0; };
  const auto last = std::find_if(distances.rbegin(), distances.rend(), clipped);
  if (last == distances.rend()) return std::nullopt;
  if (last == distances.rbegin()) return Length{*last};
  return Length{edge(clipped, *last, *(last - 1))};
}

Clipping clipping_of(OpenGround& night) {
  Clipping clipping;
  clipping.largest_gain = detail::decibels(night.values()[Input::kGain]);
  if (!night.station().infrared_on) return clipping;
  const bool adaptive = night.station().constants.limits.adaptive;
  night.set_adaptive(false);
  clipping.fixed = clips_within(night);
  night.set_adaptive(true);
  clipping.adaptive = clips_within(night);
  night.set_adaptive(adaptive);
  return clipping;
}

/// How far something upright that crosses the picture leans; a sheet that states its readout leaves no range.
Ranged<Angle> lean_of(const CardRequest& request, double pixels_a_second) {
  constexpr double kMilliseconds = 1e-3;
  const auto at = [&](double readout_ms) {
    const double seconds = request.sheet.readout ? request.sheet.readout->si() : readout_ms * kMilliseconds;
    return Angle{std::atan(detail::rolling_lean(pixels_a_second, seconds, request.sheet.rows))};
  };
  const Ranged<double>& typical = request.typical.readout.value;
  return {at(typical.low), at(typical.nominal), at(typical.high)};
}

std::vector<ShutterNeed> shutters_of(const CardRequest& request, const OpenGround& day, const OpenGround& night) {
  const double distance = day.station().lens.projector.focal_px / kShutterDensity.si();
  std::vector<ShutterNeed> needs;
  const std::array<std::pair<const char*, const detail::TypicalValue*>, 2> movers{
      {{"walker", &request.typical.speed_walker}, {"car", &request.typical.speed_vehicle}}};
  for (const auto& [mover, speed] : movers) {
    ShutterNeed need;
    need.mover = mover;
    need.speed = Speed{speed->value.nominal};
    need.distance = Length{distance};
    need.shutter = Time{1 / (kShutterDensity.si() * speed->value.nominal)};
    if (request.sheet.shutter)
      need.shutter = std::clamp(need.shutter, request.sheet.shutter->wide, request.sheet.shutter->tele);
    OpenGround fixed{request, card_night()};
    fixed.fix_shutter(need.shutter);
    need.noise_ratio = detail::noise_ratio(fixed.signal_at(distance));
    need.noise_ratio_automatic = detail::noise_ratio(night.signal_at(distance));
    need.lean = lean_of(request, kShutterDensity.si() * speed->value.nominal);
    needs.push_back(need);
  }
  return needs;
}

void add_infrared(const CardRequest& request, const OpenGround& night, RangeCard& card) {
  card.infrared = night.station().infrared_on;
  card.monochrome = night.station().monochrome;
  if (!night.station().infrared) return;
  const need::OwnInfrared& lamp = *night.station().infrared;
  const double strongest = lamp.intensity * night.inputs()[static_cast<size_t>(Input::kInfrared)].high;
  constexpr Time kLong{1001};  // s: the limit for longer than 1000 s
  card.eye_distance = light::eye_distance(RadiantIntensity{strongest}, kLong);
  card.glows = light::glows(request.sheet.infrared->wavelength.value_or(850 * nm));
  const light::Material* ground = request.materials.find(request.materials.ground);
  if (ground != nullptr) card.clipping.ground_reflectance = ground->reflectance[lamp.band];
  card.cautions.push_back(fmt::format(
      "nearer than {:.2f} m its infrared may exceed the exposure limit of IEC 62471 for looking into it for more than "
      "1000 s (100 W/m2): do not look into the lamp from near by, nor work there with it on",
      card.eye_distance->in(m)));
}

std::vector<std::string> cautions_for(const CardRequest& request) {
  std::vector<std::string> cautions;
  if (request.height && *request.height < need::kReachOfHand)
    cautions.push_back(need::within_reach_words(*request.height));
  if (request.height && *request.height > need::kWorkAtHeight) cautions.emplace_back(need::kHeightKills);
  return cautions;
}

}  // namespace

std::vector<Length> default_marks() {
  std::vector<Length> marks;
  for (const double metres :
       {2.0, 3.0, 5.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 30.0, 40.0, 46.0, 61.0, 80.0, 100.0, 150.0})
    marks.push_back(metres * m);
  return marks;
}

std::vector<Mark> curve(const CardRequest& request) {
  CHECK_GT(request.tables.size(), size_t{0});
  const OpenGround day{request, card_day()}, night{request, card_night()};
  std::vector<Mark> marks;
  for (int i = 0; i < kCurvePoints; ++i) {
    const double share = static_cast<double>(i) / (kCurvePoints - 1);
    marks.push_back(mark_at(day, night, kCurveNear * std::pow(kCurveFar / kCurveNear, share)));
  }
  return marks;
}

RangeCard range_card(const CardRequest& request) {
  CHECK_GT(request.tables.size(), size_t{0});
  const OpenGround ground{request, card_day()};
  OpenGround night{request, card_night()};
  const Station& station = ground.station();
  RangeCard card;
  card.camera = station.name;
  card.focal = station.lens.optics.focal;
  card.f_number = station.lens.optics.f_number;
  card.focus = Length{ground.values()[Input::kFocus]};
  card.horizontal_view = camera::horizontal_view(station.lens.projector);
  card.vertical_view = camera::vertical_view(station.lens.projector);
  card.tilt = ground.tilt();
  for (const Length distance : request.marks.empty() ? default_marks() : request.marks)
    card.marks.push_back(mark_at(ground, night, distance));
  card.one_pixel = within_one_pixel(station, card.focus);
  card.seventy_percent = within_seventy_percent(station, card.focus, ground.values()[Input::kThreshold]);
  card.reach = reaches(ground, request.tables);
  card.reach_night = reaches(night, request.tables);
  card.assumptions = station.assumptions;
  card.cautions = cautions_for(request);
  card.clipping = clipping_of(night);
  card.shutters = shutters_of(request, ground, night);
  add_infrared(request, night, card);
  card.claims = audit(request.sheet);
  add_night_claims(request, night, card.claims);
  return card;
}

}  // namespace sightfall::card
