// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/loads_answer.h"
#include "file/loads_values.h"

namespace sightfall::file {
namespace {

using namespace units;

Value newtons(Force force) { return rounded(force.in(N), 10); }

Value pole_of(const std::optional<loads::PoleBend>& bend) {
  if (!bend) return {};
  return Object{{"shift_mm", rounded(bend->shift.in(mm), 10)},
                {"stress", bearing_value(bend->stress, "mpa", [](Pressure one) { return rounded(one.in(MPa), 10); })},
                {"sway_deg", rounded(bend->sway.in(deg), 10000)},
                {"sway_px", rounded(bend->in_picture.in(px), 100)},
                {"sway_hz", rounded(bend->own.in(Hz), 100)}};
}

Value mount_of(const loads::HeldMount& held) {
  return Object{{"mount", held.mount},
                {"held", Value{loads::in_words(held.held)}},
                {"cameras", text_list(held.cameras)},
                {"height_m", metres(held.height)},
                {"mass_kg", range(held.mass, [](Mass one) { return rounded(one.in(kg), 100); })},
                {"wind_n", range(held.wind, newtons)},
                {"held_by", !held.held_by                             ? Value{}
                            : *held.held_by == site::HeldBy::kCeiling ? Value{"ceiling"}
                                                                      : Value{"wall"}},
                {"moment_nm", range(held.moment, [](Moment one) { return rounded(one.in(N * m), 100); })},
                {"pull", bearing_value(held.pull, "n", newtons)},
                {"across_n", range(held.across, newtons)},
                {"pole", pole_of(held.pole)},
                {"access", text_list(held.access)}};
}

Value exposed_of(const loads::Exposed& one) {
  return Object{{"camera", one.camera}, {"ingress", one.ingress}, {"remedy", one.remedy}};
}

}  // namespace

Value loads_value(const loads::Mounting& mounting) {
  return Object{{"held", Value{loads::in_words(mounting.held)}},
                {"wind_m_s", range(mounting.wind, [](Speed one) { return rounded(one.in(m / s), 100); })},
                {"mounts", list(mounting.mounts, mount_of)},
                {"exposed", list(mounting.exposed, exposed_of)},
                {"cautions", cautions_value(mounting.cautions)}};
}

}  // namespace sightfall::file
