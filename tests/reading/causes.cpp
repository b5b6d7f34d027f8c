// SPDX-License-Identifier: GPL-3.0-or-later
#include "causes.h"

#include <functional>
#include <initializer_list>

#include "compression.h"
#include "walk/pattern.h"

namespace sightfall::reading {
namespace {

using detail::Input;
using Apply = std::function<void(Setting& setting, double value)>;
using Values = std::initializer_list<double>;

/// What is alike in every series of one kind of subject.
struct Scene {
  double contrast = 0, ample = 0;  // density, px/m
  bool shaded = false;             // see detail::Seen

  Setting plain(double density) const {
    Setting setting{density};
    setting.set(Input::kContrast, contrast);
    setting.seen.shaded = shaded;
    return setting;
  }
  Cause series(const char* name, const char* unit, double density, Values values, const Apply& apply) const {
    Cause cause{name, unit, {}};
    for (const double value : values) {
      cause.levels.push_back({value, plain(density)});
      apply(cause.levels.back().setting, value);
    }
    return cause;
  }
  Cause series(const char* name, const char* unit, Values values, const Apply& apply) const {
    return series(name, unit, ample, values, apply);
  }
  Cause compression(Values factors) const {
    Cause cause{"compression", "factor", {}};
    const walk::PlatePattern pattern{"8B3S5A6"};
    const Flat trial{walk::kPlateWidth, walk::kPlateHeight, [&](double u, double v) { return pattern.at(u, v); }};
    for (const double factor : factors) cause.levels.push_back(compressed(plain(ample), factor, trial));
    return cause;
  }
  Cause distance(Values densities) const {
    return series("distance", "px/m", densities, [this](Setting& s, double density) { s = plain(density); });
  }
};

void light(Setting& s, double electrons) { s.seen.others = electrons / s.get(Input::kShutter); }

/// Near enough for a blur circle of this many pixels: the thin lens's formula, solved for the distance.
void out_of_focus(Setting& s, double pixels) {
  const double f = s.camera.focal, focus = s.get(Input::kFocus);
  const double apart = pixels * s.camera.pitch * s.get(Input::kFNumber) * (1 - f / focus) / (f * f);  // 1/m
  s.seen.depth = 1 / (1 / focus + apart);
}

void moving(Setting& s, double pixels) {
  s.set(Input::kSpeed, pixels / s.seen.motion_density / s.get(Input::kShutter));
}

void moving_upright(Setting& s, double pixels) {
  moving(s, pixels);
  s.along = {0, 1};
}

/// Light laid over the subject, as a multiple of its own; the exposure as a whole stays.
void laid_over(Setting& s, double detail::Seen::*light, double ratio) {
  const double all = s.seen.others;
  s.seen.others = all / (1 + ratio);
  s.seen.*light = all - s.seen.others;
}

void in_fog(Setting& s, double ratio) { laid_over(s, &detail::Seen::path, ratio); }
void in_glare(Setting& s, double ratio) { laid_over(s, &detail::Seen::glare, ratio); }

void blurred(Setting& s, double sigma) { s.set(Input::kLensBlur, sigma); }

}  // namespace

std::vector<Cause> plate_causes() {
  const Scene scene{0.85, 250};
  constexpr double kFiner = 400;  // px/m: noise at two densities, since its test counts pixels
  return {scene.distance({150, 120, 104, 94, 86, 78, 70, 60}),
          scene.series("noise", "e", {30, 15, 10, 7, 5, 3.5, 2, 1}, light),
          scene.series("noise, finer", "e", kFiner, {15, 8, 5, 3.5, 2.5, 1.8, 1, 0.5}, light),
          scene.series("focus", "px", {4, 5, 6, 6.75, 7.5, 8.25, 9, 10.5}, out_of_focus),
          scene.series("lens", "px", {1.2, 1.5, 1.75, 2, 2.2, 2.4, 2.7, 3.1}, blurred),
          scene.series("motion along", "px", {3.5, 4.5, 5.25, 6, 6.5, 7, 8, 9.5}, moving),
          scene.series("motion upright", "px", {4, 5, 5.75, 6.5, 7.25, 8, 9, 11}, moving_upright),
          scene.series("clipping", "e", {1.6e4, 1.9e4, 2.1e4, 2.25e4, 2.4e4, 2.6e4, 2.9e4, 3.3e4}, light),
          scene.series("fog", "ratio", {3, 6, 10, 14, 18, 25, 40, 80}, in_fog),
          scene.series("glare", "ratio", {3, 6, 10, 14, 18, 25, 40, 80}, in_glare),
          scene.compression({24, 28, 32, 35, 38, 41, 44, 48})};
}

std::vector<Cause> face_causes() {
  const Scene scene{0.75, 250, true};
  return {scene.distance({80, 72, 66, 63, 60, 56, 53, 50}),
          scene.series("noise", "e", {35, 26, 19, 14, 12, 10, 8, 6}, light),
          scene.series("focus", "px", {9, 11, 12.5, 13.25, 14, 15, 16, 18}, out_of_focus),
          scene.series("lens", "px", {2, 2.75, 3, 3.25, 3.5, 3.75, 4, 4.5}, blurred),
          scene.series("motion along", "px", {15, 17, 18.5, 20, 21.5, 23, 25, 28}, moving),
          scene.series("clipping", "e", {1e4, 1.06e4, 1.12e4, 1.18e4, 1.24e4, 1.3e4, 1.4e4, 1.6e4}, light),
          scene.series("fog", "ratio", {4, 8, 10, 11.5, 13, 15, 17, 25}, in_fog)};
}

Cause held_out_plate() {
  Cause cause = Scene{0.8, 170}.series("plate, soft, out of focus, moving", "px", {2.5}, out_of_focus);
  Setting& setting = cause.levels.front().setting;
  blurred(setting, 0.9);
  moving(setting, 2.5);
  return cause;
}

Cause held_out_face() {
  Cause cause = Scene{0.65, 140, true}.series("face, burning out, out of focus", "e", {8500}, light);
  out_of_focus(cause.levels.front().setting, 2);
  return cause;
}

}  // namespace sightfall::reading
