// SPDX-License-Identifier: GPL-3.0-or-later
// What cameras draw, and feeds that hang on other feeds.
#include <algorithm>

#include "loads/power_parts.h"
#include "loads/ranges.h"

namespace sightfall::loads {
namespace {

Ranged<Power> exactly(const std::optional<Power>& stated) { return Ranged<Power>::exact(stated.value_or(Power{0})); }

/// With heater and motor in the high end alone: how long they run is not known.
Ranged<Power> with_heat(Ranged<Power> drawn, const Draw& draw) {
  drawn.high = std::min(drawn.high + draw.heater.high + draw.motor.high, std::max(drawn.high, draw.largest.high));
  return drawn;
}

Ranged<Power> infrared_draw(const camera::Sheet& sheet, const camera::Camera& camera, const detail::Typical& typical) {
  if (!sheet.infrared || camera.infrared == camera::InfraredUse::kOff) return {};
  if (sheet.infrared->draw) return exactly(sheet.infrared->draw);
  if (sheet.power.largest) {
    const Power largest = *sheet.power.largest;
    return each(typical.infrared_share.value, [&](double share) { return share * largest; });
  }
  return watts(typical.infrared_draw.value);
}

}  // namespace

Ranged<Power> watts(const Ranged<double>& range) {
  return each(range, [](double w) { return Power{w}; });
}

Ranged<double> plain(const Ranged<Power>& range) {
  return each(range, [](Power w) { return w.si(); });
}

Draw draw_of(const need::Project& project, const camera::Camera& camera) {
  const camera::Sheet& sheet = need::the_named(project.catalogue, camera.sheet);
  const detail::Typical& typical = project.settings.typical;
  Draw draw{camera.name, {}, {}, {}, {}, {}, {}, {}};
  draw.body = sheet.power.typical ? exactly(sheet.power.typical) : watts(typical.body_draw.value);
  draw.infrared = infrared_draw(sheet, camera, typical);
  draw.heater = exactly(sheet.power.heater);
  draw.motor = exactly(sheet.power.motor);
  const Ranged<Power> with_infrared = added(draw.body, draw.infrared);
  draw.largest =
      sheet.power.largest ? exactly(sheet.power.largest) : added(with_infrared, added(draw.heater, draw.motor));
  draw.by_day = with_heat(camera.infrared == camera::InfraredUse::kOn ? with_infrared : draw.body, draw);
  draw.by_night = with_heat(with_infrared, draw);
  return draw;
}

Hung hung_of(const site::Feed& feed, const OnFeed& on, const detail::Typical& typical) {
  const Ranged<Power> own = exactly(feed.draw);
  const auto with_own = [&](const Ranged<Power>& passed_on) {
    if (passed_on.nominal <= Power{0}) return own;
    return added(own, watts(spread({plain(passed_on), typical.supply_efficiency.value},
                                   [](const auto& at) { return at[0] / at[1]; })));
  };
  return {feed.name, with_own(on.by_day), with_own(on.by_night), with_own(on.largest), {}, feed.draw.has_value()};
}

}  // namespace sightfall::loads
