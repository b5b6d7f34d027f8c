// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/sway.h"

#include <algorithm>

#include "geom/polygon.h"
#include "need/station_light.h"
#include "site/building.h"
#include "site/pole.h"
#include "site/wind.h"

namespace sightfall::need {
namespace {

/// Brackets whose poles are drawn at a hand's breadth from each other hang on one.
constexpr double kOnePole = 0.1;  // m

Ranged<Mass> mass_of(const camera::Sheet& sheet, const detail::Typical& typical) {
  if (sheet.mass) return Ranged<Mass>::exact(*sheet.mass);
  const Ranged<double>& usual = typical.body_mass.value;
  return {Mass{usual.low}, Mass{usual.nominal}, Mass{usual.high}};
}

Ranged<double> area_of(const camera::Sheet& sheet, const detail::Typical& typical) {
  if (sheet.body) return Ranged<double>::exact((sheet.body->wide * sheet.body->tele).si());
  const Ranged<double>& side = typical.body_side.value;
  return {side.low * side.low, side.nominal * side.nominal, side.high * side.high};
}

}  // namespace

Hanging hanging_on(const Project& project, const site::Mount& mount) {
  Hanging hanging{{}, {}, Ranged<double>::exact(0)};
  for (const camera::Camera& camera : project.cameras) {
    if (camera.mount != mount.name) continue;
    const camera::Sheet& sheet = the_named(project.catalogue, camera.sheet);
    const Ranged<Mass> mass = mass_of(sheet, project.settings.typical);
    const Ranged<double> area = area_of(sheet, project.settings.typical);
    hanging.cameras.push_back(camera.name);
    hanging.mass = {hanging.mass.low + mass.low, hanging.mass.nominal + mass.nominal, hanging.mass.high + mass.high};
    hanging.area = {hanging.area.low + area.low, hanging.area.nominal + area.nominal, hanging.area.high + area.high};
  }
  return hanging;
}

std::vector<const site::Mount*> on_same_pole(const site::Site& site, const site::Mount& mount) {
  std::vector<const site::Mount*> mounts;
  for (const site::Mount& one : site.mounts)
    if (one.pole && one.pole->outer == mount.pole->outer && norm(one.at - mount.at) <= kOnePole) mounts.push_back(&one);
  return mounts;
}

bool out_of_wind(const site::Site& site, const site::Mount& mount) {
  return site::building_where(site, [&](const site::Solid& building) {
           return mount.height < building.height && geom::contains(building.outline, mount.at);
         }) != nullptr;
}

PoleSway pole_sway(const Project& project, const site::Mount& mount, Length height) {
  const site::Pole& pole = *mount.pole;
  const double breeze = site::steady_pressure(kBreeze).si();
  Angle bent = site::bent_by_wind(pole, LineLoad{kPoleDrag * breeze * pole.outer.si()}, height).slope;
  std::vector<site::MassAt> masses;
  for (const site::Mount* one : on_same_pole(project.site, mount)) {
    const Hanging hanging = hanging_on(project, *one);
    const Force push{project.settings.typical.body_drag.value.nominal * hanging.area.nominal * breeze};
    const Length at = std::min(one->height, pole.height);
    bent = bent + site::bent_by_force(pole, push, at, height).slope;
    masses.push_back({hanging.mass.nominal, at});
  }
  return {bent, site::own_frequency(pole, masses)};
}

const detail::TypicalValue& entry_of(SwayAssumed assumed, const detail::Typical& typical) {
  switch (assumed) {
    case SwayAssumed::kPolesFrequency:
      return typical.pole_frequency;
    case SwayAssumed::kUsualFrequency:
      return typical.sway_frequency;
    default:
      return typical.pole_sway;
  }
}

Sway sway_of(const Project& project, const site::Mount& mount, Length raised) {
  const bool stated = mount.sway > Angle{0}, often = mount.sway_frequency > Frequency{0};
  Sway sway{mount.sway, mount.sway_frequency};
  if (stated && often) return sway;
  if (!stated && (!mount.pole || out_of_wind(project.site, mount))) return {};
  sway.assumed = !stated      ? SwayAssumed::kBendOfPole
                 : mount.pole ? SwayAssumed::kPolesFrequency
                              : SwayAssumed::kUsualFrequency;
  const Ranged<double>& usual = entry_of(sway.assumed, project.settings.typical).value;
  sway.factor = scaled(usual, 1 / usual.nominal);
  if (!mount.pole) {
    sway.frequency = Frequency{usual.nominal};
    return sway;
  }
  const PoleSway pole = pole_sway(project, mount, std::min(mount.height + raised, mount.pole->height));
  if (!stated) sway.amplitude = usual.nominal * pole.amplitude;
  if (!often) sway.frequency = (stated ? usual.nominal : 1) * pole.frequency;
  return sway;
}

}  // namespace sightfall::need
