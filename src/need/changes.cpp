// SPDX-License-Identifier: GPL-3.0-or-later
// The changes that a remedy is looked for among.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "camera/stream_in_force.h"
#include "need/remedy.h"
#include "site/ground.h"

namespace sightfall::need {
namespace {

using namespace units;
using camera::Camera;
using camera::Sheet;

enum Kind { kFocusKind, kTurnKind, kFocalKind, kShutterKind, kStreamKind, kHeightKind, kSheetKind, kTogetherKind };

struct Aim {
  Angle heading, tilt;
  double distance = 0;  ///< m
};

Aim aim_at(geom::SitePoint eye, geom::SitePoint target) {
  const geom::Vec3 way = target - eye;
  return {geom::heading_of(plan(way)), Angle{std::atan2(-way.z, norm(plan(way)))}, norm(way)};
}

/// As a compass tells it, in [0, 360) degrees.
Angle compass(Angle heading) {
  const double degrees = std::fmod(heading.in(deg), 360.0);
  return (degrees < 0 ? degrees + 360 : degrees) * deg;
}

/// A heading in words: whole degrees, none of them 360.
double whole_degrees(Angle heading) { return std::fmod(std::round(compass(heading).in(deg)), 360.0); }

bool allowed(const site::Mount& mount, Angle heading) {
  if (!mount.heading_from || !mount.heading_to) return true;
  return compass(heading - *mount.heading_from) <= compass(*mount.heading_to - *mount.heading_from);
}

/// Collects the changes of one camera.
class Changes {
 public:
  Changes(const Project& project, const Camera& camera, const Need& need, geom::SitePoint middle)
      : project_{project},
        camera_{camera},
        sheet_{the_named(project.catalogue, camera.sheet)},
        mount_{the_named(project.site.mounts, camera.mount)},
        need_{need},
        aim_{aim_at(site::above_ground(project.site.terrain, mount_.at, mount_.height), middle)} {}

  std::vector<Change> all() {
    add_focus();
    add_turns();
    add_focals();
    add_shutters();
    add_streams();
    add_heights();
    add_sheets();
    return std::move(changes_);
  }

 private:
  void add(Kind kind, double size, const Camera& changed, std::string text, Length raised = Length{0}) {
    changes_.push_back({as_told(changed), raised, size, kind, std::move(text)});
  }

  /// What was changed to the digits that the text tells and a hand can set, where that is allowed.
  Camera as_told(Camera changed) const {
    const auto to = [](auto& value, auto one) { value = std::round(value / one) * one; };
    if (changed.heading != camera_.heading) {
      const Angle exact = changed.heading;
      changed.heading = whole_degrees(exact) * deg;
      if (!allowed(mount_, changed.heading)) changed.heading = exact;
    }
    if (changed.tilt != camera_.tilt) to(changed.tilt, 1 * deg);
    if (changed.focus && changed.focus != camera_.focus) {
      const Length exact = *changed.focus, one = project_.settings.units == Units::kFeet ? 1 * ft : 0.1 * m;
      to(*changed.focus, one);
      const Sheet& sheet = the_named(project_.catalogue, changed.sheet);
      if (*changed.focus < sheet.closest_focus.value_or(one)) changed.focus = exact;
    }
    if (changed.focal && changed.focal != camera_.focal) {
      const Length exact = *changed.focal;
      to(*changed.focal, 0.1 * mm);
      const Sheet& sheet = the_named(project_.catalogue, changed.sheet);
      if (*changed.focal < sheet.focal.wide || *changed.focal > sheet.focal.tele) changed.focal = exact;
    }
    return changed;
  }

  std::string length_words(double metres) const {
    return project_.settings.units == Units::kFeet ? fmt::format("{:.0f} ft", (metres * m).in(ft))
                                                   : fmt::format("{:.1f} m", metres);
  }

  double current_focal_mm() const { return camera_.focal.value_or(sheet_.focal.wide).in(mm); }

