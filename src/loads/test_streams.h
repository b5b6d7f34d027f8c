// SPDX-License-Identifier: GPL-3.0-or-later
// For tests: two cameras on a switch, a recorder, a router, and streams whose rates are set.
#pragma once
#include <string>
#include <vector>

#include "loads/network.h"
#include "need/test_project.h"

namespace sightfall::loads {

inline StreamRate rate_of(const std::string& camera, double day_mbit, double night_mbit) {
  using namespace units;
  StreamRate rate;
  rate.camera = camera;
  rate.stream.control = camera::RateControl::kFree;
  rate.day.rate = Ranged<DataRate>::exact(day_mbit * (Mbit / s));
  rate.night.rate = Ranged<DataRate>::exact(night_mbit * (Mbit / s));
  return rate;
}

struct Networked {
  need::Project project = need::plain_project();
  site::Cable pairs;
  std::vector<StreamRate> rates{rate_of("eye", 4, 4), rate_of("other", 2, 8)};

  Networked() {
    using namespace units;
    pairs.name = "pairs";
    pairs.rate = 1000.0 * (Mbit / s);
    project.cameras.push_back(need::camera_on("other", "post"));
    site::Feed hub, recorder, router;
    hub.name = "switch";
    hub.ports.count = 8;
    hub.uplink = 1000.0 * (Mbit / s);
    recorder.kind = site::FeedKind::kRecorder;
    recorder.name = "recorder";
    recorder.ports = {2, 1000.0 * (Mbit / s), 0, 4, {}};
    recorder.intake = 80.0 * (Mbit / s);
    recorder.disks = site::Disks{1, 1e12 * byte, site::Redundancy::kNone};
    router.kind = site::FeedKind::kRouter;
    router.name = "router";
    router.upload = 2.0 * (Mbit / s);
    project.site.feeds = {hub, recorder, router};
    project.site.runs = {{.name = "C1", .from = "switch", .port = 1, .to = "eye"},
                         {.name = "C2", .from = "switch", .port = 2, .to = "other"},
                         {.name = "N1", .from = "recorder", .port = 1, .to = "switch"},
                         {.name = "N2", .from = "router", .to = "recorder"}};
    detail::Typical& typical = project.settings.typical;
    typical.disk_share = need::exactly(1, "share of the disk");
    typical.motion_share = need::exactly(0.25, "motion");
    typical.viewer_rate = need::exactly(0.5, "viewer");
    typical.write_amplification = need::exactly(2, "write amplification");
    typical.card_cycles = need::exactly(3000, "cycles");
  }

  Cabling cabling() const {
    Cabling laid;
    for (const site::Run& run : project.site.runs) {
      LaidRun one;
      one.run = &run;
      one.cable = &pairs;
      laid.runs.push_back(one);
    }
    return laid;
  }
};

}  // namespace sightfall::loads
