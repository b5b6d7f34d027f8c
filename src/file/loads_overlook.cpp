// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/answer_values.h"
#include "file/describe.h"
#include "file/loads_answer.h"
#include "file/loads_values.h"
#include "file/writer.h"

namespace sightfall::file {
namespace {

using namespace units;

Value cost_of(const loads::MaskCost& cost) {
  return Object{{"need", cost.need},
                {"verdict_before", Value{need::in_words(cost.before)}},
                {"verdict_after", Value{need::in_words(cost.after)}},
                {"share_before", share(cost.share_before)},
                {"share_after", share(cost.share_after)},
                {"worst_before_px_per_m", density(cost.worst_before)},
                {"worst_after_px_per_m", density(cost.worst_after)}};
}

/// What the document is changed in, as the workbench's edits are written (docs/wire.md).
Value changes_of(const need::Project& project, const loads::Overlooked& thing) {
  const camera::Camera& camera = need::the_named(project.cameras, thing.camera);
  camera::Camera masked = camera;
  camera::Mask mask = thing.mask;
  for (int n = 2; need::find_named(camera.masks, mask.name) != nullptr; ++n)
    mask.name = thing.mask.name + " " + std::to_string(n);
  masked.masks.push_back(std::move(mask));
  return List{
      Object{{"at", List{"cameras", camera.name}}, {"was", Writer::written(camera)}, {"now", Writer::written(masked)}}};
}

Value thing_of(const need::Project& project, const loads::Overlooked& thing) {
  const camera::Mask& mask = thing.mask;
  return Object{{"camera", thing.camera},
                {"window", text_or_null(thing.window)},
                {"density_px_per_m", density(thing.density)},
                {"ground_m2", thing.window.empty() ? rounded(thing.area.in(m2), 10) : Value{}},
                {"mask", Object{{"name", mask.name},
                                {"left", share(mask.left)},
                                {"top", share(mask.top)},
                                {"right", share(mask.right)},
                                {"bottom", share(mask.bottom)}}},
                {"costs", thing.judged ? list(thing.costs, cost_of) : Value{}},
                {"changes", changes_of(project, thing)}};
}

}  // namespace

Value loads_value(const need::Project& project, const loads::Overlook& overlook) {
  return Object{{"held", Value{loads::in_words(overlook.held)}},
                {"boundary_drawn", !overlook.no_boundary},
                {"things", list(overlook.things, [&](const loads::Overlooked& one) { return thing_of(project, one); })},
                {"cautions", cautions_value(overlook.cautions)}};
}

}  // namespace sightfall::file