  void add_focus() {
    for (const double share : {0.6, 0.8, 1.0, 1.3}) {
      Camera changed = camera_;
      const double distance = std::max(aim_.distance * share, sheet_.closest_focus.value_or(Length{0}).in(m));
      changed.focus = distance * m;
      const double from = camera_.focus.value_or(aim_.distance * m).in(m);
      add(kFocusKind, std::abs(std::log(distance / from)), changed, fmt::format("focus at {}", length_words(distance)));
    }
  }

  void add_turn(Angle heading, Angle tilt) {
    if (!allowed(mount_, heading)) return;
    Camera changed = camera_;
    changed.heading = compass(heading);
    changed.tilt = tilt;
    const Angle turn = geom::smallest_turn(heading - camera_.heading);
    const double size = std::hypot(turn.in(deg), (tilt - camera_.tilt).in(deg));
    if (size < 0.5) return;
    add(kTurnKind, size, changed,
        fmt::format("turn to heading {:.0f}, tilt {:.0f} degrees", whole_degrees(heading), tilt.in(deg)));
  }

  void add_turns() {
    for (const double share : {0.33, 0.67, 1.0}) {
      const Angle turn = geom::smallest_turn(aim_.heading - camera_.heading);
      add_turn(camera_.heading + share * turn, camera_.tilt + share * (aim_.tilt - camera_.tilt));
    }
    for (const double step : {5.0, 10.0, 20.0, 30.0})
      for (const double side : {-1.0, 1.0}) {
        add_turn(camera_.heading + (side * step) * deg, camera_.tilt);
        add_turn(camera_.heading, camera_.tilt + (side * step / 2) * deg);
      }
  }

  /// Focal lengths across the sheet's range, as steps of equal ratio.
  static std::vector<Length> focals_of(const Sheet& sheet) {
    if (!sheet.zoom()) return {sheet.focal.wide};
    constexpr int kSteps = 8;
    std::vector<Length> focals;
    const double ratio = sheet.focal.tele / sheet.focal.wide;
    for (int i = 0; i <= kSteps; ++i)
      focals.push_back(std::min(std::pow(ratio, static_cast<double>(i) / kSteps) * sheet.focal.wide, sheet.focal.tele));
    return focals;
  }

  void add_focals() {
    if (!sheet_.zoom()) return;
    for (const Length focal : focals_of(sheet_)) {
      Camera changed = camera_;
      changed.focal = focal;
      const double size = std::abs(std::log(focal.in(mm) / current_focal_mm()));
      if (size < 0.01) continue;
      add(kFocalKind, size, changed, fmt::format("zoom to {:.1f} mm", focal.in(mm)));
      changed.heading = aim_.heading;
      changed.tilt = aim_.tilt;
      changed.focus = aim_.distance * m;
      if (allowed(mount_, aim_.heading))
        add(kTogetherKind, size, changed,
            fmt::format("zoom to {:.1f} mm, turn to heading {:.0f}, tilt {:.0f} degrees, focus at {}", focal.in(mm),
                        whole_degrees(aim_.heading), aim_.tilt.in(deg), length_words(aim_.distance)));
    }
  }

  void add_shutters() {
    for (const double denominator : {500.0, 1000.0, 2000.0}) {
      const Time shutter{1 / denominator};
      if (sheet_.shutter && shutter < sheet_.shutter->wide) continue;
      Camera changed = camera_;
      // A shutter that is fixed burns out by day or drowns in noise by night; one with a limit does neither unless it
      // must.
      std::optional<Time>& set = camera_.shutter ? changed.shutter : changed.slowest_shutter;
      if (set && *set <= shutter) continue;
      if (need_.shutter) continue;  // the need's own shutter wins over the camera's
      set = shutter;
      add(kShutterKind, denominator, changed,
          fmt::format("{} 1/{:.0f} s (by night it costs light)",
                      camera_.shutter ? "fix the shutter at" : "let the shutter be no slower than", denominator));
    }
    add_slower_shutters();
  }

