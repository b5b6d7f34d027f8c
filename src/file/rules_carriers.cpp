// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <optional>
#include <set>
#include <utility>

#include "file/by_name.h"
#include "file/rules.h"
#include "site/way_in_building.h"

namespace sightfall::file {
namespace {

using site::Feed;
using site::FeedKind;
using site::Run;

double in_centimetres(double metres) { return std::round(100 * metres) / 100; }

void check_way(const site::Way& way, const Spot& spot, const site::Site& site, Report& report) {
  if (!report.clean(spot.path, "line")) return;
  check_line(way.line, spot.at("line"), report);
  if (way.indoors || way.through) return;
  for (size_t i = 0; i < site.solids.size(); ++i) {
    const site::Solid& solid = site.solids[i];
    const Spot building = item_spot("site.solids", i, solid.name);
    if (solid.kind != site::SolidKind::kBuilding || !report.clean(building.path, "") ||
        !report.clean(building.path, "outline"))
      continue;
    if (const auto inside = site::first_inside(way.line, solid.outline))
      report.add(
          ErrorKind::kGeometry, spot.at("line"),
          fmt::format("found {}, inside the building {}; allowed: a line around it, or with "
                      "`through_buildings` one that leads through, under or over it or begins or ends in it, or "
                      "with `indoors` one that lies in it",
                      point_in_words({in_centimetres(inside->x), in_centimetres(inside->y)}), in_quotes(solid.name)));
  }
}

/// The runs of a site beside the things that they join.
class Joints {
 public:
  Joints(const need::Project& project, Report& report)
      : project_{project},
        report_{report},
        feeds_(project.site.feeds, "site", "feeds", report),
        cameras_(project.cameras, "", "cameras", report),
        ways_(project.site.ways, "site", "ways", report),
        cables_(project.settings.cables, "", "", report) {}

  void check() {
    check_batteries();
    for (size_t i = 0; i < project_.site.runs.size(); ++i) {
      const Run& run = project_.site.runs[i];
      const Spot spot = item_spot("site.runs", i, run.name);
      if (!report_.clean(spot.path, "")) continue;
      check_start(run, spot);
      check_end(run, spot);
      check_price(run, spot);
      for (size_t k = 0; k < run.along.size(); ++k)
        ways_.find(run.along[k], spot.at(fmt::format("along[{}]", k)), "way of the site", report_);
    }
    check_loops();
  }

 private:
  void wrong(const Spot& spot, std::string text) { report_.add(ErrorKind::kField, spot, std::move(text)); }

  void check_batteries() {
    for (size_t i = 0; i < project_.site.feeds.size(); ++i) {
      const Feed& feed = project_.site.feeds[i];
      const Spot spot = item_spot("site.feeds", i, feed.name);
      if (!report_.clean(spot.path, "")) continue;
      if (feed.ports.powered > feed.ports.count)
        wrong(spot.at("powered"), fmt::format("found {}; it has {} ports", feed.ports.powered, feed.ports.count));
      if (feed.battery.empty()) continue;
      const Feed* battery = feeds_.find(feed.battery, spot.at("battery"), "feed", report_);
      if (battery != nullptr && battery->kind != FeedKind::kBattery)
        wrong(spot.at("battery"), "found " + in_quotes(feed.battery) + ", which is no battery");
    }
  }

  void check_start(const Run& run, const Spot& spot) {
    const Feed* from = feeds_.find(run.from, spot.at("from"), "feed", report_);
    const site::Cable* cable = cables_.find(run.cable, spot.at("cable"), "cable of data/cables.json", report_);
    if (from == nullptr || cable == nullptr) return;
    const bool supply = from->kind == FeedKind::kSupply;
    if (from->kind == FeedKind::kBattery)
      return wrong(spot.at("from"),
                   "found the battery " + in_quotes(run.from) + "; name it as `battery` of the feeds that it carries");
    if (supply != (cable->medium == site::CableMedium::kConductors))
      wrong(spot.at("cable"), "found " + in_quotes(run.cable) +
                                  (supply ? "; from a supply goes a cable of conductors"
                                          : "; from a port goes a cable of pairs or fibre"));
    if (run.port) check_port(run, *from, spot.at("port"));
  }

  void check_port(const Run& run, const Feed& from, const Spot& spot) {
    if (from.kind == FeedKind::kSupply) return wrong(spot, "found a port; a supply has none");
    if (*run.port > from.ports.count)
      return wrong(spot, fmt::format("found {}; {} has {} ports", *run.port, in_quotes(from.name), from.ports.count));
    const auto [used, fresh] = used_.emplace(std::pair(from.name, *run.port), run.name);
    if (!fresh)
      wrong(spot,
            fmt::format("found {} of {}, which {} uses", *run.port, in_quotes(from.name), in_quotes(used->second)));
  }

