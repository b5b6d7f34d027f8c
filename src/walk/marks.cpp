// SPDX-License-Identifier: GPL-3.0-or-later
#include "walk/marks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "detail/sensor.h"
#include "detail/signal.h"
#include "detail/typical_entries.h"
#include "need/frame.h"
#include "site/ground.h"
#include "walk/preview.h"
#include "walk/rolling.h"

namespace sightfall::walk {
namespace {

using namespace units;
using geom::PlanPoint;

constexpr double kStep = 0.05;  // m along a route
constexpr Length kTargetHeight{1.6};

/// A place on the way.
struct OnRoute {
  PlanPoint at;
  double gone = 0;  // m
};

std::vector<OnRoute> along(const std::vector<PlanPoint>& line) {
  std::vector<OnRoute> all;
  double before = 0;
  for (size_t i = 0; i + 1 < line.size(); ++i) {
    const PlanPoint way = line[i + 1] - line[i];
    const double length = norm(way);
    if (length <= 0) continue;
    const auto steps = static_cast<int>(std::ceil(length / kStep));
    for (int k = i == 0 ? 0 : 1; k <= steps; ++k) {
      const double share = static_cast<double>(k) / steps;
      all.push_back({line[i] + share * way, before + share * length});
    }
    before += length;
  }
  return all;
}

/// The first place of the way at a distance from the mount, or nothing.
const OnRoute* first_at(const std::vector<OnRoute>& way, PlanPoint mount, double distance) {
  const auto off = [&](const OnRoute& place) { return norm(place.at - mount) - distance; };
  for (size_t i = 0; i < way.size(); ++i)
    if (std::abs(off(way[i])) <= kStep / 2 || (i > 0 && off(way[i - 1]) * off(way[i]) < 0)) return &way[i];
  return nullptr;
}

/// With nobody there the camera is exposed as for a face.
need::Subject judged(Mover mover) {
  return mover == Mover::kCar      ? need::Subject::kPlate
         : mover == Mover::kTarget ? need::Subject::kObject
                                   : need::Subject::kFace;
}

}  // namespace

need::Need Walk::need() const {
  need::Need need;
  need.subject = judged(request_.mover);
  need.facing = need::Facing::kTravel;
  if (request_.mover == Mover::kTarget) {
    need.height = kTargetHeight;
    need.speed = Speed{0};
  } else if (request_.route->speed) {
    need.speed = request_.route->speed;
  }
  return need;
}

SubjectMesh Walk::subject_at(const Mark& mark) const {
  SubjectMesh mesh = request_.mover == Mover::kWalker   ? walker(std::fmod(mark.gone / kStrideLength, 1.0))
                     : request_.mover == Mover::kCar    ? car()
                     : request_.mover == Mover::kTarget ? target_board(kTargetHeight)
                                                        : SubjectMesh{};
  // What is judged of a car is the plate in front: that is what stands at the mark.
  constexpr double kHalfLength = 2.15;  // m
  const double back = request_.mover == Mover::kCar ? kHalfLength : 0;
  const geom::SitePoint foot = mark.foot - back * geom::Vec3{mark.forward.x, mark.forward.y, 0};
  return placed(std::move(mesh), foot, mark.forward);
}

/// What is judged of whoever is at a mark.
geom::SitePoint Walk::judged_at(const Mark& mark) const {
  return mark.foot + geom::Vec3{0, 0, need::subject_height(need(), request_.project->settings.typical).si()};
}

/// Where that falls, inside the picture or not.
std::optional<geom::ImagePoint> Walk::image_of_judged(const Mark& mark) const {
  return camera::image_point(station_.lens.projector,
                             station_.pose.camera_from_site * (judged_at(mark) - station_.pose.eye_site));
}

need::SampleView Walk::view_at(const Mark& mark, need::Facing facing) const {
  need::Need need = this->need();
  need.facing = facing;
  const std::vector<need::Sample> samples{{judged_at(mark), mark.forward, 0, 0}};
  return need::view_of(station_, lit_->lighting, need, samples, need::light_on(lit_->lighting, samples)).front();
}

void Walk::tell(Mark& mark) const {
  const need::Need need = this->need();
  mark.box = box_of(subject_at(mark), station_, 0);
  const auto middle = image_of_judged(mark);
  if (middle && camera::in_picture(station_.lens.projector, *middle)) mark.middle = middle;
  const need::SampleView view = view_at(mark, need.facing);
  mark.limit = view.gate;
  if (view.gate != detail::Limit::kNone) return;
  const detail::RangedValues ranged{need::subject_inputs(station_, need, request_.project->settings.typical)};
  const detail::Values& values = ranged.nominal();
  const detail::DeliveredRange range = detail::delivered_range(station_.constants, view.seen, ranged);
  mark.density = PixelDensity{view.seen.density};
  mark.delivered = {PixelDensity{range.value.low}, PixelDensity{range.value.nominal}, PixelDensity{range.value.high}};
  mark.limit = detail::limit_of(station_.constants, view.seen, values);
  const detail::Level* level = request_.project->settings.levels.reached(mark.delivered.nominal);
  if (level != nullptr) mark.level = level->name;
  const detail::Signal signal = detail::signal_of(station_.constants, view.seen, values);
  mark.noise_ratio = detail::noise_ratio(signal);
  mark.brightness = std::min(1.0, (signal.subject + signal.behind) / signal.full_scale);
  mark.shutter = Time{signal.exposed.time};
  mark.gain = detail::decibels(signal.exposed.gain);
  mark.power = station_.infrared_on ? signal.exposed.power : 0;
}

Mark Walk::mark_at(double gone) const {
  const std::vector<PlanPoint>& line = request_.route->line;
  PlanPoint at = line.front(), forward{0, 1};
  double before = 0;
  for (size_t i = 0; i + 1 < line.size(); ++i) {
    const PlanPoint way = line[i + 1] - line[i];
    const double length = norm(way);
    if (length <= 0) continue;
    forward = (1 / length) * way;
    at = line[i] + std::min(gone - before, length) * forward;
    if (gone <= before + length) break;
    before += length;
  }
  const PlanPoint mount = geom::plan(station_.pose.eye_site);
  Mark mark;
  mark.distance = Length{norm(at - mount)};
  mark.gone = Length{gone};
  mark.foot = site::above_ground(request_.project->site.terrain, at, Length{0});
  mark.forward =
      request_.mover == Mover::kTarget ? geom::plan(geom::unit({mount.x - at.x, mount.y - at.y, 0})) : forward;
  return mark;
}

Walk::Walk(const WalkRequest& request)
    : request_{request},
      lit_{std::make_shared<const need::LitScene>(need::lit_scene(*request.project, *request.condition))} {
  station_ = need::in_condition(need::station_of(*request.project, *request.camera), lit_->lighting);
}

Walk Walk::standing(const WalkRequest& request) {
  Walk walk{request};
  walk.marks_ = {walk.mark_at(kMidStep.si())};
  walk.tell(walk.marks_.front());
  return walk;
}

Walk Walk::preview(int columns) const {
  Walk walk = *this;
  const need::Station whole = need::station_of(*request_.project, *request_.camera);
  walk.small_ = columns < whole.lens.projector.columns;
  walk.station_ = need::in_condition(preview_of(whole, columns), lit_->lighting);
  for (Mark& mark : walk.marks_) {
    mark = walk.mark_at(mark.gone.si());
    walk.tell(mark);
  }
  return walk;
}

Result<Walk> Walk::begin(const WalkRequest& request) {
  Walk walk{request};
  const std::vector<OnRoute> way = along(request.route->line);
  const PlanPoint mount = geom::plan(walk.station_.pose.eye_site);
  std::vector<double> seen;
  constexpr size_t kEvery = 10;  // half a metre
  for (size_t i = 0; i < way.size(); i += kEvery)
    if (walk.view_at(walk.mark_at(way[i].gone), need::Facing::kCamera).gate == detail::Limit::kNone)
      seen.push_back(way[i].gone);
  if (seen.empty())
    return failure(ErrorKind::kRequest,
                   fmt::format("camera \"{}\" never sees anyone on \"{}\" in this condition: it is outside the picture "
                               "or hidden all the way",
                               request.camera->name, request.route->name));
  walk.first_seen_ = seen.front(), walk.last_seen_ = seen.back();
  if (request.marks.empty())
    for (int i = 0; i < kDefaultMarks; ++i)
      walk.marks_.push_back(walk.mark_at(seen[static_cast<size_t>(i) * (seen.size() - 1) / (kDefaultMarks - 1)]));
  for (const Length distance : request.marks) {
    const OnRoute* place = first_at(way, mount, distance.si());
    if (place == nullptr) {
      const auto [nearest, farthest] = std::minmax_element(way.begin(), way.end(), [&](const auto& a, const auto& b) {
        return norm(a.at - mount) < norm(b.at - mount);
      });
      return failure(ErrorKind::kRequest,
                     fmt::format("found {:g}; \"{}\" runs {:.1f} to {:.1f} m from the mount", distance.si(),
                                 request.route->name, norm(nearest->at - mount), norm(farthest->at - mount)),
                     {"command line", "", "--marks"});
    }
    walk.marks_.push_back(walk.mark_at(place->gone));
  }
  for (Mark& mark : walk.marks_) walk.tell(mark);
  return walk;
}

Visitor Walk::visitor_at(const Mark& mark) const {
  const detail::Typical& typical = request_.project->settings.typical;
  SubjectMesh mesh = subject_at(mark);
  // What is judged stands at the mark when its row is read.
  const auto still = image_of_judged(mark);
  const double speed = detail::nominal(need::subject_inputs(station_, need(), typical))[detail::Input::kSpeed];
  if (still) lean(mesh.mesh, station_, speed * geom::Vec3{mark.forward.x, mark.forward.y, 0}, readout(), still->v);
  return {std::move(mesh), request_.mover == Mover::kCar ? random_plate(request_.seed) : ""};
}

Time Walk::readout() const {
  const camera::Sheet& sheet = need::the_named(request_.project->catalogue, request_.camera->sheet);
  const detail::Typical typical = detail::with_estimates(request_.project->settings.typical, sheet.estimates);
  return sheet.readout.value_or(typical.readout.value.nominal * ms);
}

Shot Walk::shot_at(const Mark& mark) const {
  const need::Need need = this->need();
  need::SampleView view = view_at(mark, need::Facing::kCamera);
  const geom::Vec3 at = station_.pose.camera_from_site * (mark.foot - station_.pose.eye_site);
  if (view.gate != detail::Limit::kNone) view.seen.depth = at.z;
  Shot shot{&station_,     detail::nominal(need::subject_inputs(station_, need, request_.project->settings.typical)),
            view.seen,     {1, 0},
            request_.seed, static_cast<uint64_t>(std::lround(mark.gone.in(mm)))};
  const geom::Vec3 ahead = station_.pose.camera_from_site * geom::Vec3{mark.forward.x, mark.forward.y, 0};
  const camera::PointJacobian j = camera::jacobian(station_.lens.projector, at);
  const geom::Vec2 moved{geom::dot(j.u, ahead), geom::dot(j.v, ahead)};
  if (norm(moved) > 0) shot.along = (1 / norm(moved)) * moved;
  shot.begin = mark.gone.si() / pace();
  shot.readout = readout().si();
  shot.mosaic = !small_;
  return shot;
}

/// Metres a second; who carries a target walks.
double Walk::pace() const {
  const detail::Typical& typical = request_.project->settings.typical;
  const double told = detail::nominal(need::subject_inputs(station_, need(), typical))[detail::Input::kSpeed];
  return told > 0 ? told : typical.speed_walker.value.nominal;
}

/// Metres from one frame to the next.
double Walk::step() const { return pace() / station_.frame_rate; }

std::vector<Mark> Walk::frames() const {
  std::vector<Mark> all;
  const double each = step();
  const auto count = static_cast<size_t>((last_seen_ - first_seen_) / each) + 1;
  for (size_t i = 0; i < count; ++i) all.push_back(mark_at(first_seen_ + static_cast<double>(i) * each));
  return all;
}

std::vector<Mark> Walk::frames_before(const Mark& mark, int count) const {
  std::vector<Mark> all;
  for (int i = count - 1; i > 0; --i) all.push_back(mark_at(std::max(0.0, mark.gone.si() - i * step())));
  all.push_back(mark);
  return all;
}

PictureBox piece_around(const camera::Projector& projector, geom::ImagePoint middle, int columns, int rows) {
  columns = std::min(columns, projector.columns), rows = std::min(rows, projector.rows);
  const int left = std::clamp(static_cast<int>(std::lround(middle.u)) - columns / 2, 0, projector.columns - columns);
  const int top = std::clamp(static_cast<int>(std::lround(middle.v)) - rows / 2, 0, projector.rows - rows);
  return {left, top, left + columns - 1, top + rows - 1};
}

Picture cut(const Picture& picture, const PictureBox& box) {
  Picture part{box.right - box.left + 1, box.bottom - box.top + 1, {}};
  for (int row = box.top; row <= box.bottom; ++row) {
    const auto first = picture.rgb.begin() + 3 * (static_cast<ptrdiff_t>(row) * picture.columns + box.left);
    part.rgb.insert(part.rgb.end(), first, first + 3 * static_cast<ptrdiff_t>(part.columns));
  }
  return part;
}

}  // namespace sightfall::walk