  /// Where the shutter is held short, by night a slower one may give the light that is wanting.
  void add_slower_shutters() {
    const std::optional<Time> held = camera_.shutter ? camera_.shutter : camera_.slowest_shutter;
    if (!held || need_.shutter) return;
    for (const double denominator : {25.0, 50.0, 100.0, 250.0}) {
      const Time shutter{1 / denominator};
      if (*held >= shutter || (sheet_.shutter && shutter > sheet_.shutter->tele)) continue;
      Camera changed = camera_;
      changed.shutter.reset();
      changed.slowest_shutter = shutter;
      add(kShutterKind, shutter / *held, changed,
          fmt::format("let the shutter go to 1/{:.0f} s (who moves smears more)", denominator));
    }
  }

  /// More bits, where bits are held down.
  void add_streams() {
    const std::optional<camera::Stream>& stream = camera::stream_of(sheet_, camera_);
    if (!stream || !stream->rate) return;
    constexpr DataRate kMost{40e6};  // of what cameras send
    for (const double factor : {2.0, 4.0}) {
      Camera changed = camera_;
      changed.stream = stream;
      changed.stream->rate = factor * *stream->rate;
      if (*changed.stream->rate > kMost) continue;
      add(kStreamKind, factor, changed,
          fmt::format("let the stream have {:.3g} Mbit/s, {:g} times as much (it takes as much more storage)",
                      changed.stream->rate->in(Mbit / s), factor));
    }
  }

  void add_heights() {
    constexpr double kLowest = 2.5, kHighest = 8;  // m
    for (const double rise : {0.5, -0.5, 1.0, -1.0, 1.5, -1.5, 2.0, -2.0, 3.0}) {
      const double height = mount_.height.in(m) + rise;
      if (height < kLowest || height > kHighest) continue;
      add(kHeightKind, std::abs(rise), camera_,
          fmt::format("move the mount {} to {} above ground", rise > 0 ? "up" : "down", length_words(height)),
          rise * m);
    }
  }

  void add_sheets() {
    for (const Sheet& other : project_.catalogue) {
      if (other.name == sheet_.name) continue;
      const std::string& currency = project_.settings.currency;
      const std::string price =
          other.price ? fmt::format(" (price {:.0f}{}{})", *other.price, currency.empty() ? "" : " ", currency) : "";
      const double dearer = other.price.value_or(1e6) - sheet_.price.value_or(0);
      for (const Length focal : focals_of(other)) {
        Camera changed = camera_;
        changed.sheet = other.name;
        changed.focal = focal;
        changed.f_number.reset();
        changed.frame_rate.reset();
        const std::string zoom = other.zoom() ? fmt::format(" at {:.1f} mm", focal.in(mm)) : "";
        add(kSheetKind, dearer, changed, fmt::format("use {}{}{}", other.name, zoom, price));
        changed.heading = aim_.heading;
        changed.tilt = aim_.tilt;
        changed.focus = std::max(aim_.distance * m, other.closest_focus.value_or(Length{0}));
        if (allowed(mount_, aim_.heading))
          add(kTogetherKind, 1e3 + dearer, changed,
              fmt::format("use {}{}{}, turned to heading {:.0f}, tilt {:.0f} degrees, focus at {}", other.name, zoom,
                          price, whole_degrees(aim_.heading), aim_.tilt.in(deg), length_words(aim_.distance)));
      }
    }
  }

  const Project& project_;
  const Camera& camera_;
  const Sheet& sheet_;
  const site::Mount& mount_;
  const Need& need_;
  Aim aim_;
  std::vector<Change> changes_;
};

}  // namespace

std::vector<Change> changes_of(const Project& project, const Camera& camera, const Need& need, geom::SitePoint middle) {
  return Changes{project, camera, need, middle}.all();
}

Station changed_station(const Project& project, const Change& change) {
  return station_of(project, change.camera, change.raised);
}

}  // namespace sightfall::need
