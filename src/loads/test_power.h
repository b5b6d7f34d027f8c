// SPDX-License-Identifier: GPL-3.0-or-later
// For tests: a switch, a camera and a cable between, of which nothing is uncertain.
#pragma once
#include <set>
#include <string>
#include <utility>

#include "loads/ports.h"
#include "loads/power.h"
#include "need/test_project.h"

namespace sightfall::loads {

/// One camera of class 3 on port 1 of a switch, 50 m of 66.8 ohm/km at 20 degrees; nothing is uncertain.
struct Wired {
  need::Project project = need::plain_project();
  site::Cable pairs, conductors;
  Cabling cabling;

  Wired() {
    using namespace units;
    pairs.name = "pairs";
    pairs.resistance = 66.8 * (ohm / km);
    conductors = pairs;
    conductors.medium = site::CableMedium::kConductors;
    conductors.resistance = 13.3 * (ohm / km);
    detail::Typical& typical = project.settings.typical;
    typical.conductor_temperature = need::exactly(20, "temperature");
    typical.supply_efficiency = need::exactly(0.8, "supply");
    typical.battery_efficiency = need::exactly(0.9, "battery");
    typical.battery_age = need::exactly(0.8, "age");
    typical.peukert_sealed = need::exactly(1.1, "Peukert");
    typical.body_draw = need::exactly(4, "body");
    camera::Sheet& sheet = project.catalogue.front();
    sheet.power.supply = "PoE class 3";
    sheet.power.typical = 5.0 * W;
    sheet.power.largest = 12.5 * W;
    site::Feed feed;
    feed.name = "switch";
    feed.ports = {8, {}, 4, 4, 60.0 * W};
    feed.draw = 10.0 * W;
    project.site.feeds = {feed};
    project.site.runs = {{.name = "C1", .from = "switch", .port = 1, .to = "eye", .cable = "pairs"}};
  }

  PowerLoads loads(double metres = 50) {
    cabling.runs.clear();
    const std::set<const site::Run*> powered = powered_runs(project);
    for (const site::Run& run : project.site.runs) {
      LaidRun laid;
      laid.run = &run;
      laid.cable = run.cable == "pairs" ? &pairs : &conductors;
      laid.powered = powered.contains(&run);
      laid.length = Ranged<Length>::exact(Length{metres});
      cabling.runs.push_back(laid);
    }
    return power(project, cabling);
  }
};

}  // namespace sightfall::loads
