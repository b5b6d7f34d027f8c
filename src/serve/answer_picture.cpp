// SPDX-License-Identifier: GPL-3.0-or-later
#include <array>

#include "file/answer_values.h"
#include "file/walk_answer.h"
#include "need/check.h"
#include "serve/answers.h"
#include "serve/base64.h"
#include "serve/request.h"
#include "site/scene.h"
#include "video/png.h"
#include "walk/film.h"
#include "walk/preview.h"
#include "walk/standing.h"

namespace sightfall::serve {
namespace {

using file::Form;
using file::kOptional;
using file::kRequired;
using file::List;
using file::Value;

constexpr std::array<std::string_view, 4> kMovers{"walker", "car", "target", "none"};  // in the order of walk::Mover

enum class Size { kPreview, kWhole, kCrop };
constexpr std::array<std::string_view, 3> kSizes{"preview", "whole", "crop"};

struct PictureRequest {
  std::optional<std::string> camera, need, id;
  std::string condition;
  std::vector<double> at;
  walk::Mover mover = walk::Mover::kWalker;
  Size size = Size::kPreview;
};

void describe(Form& form, PictureRequest& request) {
  form.text({"camera", kOptional, "name of a camera; without it the best one at the need's worst place"},
            request.camera);
  form.text({"condition", kRequired, "name of a condition"}, request.condition);
  form.numbers({"at", "m", -1e5, kOptional, 1e5, "where somebody stands; the middle of the picture when absent"}, 2, 2,
               request.at);
  form.text({"need", kOptional, "name of a need, at whose worst place somebody stands"}, request.need);
  form.choice({"mover", "walker", "who stands there, turned to the camera"}, kMovers, request.mover);
  form.choice({"size", "preview", "few pixels at once, all of them, or the piece around the subject"}, kSizes,
              request.size);
  form.text({"id", kOptional, "what progress calls it"}, request.id);
}

struct Standing {
  const camera::Camera* camera = nullptr;
  geom::PlanPoint at;
};

Checked<Standing> worst_of(const need::Project& project, const PictureRequest& asks, const Progress& progress) {
  const auto need = look_up(project.needs, *asks.need, "need");
  if (!need) return tl::make_unexpected(need.error());
  const need::CheckResult result = need::check(project, {{*asks.need}, {asks.condition}, false, false}, progress);
  if (result.verdicts.empty() || !result.verdicts.front().worst)
    return refused(ErrorKind::kRequest, "need", "is not judged in this condition, so that no place of it is worst");
  const need::WorstPlace& worst = *result.verdicts.front().worst;
  Standing standing{nullptr, geom::plan(worst.at_site)};
  if (!worst.camera.empty()) standing.camera = &need::the_named(project.cameras, worst.camera);
  return standing;
}

Checked<Standing> standing_of(const need::Project& project, const site::Condition& condition,
                              const PictureRequest& asks, const Progress& progress) {
  Standing standing;
  if (asks.need) {
    auto worst = worst_of(project, asks, progress);
    if (!worst) return worst;
    standing = *worst;
  }
  if (asks.camera) {
    const auto camera = look_up(project.cameras, *asks.camera, "camera");
    if (!camera) return tl::make_unexpected(camera.error());
    standing.camera = *camera;
  }
  if (standing.camera == nullptr)
    return refused(ErrorKind::kRequest, "camera", "missing; no camera sees the place, so one has to be named");
  if (!asks.at.empty())
    standing.at = {asks.at[0], asks.at[1]};
  else if (!asks.need)
    standing.at = walk::middle_of_picture(project, *standing.camera, site::Scene{project.site, condition.leaves});
  return standing;
}

/// The box's corner and size, as a picture of fewer pixels has it.
Value box_value(const walk::PictureBox& box) {
  if (box.empty()) return {};
  return List{box.left, box.top, box.right - box.left + 1, box.bottom - box.top + 1};
}

std::string png_text(const walk::Picture& picture) {
  const auto bytes = video::png_of(picture);
  CHECK_EQ(bytes.has_value(), true);  // a sheet's pixels are within what a PNG holds
  return {bytes->begin(), bytes->end()};
}

}  // namespace

Checked<Value> picture_answer(const need::Project& project, const Value& request, const Progress& progress) {
  const auto asks = read_request<PictureRequest>(request);
  if (!asks) return tl::make_unexpected(asks.error());
  const auto condition = look_up(project.conditions, asks->condition, "condition");
  if (!condition) return tl::make_unexpected(condition.error());
  // About these shares of the time, of a picture through a codec.
  const double judged = asks->need ? 0.1 : 0, cast = judged + 0.1;
  const auto standing = standing_of(project, **condition, *asks, progress.part(0, judged));
  if (!standing) return tl::make_unexpected(standing.error());

  const camera::Camera& camera = *standing->camera;
  const geom::PlanPoint mount = need::the_named(project.site.mounts, camera.mount).at;
  const site::Place way = walk::way_towards(mount, standing->at);
  const walk::WalkRequest walked{&project, *condition, &camera, &way, asks->mover, {}, 1};
  const walk::Walk whole = walk::Walk::standing(walked);
  const walk::Mark& mark = whole.marks().front();

  const walk::Walk shown = asks->size == Size::kPreview ? whole.preview(walk::kPreviewColumns) : whole;
  const walk::Mark& place = shown.marks().front();
  if (asks->size == Size::kCrop && !place.middle)
    return refused(ErrorKind::kRequest, "size", "there is no piece: the place is not in the picture");
  const Progress casting = progress.part(judged, cast), filming = progress.part(cast, 1);
  const walk::Film film{shown, casting};
  if (progress.stopped()) return refused(ErrorKind::kRequest, "", "stopped before its end");
  const Result<walk::Picture> through = asks->size == Size::kPreview ? film.picture(place) : film.shown(place, filming);
  if (!through) return tl::make_unexpected(Errors{through.error()});
  walk::Picture picture = *through;
  if (asks->size == Size::kCrop) {
    constexpr int kAcross = 480, kDown = 360;
    picture = walk::cut(picture, walk::piece_around(shown.station().lens.projector, *place.middle, kAcross, kDown));
  }
  return Value{file::Object{
      {"camera", camera.name},
      {"at", file::point(standing->at)},
      {"compression", asks->size == Size::kPreview ? "none" : walk::compression_in_words(walked)},
      {"png", base64(png_text(picture))},
      {"columns", picture.columns},
      {"rows", picture.rows},
      {"figures", asks->mover == walk::Mover::kNobody ? Value{} : file::figures_of(mark)},
      {"box", asks->size == Size::kCrop || asks->mover == walk::Mover::kNobody ? Value{} : box_value(place.box)}}};
}

}  // namespace sightfall::serve