  void check_end(const Run& run, const Spot& spot) {
    const auto& cameras = project_.cameras;
    const bool camera =
        std::any_of(cameras.begin(), cameras.end(), [&](const auto& one) { return one.name == run.to; });
    const auto feed = std::find_if(project_.site.feeds.begin(), project_.site.feeds.end(),
                                   [&](const Feed& one) { return one.name == run.to; });
    if (camera && feed != project_.site.feeds.end())
      return wrong(spot.at("to"), "found " + in_quotes(run.to) + ", which is both a camera and a feed; rename one");
    if (run.to == run.from) return wrong(spot.at("to"), "found the feed it starts at");
    if (!camera && feed == project_.site.feeds.end()) {
      cameras_.find(run.to, spot.at("to"), "camera or feed", report_);
      return;
    }
    if (feed != project_.site.feeds.end() && feed->kind == FeedKind::kBattery)
      wrong(spot.at("to"), "found the battery " + in_quotes(run.to));
    const auto medium = medium_of(run);
    if (!medium) return;
    const bool power = *medium == site::CableMedium::kConductors;
    if (!power && feed != project_.site.feeds.end() && feed->kind == FeedKind::kInjector)
      return check_input(run, *feed, spot);
    if (run.to_port && report_.clean(spot.path, "to_port"))
      return wrong(spot.at("to_port"), "allowed only where a run of network ends at an injector");
    check_alone(run, power, camera, spot);
  }

  /// A network cable between two devices may have been drawn from the wrong end; anything else is one too many.
  void check_alone(const Run& run, bool power, bool camera, const Spot& spot) {
    const auto [other, fresh] = ends_.emplace(std::pair(run.to, power), run.name);
    if (fresh) return;
    const char* way_out = camera || power ? "leave one out" : "turn one about";
    wrong(spot.at("to"),
          fmt::format("found {}, where {} ends already; one run of network and one of power may end there: {}",
                      in_quotes(run.to), in_quotes(other->second), way_out));
  }

  /// Through an injector every port goes by itself, so that as many runs may end there as it has ports.
  void check_input(const Run& run, const Feed& injector, const Spot& spot) {
    const Spot at = spot.at("to_port");
    if (!report_.clean(at.path, at.field)) return;
    if (!run.to_port) {
      const auto& runs = project_.site.runs;
      const auto other = std::find_if(runs.begin(), runs.end(), [&](const Run& one) {
        return &one != &run && one.to == run.to && is_network(one);
      });
      if (other != runs.end())
        wrong(at, fmt::format("missing; {} ends at {} as well, so each says at which port", in_quotes(other->name),
                              in_quotes(run.to)));
      return;
    }
    if (*run.to_port > injector.ports.count)
      return wrong(at, fmt::format("found {}; {} has {} ports", *run.to_port, in_quotes(run.to), injector.ports.count));
    const auto [other, fresh] = inputs_.emplace(std::pair(run.to, *run.to_port), run.name);
    if (!fresh)
      wrong(at, fmt::format("found {} of {}, where {} ends already", *run.to_port, in_quotes(run.to),
                            in_quotes(other->second)));
  }

  void check_price(const Run& run, const Spot& spot) {
    if (!run.metre_price) return;
    const auto [other, fresh] = prices_.emplace(run.cable, &run);
    if (!fresh && *other->second->metre_price != *run.metre_price)
      wrong(spot.at("price_per_m"),
            fmt::format("found {}; {}, of the same kind of cable, says {}", print_number(*run.metre_price),
                        in_quotes(other->second->name), print_number(*other->second->metre_price)));
  }

  /// None of a cable that is not known, which is told where it is named.
  std::optional<site::CableMedium> medium_of(const Run& run) const {
    const site::Cable* cable = need::find_named(project_.settings.cables, run.cable);
    return cable != nullptr ? std::optional(cable->medium) : std::nullopt;
  }

  bool is_network(const Run& run) const {
    const auto medium = medium_of(run);
    return medium && *medium != site::CableMedium::kConductors;
  }

