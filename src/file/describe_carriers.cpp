// SPDX-License-Identifier: GPL-3.0-or-later
#include <array>

#include "file/describe.h"

namespace sightfall::file {
namespace {

using namespace sightfall::units;

constexpr std::array<std::string_view, 6> kFeedKinds{"switch", "injector", "recorder", "router", "supply", "battery"};
constexpr std::array<std::string_view, 5> kRedundancies{"none", "mirror", "RAID 5", "RAID 6", "RAID 10"};
constexpr std::array<std::string_view, 3> kCells{"lead, flooded", "lead, sealed", "lithium"};
constexpr std::array<std::string_view, 5> kWayKinds{"wall", "trench", "conduit", "tray", "overhead"};
constexpr std::array<std::string_view, 3> kMedia{"pairs", "conductors", "fibre"};
constexpr std::array<std::string_view, 4> kFixingKinds{"wood screw", "lag screw", "anchor", "clamp"};
constexpr std::array<std::string_view, 3> kPoleMaterials{"steel", "aluminium", "wood"};
constexpr std::array<std::string_view, 5> kCategories{"0", "I", "II", "III", "IV"};
constexpr std::array<std::string_view, 3> kRecordingModes{"always", "hours", "motion"};

constexpr UnitOf<Dim{.s = -1, .bit = 1}> kMegabitsPerSecond{"Mbit/s", Mbit / s};
constexpr UnitOf<Dim{.bit = 1}> kGigabytes{"GB", 1e9 * byte};
constexpr UnitOf<Dim{.bit = 1}> kTerabytes{"TB", 1e12 * byte};
constexpr UnitOf<Dim{.s = 1, .W = 1, .e = -1}> kVolts{"V", V};
constexpr UnitOf<Dim{.e = 1}> kAmpereHours{"Ah", Ah};
constexpr UnitOf<Dim{.s = 1}> kHours{"h", hour};
constexpr UnitOf<Dim{.s = 1}> kDays{"d", day};
constexpr UnitOf<Dim{.m = -1, .s = 2, .W = 1, .e = -2}> kOhmsPerKilometre{"ohm/km", ohm / km};
constexpr UnitOf<Dim{.m = -1, .s = 1, .W = 1}> kNewtons{"N", N};

constexpr double kFastest = 1e6;    // Mbit/s
constexpr double kMostPower = 1e5;  // W
constexpr double kMostPorts = 1000;
constexpr int kHighestClass = 8;  // IEEE 802.3
constexpr double kHighestPrice = 1e7;

void describe_ports(Form& form, site::Ports& ports, bool may_power) {
  form.whole({"ports", "", 1, kRequired, kMostPorts, "that cables can end in"}, ports.count);
  form.number({"port_mbps", kMegabitsPerSecond, 1, kOptional, kFastest, "of each port; 100 when absent"}, ports.rate);
  if (!may_power) return;
  form.whole({"powered", "", 0, 0, kMostPorts, "the first so many ports give power over Ethernet"}, ports.powered);
  form.whole({"power_class", "", 1, 4, kHighestClass, "of IEEE 802.3, the highest a powered port gives"},
             ports.power_class);
  form.number({"budget_w", kWatts, 1, kOptional, kMostPower, "for all powered ports together; unknown when absent"},
              ports.budget);
}

void describe_inside_viewers(Form& form, site::Feed& feed) {
  form.whole({"inside_viewers", "", 0, 0, 10000,
              "who look on from here at once, each taking every camera's own stream; who takes the recorder's copy is "
              "none of them"},
             feed.inside_viewers);
  form.flag({"multicast", false, "whether these take one copy together, which every switch on the way must pass"},
            feed.multicast);
}

void describe_battery(Form& form, site::Feed& feed) {
  form.number({"voltage_v", kVolts, 1, kRequired, 1000, "nominal"}, feed.voltage);
  form.number({"capacity_ah", kAmpereHours, 0.1, kRequired, 1e5, "as rated"}, feed.capacity);
  form.number(
      {"rated_over_h", kHours, 0.1, kOptional, 200, "time of discharge that the rating holds for; 20 when absent"},
      feed.rated_over);
  form.choice({"cells", "lead, sealed", "what they are made of"}, kCells, feed.cells);
  form.number({"wanted_h", kHours, 0.01, kOptional, 10000, "how long it is to carry its feeds by night, at least"},
              feed.wanted);
}

void describe_mains_fed(Form& form, site::Feed& feed) {
  form.text({"battery", kOptional, "name of the battery that carries it when the mains fail"}, feed.battery);
  form.number({"draw_w", kWatts, 0, kOptional, kMostPower, "of itself, without what hangs on it"}, feed.draw);
}

}  // namespace

void describe(Form& form, site::Feed& feed) {
  form.by_kind({"kind", kRequired, "what power or network starts at"}, kFeedKinds, feed.kind, [&] {
    using Kind = site::FeedKind;
    form.name(feed.name);
    form.point({"at", kRequired, "where it is on the plan"}, feed.at);
    form.number({"height_m", kMetres, -20, 1.5, 500, "above the ground under it"}, feed.height);
    form.flag({"outdoors", false, "whether it hangs outside a building"}, feed.outdoors);
    form.number({"price", "", 0, kOptional, kHighestPrice, "in the catalogue's currency; without disks"}, feed.price);
    if (feed.kind == Kind::kBattery) return describe_battery(form, feed);
    describe_mains_fed(form, feed);
    if (feed.kind == Kind::kSupply) {
      form.number({"voltage_v", kVolts, 1, kRequired, 1000, "that it gives"}, feed.voltage);
      form.flag({"alternating", false, "whether it gives alternating current"}, feed.alternating);
      form.number({"power_factor", "", 0.1, kOptional, 1,
                   "of what hangs on it, only with alternating; a usual range when absent"},
                  feed.power_factor);
      form.number({"rating_w", kWatts, 0.1, kRequired, kMostPower, "the most it gives; of alternating current in VA"},
                  feed.rating);
      if (feed.power_factor && !feed.alternating) form.fault("power_factor", "allowed only with alternating current");
      return;
    }
    describe_ports(form, feed.ports, feed.kind != Kind::kRouter);
    if (feed.kind != Kind::kInjector) describe_inside_viewers(form, feed);
    if (feed.kind == Kind::kSwitch) {
      form.number({"uplink_mbps", kMegabitsPerSecond, 1, kOptional, kFastest,
                   "towards what it hangs on; as its ports when absent"},
                  feed.uplink);
      form.flag({"powered_over_cable", false,
                 "whether it takes its power from the powered port that its network cable starts at, not from mains"},
                feed.powered_over_cable);
    }
    if (feed.kind == Kind::kRecorder) {
      form.number(
          {"intake_mbps", kMegabitsPerSecond, 1, kOptional, kFastest, "the most it records; unknown when absent"},
          feed.intake);
      form.object({"disks", kOptional, "all alike"}, feed.disks);
    }
    if (feed.kind == Kind::kRouter) {
      form.number({"upload_mbps", kMegabitsPerSecond, 0.01, kOptional, kFastest, "from the site to outside"},
                  feed.upload);
      form.whole({"viewers", "", 0, 0, 10000, "who look from outside at once"}, feed.viewers);
      form.number({"viewer_mbps", kMegabitsPerSecond, 0.01, kOptional, kFastest,
                   "of what one of them is sent; the usual small picture when absent"},
                  feed.viewer_rate);
    }
  });
}

void describe(Form& form, site::Disks& disks) {
  form.whole({"count", "", 1, 1, 1000, "how many"}, disks.count);
  form.number({"each_tb", kTerabytes, 0.001, kRequired, 1000, "of one, in units of 1000^4 bytes"}, disks.each);
  form.choice({"redundancy", "none", "how they share what they hold"}, kRedundancies, disks.redundancy);
  form.number({"price", "", 0, kOptional, kHighestPrice, "of one, in the catalogue's currency"}, disks.price);
}

void describe(Form& form, site::Way& way) {
  form.by_kind({"kind", kRequired, "where cables may lie"}, kWayKinds, way.kind, [&] {
    form.name(way.name);
    form.points({"line", kRequired, "points along it"}, 2, way.line);
    form.number({"height_m", kMetres, -20, way.kind == site::WayKind::kTrench ? -0.6 : 2.5, 100,
                 "of the cables above ground; below it negative"},
                way.height);
    form.flag({"indoors", false, "whether it lies in a building, so that it may pass through one"}, way.indoors);
    form.flag({"through_buildings", false, "whether it leads through, under or over buildings by a way that is there"},
              way.through);
    form.flag({"shaded", false, "whether no sun falls on it"}, way.shaded);
    if (way.kind == site::WayKind::kConduit)
      form.number({"bore_mm", kMillimetres, 4, kRequired, 1000, "inner diameter"}, way.bore);
  });
}

void describe(Form& form, site::Run& run) {
  form.name(run.name);
  form.text({"from", kRequired, "name of the feed it starts at"}, run.from);
  form.whole({"port", "", 1, kOptional, kMostPorts, "of that feed; the first is 1"}, run.port);
  form.text({"to", kRequired, "name of the camera, or of the feed, it ends at"}, run.to);
  form.whole(
      {"to_port", "", 1, kOptional, kMostPorts,
       "of the injector it ends at: what comes in there goes on at the port of that number; needed where several "
       "runs end at one injector"},
      run.to_port);
  form.text({"cable", kRequired, "name of a kind of cable of data/cables.json"}, run.cable);
  form.names({"along", kOptional, "names of the ways it takes, in their order; the shortest when absent"}, run.along);
  form.number({"length_m", kMetres, 0.1, kOptional, 1e5, "as measured; worked out when absent"}, run.length);
  form.flag({"surge_protected", false, "whether both ends are protected against surges"}, run.surge_protected);
  form.number({"price_per_m", "", 0, kOptional, kHighestPrice,
               "of this kind of cable, in the catalogue's currency; once is enough for all runs of the kind"},
              run.metre_price);
}

void describe(Form& form, site::Cable& cable) {
  form.name(cable.name);
  form.choice({"medium", kRequired, ""}, kMedia, cable.medium);
  form.number({"ohm_per_km", kOhmsPerKilometre, 0.01, kOptional, 1000, ""}, cable.resistance);
  form.number({"outer_mm", kMillimetres, 0.5, kRequired, 200, ""}, cable.outer);
  form.flag({"sunproof", false, ""}, cable.sunproof);
  form.flag({"shielded", false, ""}, cable.shielded);
  form.number({"longest_m", kMetres, 1, kOptional, 1e5, ""}, cable.longest);
  form.number({"rate_mbps", kMegabitsPerSecond, 1, kOptional, kFastest, ""}, cable.rate);
  form.lines({"source", kRequired, ""}, cable.source);
}

void describe(Form& form, site::Fixing& fixing) {
  form.choice({"kind", kRequired, "what holds the bracket"}, kFixingKinds, fixing.kind);
  form.whole({"count", "", 1, 4, 100, "how many"}, fixing.count);
  form.number({"diameter_mm", kMillimetres, 1, kOptional, 50, "of the shank; needed of screws"}, fixing.diameter);
  form.number({"depth_mm", kMillimetres, 1, kOptional, 500, "of the thread in what holds it; needed of screws"},
              fixing.depth);
  form.number(
      {"wood_gravity", "", 0.1, kOptional, 1.2, "specific gravity of the wood, oven-dry; the usual one when absent"},
      fixing.gravity);
  form.number({"allowable_n", kNewtons, 1, kOptional, 1e6,
               "pull that one may carry, as its maker states for this base; needed of anchors and clamps"},
              fixing.allowable);
  form.number({"spread_mm", kMillimetres, 5, kOptional, 5000,
               "between upper and lower ones, overhead across; the usual one when absent"},
              fixing.spread);
  form.number({"arm_mm", kMillimetres, 10, kOptional, 10000,
               "from what it is fixed to, to the camera's middle; the usual one when absent"},
              fixing.arm);
}

void describe(Form& form, site::Pole& pole) {
  form.choice({"material", "steel", "what it is made of"}, kPoleMaterials, pole.material);
  form.number({"outer_mm", kMillimetres, 10, kRequired, 2000, "diameter"}, pole.outer);
  form.number({"wall_mm", kMillimetres, 0.5, kRequired, 1000, "thickness of the tube; half of the diameter when solid"},
              pole.wall);
  form.number({"height_m", kMetres, 0.1, kRequired, 60, "above where it is held"}, pole.height);
}

void describe(Form& form, site::Wind& wind) {
  form.number({"basic_m_s", kMetresPerSecond, 1, kRequired, 100,
               "fundamental basic velocity of EN 1991-1-4, or its like: ten minutes at 10 m over open country"},
              wind.basic);
  form.choice({"category", "II", "terrain category of EN 1991-1-4, from the sea (0) to a town (IV)"}, kCategories,
              wind.category);
}

void describe(Form& form, camera::Mask& mask) {
  form.name(mask.name);
  form.number({"left", "", 0, kRequired, 1, "share of the picture's width, from its left"}, mask.left);
  form.number({"top", "", 0, kRequired, 1, "share of the picture's height, from its top"}, mask.top);
  form.number({"right", "", 0, kRequired, 1, "likewise"}, mask.right);
  form.number({"bottom", "", 0, kRequired, 1, "likewise"}, mask.bottom);
  if (mask.right <= mask.left) form.fault("right", "must lie beyond left");
  if (mask.bottom <= mask.top) form.fault("bottom", "must lie beyond top");
}

void describe(Form& form, camera::Recording& recording) {
  form.choice({"mode", "always", "when what it shows is kept"}, kRecordingModes, recording.mode);
  form.number({"hours_a_day", "h", 0.1, kOptional, 24, "needed with, and only with, mode \"hours\""},
              recording.hours_a_day);
  form.number(
      {"motion_share", "", 0, kOptional, 1, "of the time, only with mode \"motion\"; the usual one when absent"},
      recording.motion_share);
  form.number({"card_gb", kGigabytes, 1, kOptional, 1e5, "of a card in the camera, in units of 1000^3 bytes"},
              recording.card);
  if ((recording.mode == camera::RecordingMode::kHours) != recording.hours_a_day.has_value())
    form.fault("hours_a_day", "needed with, and only with, mode \"hours\"");
  if (recording.motion_share && recording.mode != camera::RecordingMode::kMotion)
    form.fault("motion_share", "allowed only with mode \"motion\"");
}

void describe(Form& form, need::Keeping& keeping) {
  form.number({"wanted_d", kDays, 0.01, kOptional, 10000, "how long recordings are wanted at least"}, keeping.wanted);
  form.number({"most_d", kDays, 0.01, kOptional, 10000, "how long they may be kept by the law that binds the user"},
              keeping.most);
  form.text({"reason", kOptional, "of that cap, as it is printed"}, keeping.reason);
  if (keeping.most && keeping.reason.empty()) form.fault("reason", "missing; a cap is printed with its reason");
  if (keeping.wanted && keeping.most && *keeping.wanted > *keeping.most)
    form.fault("wanted_d", "is longer than most_d allows");
}

}  // namespace sightfall::file
