// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/assumed.h"

#include <fmt/format.h>

#include <algorithm>

namespace sightfall::loads {
namespace {

using site::FeedKind;

template <class Items, class Is>
bool any(const Items& items, const Is& is) {
  return std::any_of(items.begin(), items.end(), is);
}

class Collector {
 public:
  Collector(const need::Project& project, const Loads& loads)
      : project_{project}, loads_{loads}, typical_{project.settings.typical} {}

  std::vector<Assumption> all() {
    add_cables_and_power();
    add_batteries();
    add_streams();
    add_storage();
    add_mounts();
    return std::move(all_);
  }

 private:
  /// An entry of the table as it is printed.
  void add_if(bool used, const char* what, const detail::TypicalValue& entry) {
    if (!used) return;
    const std::string unit = entry.unit == "1" ? "" : " " + entry.unit;
    all_.push_back({fmt::format("{}: {:g}{} ({:g} to {:g}): {}", what, entry.value.nominal, unit, entry.value.low,
                                entry.value.high, entry.meaning),
                    entry.settle});
  }

  bool has_feed(FeedKind kind) const {
    return any(project_.site.feeds, [&](const site::Feed& one) { return one.kind == kind; });
  }

  const camera::Sheet& sheet_of(const camera::Camera& camera) const {
    return need::the_named(project_.catalogue, camera.sheet);
  }

  template <class Is>
  bool any_sheet(const Is& is) const {
    return any(project_.cameras, [&](const camera::Camera& one) { return is(sheet_of(one), one); });
  }

  void add_cables_and_power() {
    const bool laid = !project_.site.runs.empty();
    add_if(laid, "cable slack", typical_.cable_slack);
    add_if(laid, "service loops", typical_.service_loop);
    add_if(laid, "conductors", typical_.conductor_temperature);
    add_if(!loads_.power.feeds.empty(), "supplies", typical_.supply_efficiency);
    add_if(any_sheet([](const auto& sheet, const auto&) { return !sheet.power.typical; }), "a camera's draw",
           typical_.body_draw);
    const auto shines = [](const camera::Sheet& sheet, const camera::Camera& camera) {
      return sheet.infrared && !sheet.infrared->draw && camera.infrared != camera::InfraredUse::kOff;
    };
    add_if(any_sheet([&](const auto& sheet, const auto& one) { return shines(sheet, one) && sheet.power.largest; }),
           "infrared lamps", typical_.infrared_share);
    add_if(any_sheet([&](const auto& sheet, const auto& one) { return shines(sheet, one) && !sheet.power.largest; }),
           "infrared lamps", typical_.infrared_draw);
  }

  void add_batteries() {
    add_if(has_feed(FeedKind::kBattery), "batteries", typical_.battery_efficiency);
    add_if(has_feed(FeedKind::kBattery), "batteries' age", typical_.battery_age);
    const auto of = [&](site::Cells cells) {
      return any(project_.site.feeds,
                 [&](const site::Feed& one) { return one.kind == FeedKind::kBattery && one.cells == cells; });
    };
    add_if(of(site::Cells::kLeadFlooded), "batteries' cells", typical_.peukert_flooded);
    add_if(of(site::Cells::kLeadSealed), "batteries' cells", typical_.peukert_sealed);
    add_if(of(site::Cells::kLithium), "batteries' cells", typical_.peukert_lithium);
  }

  void add_streams() {
    const auto& rates = loads_.network.rates;
    const auto forecast = [](const StreamRate& one) {
      const bool held = one.stream.control == camera::RateControl::kConstant && one.stream.rate;
      return !held && !(one.day.measured && one.night.measured);
    };
    add_if(any(rates, forecast), "rates", typical_.rate_forecast);
    add_if(any(rates, [&](const StreamRate& one) { return forecast(one) && !one.stream.quality; }),
           "quality of streams", typical_.stream_quality);
    add_if(any(project_.site.feeds, [](const site::Feed& one) { return one.viewers > 0 && !one.viewer_rate; }),
           "a viewer outside", typical_.viewer_rate);
    const bool watched = any(project_.site.feeds, [](const site::Feed& one) { return one.inside_viewers > 0; });
    if (watched || project_.cameras.empty() || !has_feed(FeedKind::kRecorder)) return;
    all_.push_back(
        {"streams: each camera sends one, to its recorder, without multicast; who looks on inside the site "
         "takes the recorder's copy",
         "ask who looks on where: each who takes a camera's own stream is one more on its links, or none more where "
         "every switch on the way passes multicast, and only where it is asked for; enter how many"});
  }

  void add_storage() {
    const bool cards = !loads_.storage.cards.empty();
    add_if(cards || has_feed(FeedKind::kRecorder), "disks", typical_.disk_share);
    add_if(any(project_.cameras,
               [](const camera::Camera& one) {
                 return one.recording.mode == camera::RecordingMode::kMotion && !one.recording.motion_share;
               }),
           "recording by motion", typical_.motion_share);
    add_if(cards, "writing to cards", typical_.write_amplification);
    add_if(cards, "cards' cells", typical_.card_cycles);
  }

  void add_mounts() {
    const bool hung = !loads_.mount.mounts.empty();
    const auto fixing_lacks = [&](const auto& lacks) {
      return any(loads_.mount.mounts, [&](const HeldMount& held) {
        const auto& fixing = need::the_named(project_.site.mounts, held.mount).fixing;
        return lacks(fixing ? *fixing : site::Fixing{});
      });
    };
    add_if(hung && !project_.site.wind, "wind", typical_.wind_speed);
    add_if(hung, "wind on a camera", typical_.body_drag);
    add_if(any_sheet([](const auto& sheet, const auto&) { return !sheet.body; }), "a camera's size",
           typical_.body_side);
    add_if(any_sheet([](const auto& sheet, const auto&) { return !sheet.mass; }), "a camera's mass",
           typical_.body_mass);
    add_if(fixing_lacks([](const site::Fixing& one) { return !one.arm; }), "arms of brackets", typical_.fixing_arm);
    add_if(fixing_lacks([](const site::Fixing& one) { return !one.spread; }), "fixings", typical_.fixing_spread);
    add_if(fixing_lacks([](const site::Fixing& one) {
             const bool screw = one.kind == site::FixingKind::kWoodScrew || one.kind == site::FixingKind::kLagScrew;
             return screw && !one.allowable && !one.gravity;
           }),
           "wood", typical_.wood_gravity);
    if (any(loads_.mount.mounts, [](const HeldMount& one) { return !one.held_by; }))
      all_.push_back(
          {"holding: a mount that states neither a pole nor what holds it may hang on a wall or under a "
           "ceiling, and the larger pull of both is taken",
           "look which, and enter it"});
  }

  const need::Project& project_;
  const Loads& loads_;
  const detail::Typical& typical_;
  std::vector<Assumption> all_;
};

}  // namespace

std::vector<Assumption> assumptions_of(const need::Project& project, const Loads& loads) {
  return Collector(project, loads).all();
}

}  // namespace sightfall::loads
