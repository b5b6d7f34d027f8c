// SPDX-License-Identifier: GPL-3.0-or-later
// A walk, a drive or a target carried along a route, seen by one camera: where it passes each mark, and what the
// verdict says of it there.
//   Model    a mark is a distance on the plan from the camera's mount; the first place of the route at that distance
//            counts. The figures are the verdict's own (need/view.h, detail/delivered.h) of the face of a walker, the
//            plate of a car, a target as an object
//   Checked  marks_test.cpp
#pragma once
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "need/frame.h"
#include "need/project.h"
#include "need/view.h"
#include "walk/shoot.h"

namespace sightfall::walk {

enum class Mover { kWalker, kCar, kTarget, kNobody };

/// A camera of a valid project looks at a route of it in one of its conditions. All of it must outlive the walk.
struct WalkRequest {
  const need::Project* project = nullptr;
  const site::Condition* condition = nullptr;
  const camera::Camera* camera = nullptr;
  const site::Place* route = nullptr;
  Mover mover = Mover::kWalker;
  std::vector<Length> marks;  ///< empty: kDefaultMarks of them, evenly from where it is first to where it is last seen
  uint64_t seed = 1;
};
inline constexpr int kDefaultMarks = 6;

struct Mark {
  Length distance;  ///< on the plan, from the mount
  Length gone;      ///< along the route
  geom::SitePoint foot;
  geom::PlanPoint forward;
  PixelDensity density;            ///< geometric; 0 where it is not seen
  Ranged<PixelDensity> delivered;  ///< 0 where it is not seen
  std::string level;               ///< reached nominally; empty: none
  detail::Limit limit = detail::Limit::kNone;
  double noise_ratio = 0;
  double brightness = 0;  ///< of the subject's mean in the picture, share of full scale
  Time shutter;
  double gain = 0;                         ///< dB
  double power = 0;                        ///< of the camera's infrared, share; 0: it does not burn
  PictureBox box;                          ///< of the subject in the picture; empty: outside
  std::optional<geom::ImagePoint> middle;  ///< of what is judged, in the picture; unset: outside
};

/// A camera's walk: the marks, and the picture at each.
class Walk {
 public:
  /// Errors: a route that the camera never has in its picture, a mark that the route does not reach.
  static Result<Walk> begin(const WalkRequest& request);
  /// A single mark, kMidStep after the route's beginning, seen or not; marks asked for do not count.
  static Walk standing(const WalkRequest& request);
  /// The same walk with pictures of at most that many columns (preview.h); the figures are then the preview's own.
  Walk preview(int columns) const;

  const std::vector<Mark>& marks() const { return marks_; }
  const need::Station& station() const { return station_; }
  const WalkRequest& request() const { return request_; }
  const need::LitScene& lit() const { return *lit_; }

  /// Who is at a mark, and how the camera takes them there.
  Visitor visitor_at(const Mark& mark) const;
  Shot shot_at(const Mark& mark) const;

  /// The places, without figures, of every frame from where the mover is first to where it is last seen, or of the
  /// frames up to a mark, the mark the last.
  std::vector<Mark> frames() const;
  std::vector<Mark> frames_before(const Mark& mark, int count) const;

 private:
  explicit Walk(const WalkRequest& request);
  need::Need need() const;
  Mark mark_at(double gone) const;
  double pace() const;
  double step() const;
  Time readout() const;
  need::SampleView view_at(const Mark& mark, need::Facing facing) const;
  void tell(Mark& mark) const;
  SubjectMesh subject_at(const Mark& mark) const;
  geom::SitePoint judged_at(const Mark& mark) const;
  std::optional<geom::ImagePoint> image_of_judged(const Mark& mark) const;

  WalkRequest request_;
  need::Station station_;  // in the condition
  bool small_ = false;     // whether its picture is a preview, of pixels that stand for several
  std::shared_ptr<const need::LitScene> lit_;
  std::vector<Mark> marks_;
  double first_seen_ = 0, last_seen_ = 0;  // m along it
};

/// The box of at most this size around a point of the picture, moved so that it lies within it.
PictureBox piece_around(const camera::Projector& projector, geom::ImagePoint middle, int columns, int rows);

/// The part of a picture inside a box, which lies within it.
Picture cut(const Picture& picture, const PictureBox& box);

}  // namespace sightfall::walk