  /// A feed hangs on one other, an injector perhaps on several, so a loop is found by going up. It is told once, of its
  /// first run.
  void check_loops() {
    const auto& runs = project_.site.runs;
    std::multimap<std::string, const Run*> up;
    for (const Run& run : runs)
      if (is_network(run)) up.emplace(run.to, &run);
    std::set<std::string> told;
    for (size_t i = 0; i < runs.size(); ++i) {
      if (told.contains(runs[i].to)) continue;
      const std::vector<std::string> chain = loop_of(runs[i], up);
      if (chain.empty()) continue;
      told.insert(chain.begin(), chain.end());
      wrong(item_spot("site.runs", i, runs[i].name).at("to"), "closes a loop: " + joined(chain));
    }
  }

  /// The feeds from the run's end up to its end again; empty when it closes no loop.
  static std::vector<std::string> loop_of(const Run& run, const std::multimap<std::string, const Run*>& up) {
    std::map<std::string, std::string> below{{run.from, run.to}};  // each feed reached, by what it was reached from
    std::vector<std::string> open{run.from};
    while (!open.empty()) {
      std::string here = open.back();
      open.pop_back();
      const auto [first, last] = up.equal_range(here);
      if (std::any_of(first, last, [&](const auto& one) { return one.second->from == run.to; })) {
        std::vector<std::string> chain;
        for (; here != run.to; here = below.at(here)) chain.push_back(here);
        chain.push_back(run.to);
        return {chain.rbegin(), chain.rend()};
      }
      for (auto at = first; at != last; ++at)
        if (below.emplace(at->second->from, here).second) open.push_back(at->second->from);
    }
    return {};
  }

  static std::string joined(const std::vector<std::string>& chain) {
    std::vector<std::string> quoted;
    std::transform(chain.rbegin(), chain.rend(), std::back_inserter(quoted),
                   [](const std::string& name) { return in_quotes(name); });
    return fmt::format("{}", fmt::join(quoted, ", "));
  }

  const need::Project& project_;
  Report& report_;
  ByName<Feed> feeds_;
  ByName<camera::Camera> cameras_;
  ByName<site::Way> ways_;
  ByName<site::Cable> cables_;
  std::map<std::pair<std::string, int>, std::string> used_;    ///< ports, by whom
  std::map<std::pair<std::string, bool>, std::string> ends_;   ///< what a run of network (of power) leads to
  std::map<std::pair<std::string, int>, std::string> inputs_;  ///< ports of injectors, by which run ends there
  std::map<std::string, const Run*> prices_;                   ///< by kind of cable, the first that states one
};

void check_fixing(const site::Mount& mount, const Spot& spot, Report& report) {
  if (!mount.fixing || !report.clean(spot.path, "fixing")) return;
  const site::Fixing& fixing = *mount.fixing;
  const bool screw = fixing.kind == site::FixingKind::kWoodScrew || fixing.kind == site::FixingKind::kLagScrew;
  const auto missing = [&](const char* field, const char* why) {
    report.add(ErrorKind::kField, spot.at(std::string("fixing.") + field), why);
  };
  if (screw && !fixing.diameter) missing("diameter_mm", "missing; a screw's hold follows from its diameter");
  if (screw && !fixing.depth) missing("depth_mm", "missing; a screw's hold follows from its depth");
  if (!screw && !fixing.allowable)
    missing("allowable_n", "missing; what an anchor or clamp may carry is its maker's to say");
}

void check_pole(const site::Mount& mount, const Spot& spot, Report& report) {
  if (!mount.pole || !report.clean(spot.path, "pole")) return;
  if (mount.held_by == site::HeldBy::kCeiling)
    report.add(ErrorKind::kField, spot.at("held_by"), "found \"ceiling\" of a mount on a pole, which is beside it");
  if (mount.pole->wall > mount.pole->outer / 2)
    report.add(ErrorKind::kField, spot.at("pole.wall_mm"), "is more than half of the diameter");
  if (mount.pole->height < mount.height)
    report.add(ErrorKind::kField, spot.at("pole.height_m"),
               fmt::format("found {} m; the mount is at {} m", print_number(mount.pole->height.si()),
                           print_number(mount.height.si())));
}

}  // namespace

void check_carriers(const need::Project& project, Report& report) {
  const site::Site& site = project.site;
  for (size_t i = 0; i < site.ways.size(); ++i) {
    const Spot spot = item_spot("site.ways", i, site.ways[i].name);
    if (report.clean(spot.path, "") && report.clean(spot.path, "kind")) check_way(site.ways[i], spot, site, report);
  }
  for (size_t i = 0; i < site.mounts.size(); ++i) {
    const Spot spot = item_spot("site.mounts", i, site.mounts[i].name);
    check_fixing(site.mounts[i], spot, report);
    check_pole(site.mounts[i], spot, report);
  }
  Joints(project, report).check();
  check_fed_feeds(project, report);
}

}  // namespace sightfall::file
