// SPDX-License-Identifier: GPL-3.0-or-later
#include "card/card.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <memory>

#include "base/check.h"
#include "detail/delivered.h"
#include "need/cautions.h"
#include "need/station.h"
#include "need/view.h"

namespace sightfall::card {
namespace {

using namespace units;
using detail::Input;
using need::Station;

/// A face that walks at the camera.
need::Need walking_face() {
  need::Need need;
  need.subject = need::Subject::kFace;
  return need;
}

/// The camera over open ground and what it has of the walker.
class OpenGround {
 public:
  explicit OpenGround(const CardRequest& request)
      : request_{request}, need_{walking_face()}, scene_{site::Site{}, site::Leaves::kOn} {
    camera::Camera camera = request.setting;
    if (camera.name.empty()) camera.name = request.sheet.name;
    camera.heading = Angle{0};
    camera.tilt = camera.roll = Angle{0};
    face_height_ = need::subject_height(need_, request.typical).si();
    const double eye_height = request.height ? request.height->si() : face_height_;
    station_ = need::station_at(request.sheet, camera, {0, 0, eye_height}, request.typical);
    if (request.height) {
      tilt_ = request.tilt.value_or(0.5 * camera::vertical_view(station_.lens.projector));
      station_.pose = geom::pose_of(station_.pose.eye_site, Angle{0}, tilt_, Angle{0});
    }
    inputs_ = need::subject_inputs(station_, need_, request.typical);
    values_ = std::make_unique<detail::Values>(detail::nominal(inputs_));
  }

  need::SampleView view_at(double distance) const {
    const need::Sample sample{{0, distance, face_height_}, {0, -1}, 0, 0};
    need::SampleView view = need::view_of(station_, scene_, need_, request_.typical, {sample}).front();
    if (request_.height || view.gate != detail::Limit::kOutOfView) return view;
    // Nearer than the picture takes in a whole head, a card without a mount still tells the density on the axis.
    const double scale = station_.lens.projector.focal_px / distance;
    view.seen = {scale, distance, 0, 1};
    view.gate = detail::Limit::kNone;
    return view;
  }

  double delivered_at(double distance) const {
    const need::SampleView view = view_at(distance);
    return view.gate == detail::Limit::kNone ? detail::delivered(station_.constants, view.seen, *values_) : 0;
  }

  Mark mark_at(Length distance) const {
    Mark mark;
    mark.distance = distance;
    const need::SampleView view = view_at(distance.si());
    const double depth = view.gate == detail::Limit::kNone ? view.seen.depth : distance.si();
    mark.width = span(camera::horizontal_view(station_.lens.projector), depth);
    mark.height = span(camera::vertical_view(station_.lens.projector), depth);
    mark.limit = view.gate;
    if (view.gate == detail::Limit::kNone) {
      mark.density = PixelDensity{view.seen.density * (*values_)[Input::kDensityFactor]};
      const detail::DeliveredRange range = detail::delivered_range(station_.constants, view.seen, inputs_);
      mark.delivered = {PixelDensity{range.value.low}, PixelDensity{range.value.nominal},
                        PixelDensity{range.value.high}};
      mark.limit = detail::limit_of(station_.constants, view.seen, *values_);
    }
    for (const detail::LevelTable& table : request_.tables) {
      const detail::Level* level = table.reached(mark.delivered.nominal);
      mark.levels.push_back(level != nullptr ? level->name : "");
    }
    return mark;
  }

  const Station& station() const { return station_; }
  const detail::Values& values() const { return *values_; }
  Angle tilt() const { return tilt_; }

 private:
  /// What an angle takes in at a depth; without end for half the world or more.
  static Length span(Angle view, double depth) {
    constexpr double kHalfTurn = 3.1;  // rad
    if (view.si() >= kHalfTurn) return Length{std::numeric_limits<double>::infinity()};
    return Length{2 * depth * std::tan(view.si() / 2)};
  }

  const CardRequest& request_;
  need::Need need_;
  site::Scene scene_;
  Station station_;
  double face_height_ = 0;
  Angle tilt_;
  detail::RangedInputs inputs_{};
  std::unique_ptr<detail::Values> values_;
};

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

/// The nearest and the farthest distance that pass; zero and zero when none does, an infinite end when it still passes
/// at the end of the ladder.
template <class Passes>
FocusReach reach_where(Passes passes) {
  const std::vector<double> distances = ladder();
  const auto first = std::find_if(distances.begin(), distances.end(), passes);
  if (first == distances.end()) return {};
  const auto last = std::find_if(distances.rbegin(), distances.rend(), passes);
  FocusReach reach{Length{*first}, Length{*last}};
  if (first != distances.begin()) reach.near = Length{edge(passes, *first, *(first - 1))};
  if (last == distances.rbegin())
    reach.far = Length{std::numeric_limits<double>::infinity()};
  else
    reach.far = Length{edge(passes, *last, *(last - 1))};
  return reach;
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
  return reach_where([&](double distance) {
    const Length blur = camera::blur_circle(station.lens.optics, focus, Length{distance});
    const double defocus = blur / (station.lens.pitch() * (1.0 * px));
    const detail::Blur blurs{detail::kReferenceBlur, 0, defocus, 0, 0};
    return detail::resolved_frequency(blurs, detail::kReferenceContrast, threshold) >= kShare * reference;
  });
}

std::vector<LevelReach> reaches(const OpenGround& ground, const std::vector<detail::LevelTable>& tables) {
  std::vector<LevelReach> result;
  for (const detail::LevelTable& table : tables)
    for (const detail::Level& level : table.levels) {
      const FocusReach reach =
          reach_where([&](double distance) { return ground.delivered_at(distance) >= level.least.si(); });
      LevelReach one{table.name, level.name, std::nullopt, std::nullopt};
      if (reach.far > Length{0}) {
        one.nearest = reach.near;
        one.farthest = reach.far;
      }
      result.push_back(one);
    }
  return result;
}

std::vector<std::string> cautions_for(const CardRequest& request) {
  std::vector<std::string> cautions;
  if (request.height && *request.height < need::kReachOfHand)
    cautions.push_back(
        fmt::format("{:.1f} m above ground is within reach of a hand (below about {:.0f} m): the camera "
                    "can be turned away, covered or taken",
                    request.height->in(m), need::kReachOfHand.in(m)));
  if (request.height && *request.height > need::kWorkAtHeight)
    cautions.emplace_back(
        "work at height and near mains can kill: local codes and licensed trades decide how it is done");
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

RangeCard range_card(const CardRequest& request) {
  CHECK_GT(request.tables.size(), size_t{0});
  const OpenGround ground{request};
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
    card.marks.push_back(ground.mark_at(distance));
  card.one_pixel = within_one_pixel(station, card.focus);
  card.seventy_percent = within_seventy_percent(station, card.focus, ground.values()[Input::kThreshold]);
  card.reach = reaches(ground, request.tables);
  card.claims = audit(request.sheet);
  card.assumptions = station.assumptions;
  card.cautions = cautions_for(request);
  return card;
}

}  // namespace sightfall::card
