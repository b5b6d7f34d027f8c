// SPDX-License-Identifier: GPL-3.0-or-later
#include "loaded_town.h"

#include <string>

#include "file/project.h"
#include "made_town.h"

namespace sightfall::bench {
namespace {

using namespace units;
using geom::PlanPoint;

constexpr double kPitch = 34, kWidth = 306, kStreet = 9;  // m, of made_town's blocks and streets

void light(need::Project& town) {
  town.settings.materials = file::default_materials();
  town.conditions = {{"summer day", site::Leaves::kOn}, {"dark night", site::Leaves::kOff}};
  town.conditions.back().light = site::NamedLight::kDarkNight;
  for (camera::Sheet& sheet : town.catalogue) {
    sheet.power = {"PoE class 3", 5 * W, 12 * W, {}, {}};
    sheet.stream = camera::Stream{camera::Codec::kH264, camera::RateControl::kCapped, DataRate{4e6}, 28.0};
    if (sheet.name == "long") continue;
    sheet.infrared.emplace();
    sheet.infrared->draw = 6 * W;
  }
}

/// A switch in each block, a cable from it to each camera on its wall, and fibre from each switch to the recorder.
void wire(need::Project& town) {
  town.settings.cables = file::default_cables();
  site::Feed recorder;
  recorder.name = "recorder";
  recorder.kind = site::FeedKind::kRecorder;
  recorder.at = {kWidth / 2, kWidth / 2};
  recorder.intake = DataRate{6e9};
  recorder.disks = site::Disks{};
  recorder.disks->count = 48;
  recorder.disks->each = 16e12 * byte;
  town.site.feeds = {recorder};
  for (const site::Solid& block : town.site.solids) {
    site::Feed feed;
    feed.name = block.name;
    feed.at = block.outline.outer.front() + PlanPoint{12, -0.2};
    feed.height = 4 * m;
    feed.ports = {48, DataRate{1e8}, 48, 4, 740 * W};
    feed.uplink = DataRate{1e9};
    town.site.feeds.push_back(feed);
    town.site.ways.push_back(
        {block.name, site::WayKind::kWall, {feed.at - PlanPoint{12, 0}, feed.at + PlanPoint{13, 0}}, 4 * m});
    site::Run uplink;
    uplink.name = "up " + block.name;
    uplink.from = "recorder";
    uplink.to = block.name;
    uplink.cable = "fibre, two multimode OM3, outdoor";
    uplink.length = 300 * m;
    town.site.runs.push_back(uplink);
  }
  for (const camera::Camera& camera : town.cameras) {
    const PlanPoint at = need::the_named(town.site.mounts, camera.mount).at;
    const auto row = static_cast<size_t>((at.y + 1) / kPitch), column = static_cast<size_t>(at.x / kPitch);
    site::Run run;
    run.name = "to " + camera.name;
    run.from = town.site.solids[column * 9 + row].name;
    run.to = camera.name;
    run.cable = "Cat6 U/UTP, outdoor";
    town.site.runs.push_back(run);
  }
}

/// Its boundary, and neighbours south of it, where its cameras look.
void bound(site::Site& site) {
  site.boundary = {{-kStreet, -kStreet}, {kWidth, -kStreet}, {kWidth, kWidth}, {-kStreet, kWidth}};
  for (double x = 0; x < kWidth; x += 10)
    site.neighbours.push_back(
        {"window " + std::to_string(site.neighbours.size()), {x, -2.5 * kStreet}, 2 * m, 1 * m, Angle{0}});
}

/// A person in the street south of some of its blocks.
void ask(need::Project& town) {
  for (size_t i = 0; i < town.site.solids.size(); i += 16) {
    const PlanPoint corner = town.site.solids[i].outline.outer.front();
    site::Place street;
    street.name = "street " + std::to_string(i);
    street.outline.outer = {corner - PlanPoint{0, 8}, corner + PlanPoint{25, -8}, corner + PlanPoint{25, -1},
                            corner - PlanPoint{0, 1}};
    town.site.places.push_back(street);
    need::Need need;
    need.name = "a person in " + street.name;
    need.subject = need::Subject::kPerson;
    need.place = street.name;
    need.level = town.settings.levels.levels[3].name;
    town.needs.push_back(need);
  }
}

}  // namespace

need::Project loaded_town(int cameras) {
  need::Project town = made_town(cameras);
  light(town);
  wire(town);
  bound(town.site);
  ask(town);
  return town;
}

}  // namespace sightfall::bench
