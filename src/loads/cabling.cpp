// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/cabling.h"

#include <fmt/format.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "loads/buildings.h"
#include "loads/channels.h"
#include "loads/conduit.h"
#include "loads/ports.h"
#include "loads/run_rules.h"
#include "loads/way_graph.h"
#include "site/ground.h"

namespace sightfall::loads {
namespace {

using geom::SitePoint;
using site::Way;
using site::WayKind;

/// Where no way is drawn a cable takes corners that a straight line does not: none, the two sides of a right angle, or
/// twice the line. Common practice, no published source.
constexpr Ranged<double> kDetour{1, kCorner, 2};
/// A trench above this depth is met by a spade. Common practice, no published source.
constexpr Length kShallow{0.45};
/// Shorter pieces are not told.
constexpr Length kTrifle{0.05};

struct End {
  SitePoint at;
  bool indoors = false;
  const site::Solid* building = nullptr;  ///< that it is in, or hangs on
};

End feed_end(const site::Site& site, const site::Feed& feed) {
  return {site::above_ground(site.terrain, feed.at, feed.height), !feed.outdoors,
          feed.outdoors ? building_at(site, feed.at) : building_around(site, feed.at)};
}

End camera_end(const need::Project& project, const std::string& name) {
  const site::Site& site = project.site;
  const site::Mount& mount = need::the_named(site.mounts, need::the_named(project.cameras, name).mount);
  return {site::above_ground(site.terrain, mount.at, mount.height), building_around(site, mount.at) != nullptr,
          building_at(site, mount.at)};
}

bool under_cover(WayKind kind) { return kind == WayKind::kTrench || kind == WayKind::kConduit; }

/// Lays runs along the same ways.
class Layer {
 public:
  explicit Layer(const need::Project& project)
      : project_{project}, site_{project.site}, graph_(project.site), powered_{powered_runs(project)} {}

  LaidRun lay(const site::Run& run) const {
    const auto& cables = project_.settings.cables;
    LaidRun laid{&run, &need::the_named(cables, run.cable)};
    const End from = feed_end(site_, need::the_named(site_.feeds, run.from));
    const site::Feed* feed = need::find_named(site_.feeds, run.to);
    const End to = feed != nullptr ? feed_end(site_, *feed) : camera_end(project_, run.to);
    const Route route = find(laid, from.at, to.at);
    trace(laid, route);
    expose(laid, route, from, to);
    measure(laid, route, from, to);
    for (const Leg& leg : route)
      if (leg.way == nullptr && !run.length) tell_walls(laid, leg, from, to);
    laid.powered = powered_.contains(&run);
    laid.reach = reach_of(laid.length, *laid.cable);
    std::optional<std::pair<std::string, std::string>> buildings;
    if (from.building != nullptr && to.building != nullptr && from.building != to.building)
      buildings = {from.building->name, to.building->name};
    laid.between_buildings = buildings.has_value();
    judge_run(laid, cables, buildings);
    return laid;
  }

 private:
  Route find(LaidRun& laid, SitePoint from, SitePoint to) const {
    const std::vector<std::string>& named = laid.run->along;
    if (named.empty()) return graph_.shortest(from, to);
    const auto gap = graph_.gap(named);
    if (!gap) return graph_.along(from, to, named);
    laid.held = Held::kMissed;
    laid.open_question = true;
    laid.flags.push_back(
        fmt::format("the ways \"{}\" and \"{}\" that it is told to take do not meet: draw them so that they come "
                    "within {} m, or name what lies between; laid the shortest way instead",
                    gap->first, gap->second, kJoin));
    return graph_.shortest(from, to);
  }

  static void trace(LaidRun& laid, const Route& route) {
    for (const Leg& leg : route) {
      for (const SitePoint point : leg.line)
        if (laid.line.empty() || laid.line.back() != point) laid.line.push_back(point);
      if (leg.way == nullptr)
        laid.open = laid.open + leg.over;
      else if (leg.length > kTrifle || !laid.run->along.empty())
        laid.along.push_back(leg.way->name);
    }
  }

  void expose(LaidRun& laid, const Route& route, const End& from, const End& to) const {
    for (const Leg& leg : route) {
      if (leg.way == nullptr || leg.length <= kTrifle || leg.way->indoors) continue;
      laid.outdoors = true;
      laid.in_sun = laid.in_sun || !(under_cover(leg.way->kind) || leg.way->shaded);
    }
    if (route.size() == 1) {
      const bool indoors = from.indoors && to.indoors && from.building == to.building;
      laid.outdoors = laid.in_sun = !indoors && route.front().length > kTrifle;
      return;
    }
    expose_end(laid, route.front(), *route[1].way, from, plan(route.front().line.back()));
    expose_end(laid, route.back(), *route[route.size() - 2].way, to, plan(route.back().line.front()));
  }

  void expose_end(LaidRun& laid, const Leg& open, const Way& way, const End& end, geom::PlanPoint foot) const {
    const bool leaves = !way.indoors && building_around(site_, foot) == nullptr;
    if (open.length <= kTrifle || (end.indoors && !leaves)) return;
    laid.outdoors = true;
    laid.in_sun = laid.in_sun || !way.shaded;
  }

  void measure(LaidRun& laid, const Route& route, const End& from, const End& to) const {
    if (laid.run->length) return take_stated(laid, from, to);
    Length whole, aside;  // along no way, beyond what is near
    for (const Leg& leg : route) {
      whole = whole + leg.length;
      aside = aside + std::max(Length{0}, leg.over - Length{kReach});
    }
    const auto& slack = project_.settings.typical.cable_slack.value;
    const auto& loop = project_.settings.typical.service_loop.value;
    const auto with = [&](double Ranged<double>::*end) {
      return slack.*end * (whole + (kDetour.*end - 1) * aside) + Length{loop.*end};
    };
    laid.length = {with(&Ranged<double>::low), with(&Ranged<double>::nominal), with(&Ranged<double>::high)};
    tell_open(laid, aside > Length{0});
  }

  /// A guessed way that leads through a building, in which neither end is, is no way.
  void tell_walls(LaidRun& laid, const Leg& leg, const End& from, const End& to) const {
    const auto is_in = [](const End& end, const std::string& name) {
      return end.indoors && end.building != nullptr && end.building->name == name;
    };
    for (const std::string& name : walls_passed(site_, leg.line)) {
      if (is_in(from, name) || is_in(to, name)) {
        laid.flags.push_back(
            fmt::format("passes a wall of \"{}\" along no way: draw the way that it takes there", name));
      } else {
        laid.held = worse(laid.held, Held::kMarginal);
        laid.open_question = true;
        laid.flags.push_back(fmt::format(
            "leads through \"{}\" along no way: draw the way around it, or one that says that it leads through", name));
      }
    }
  }

  static void take_stated(LaidRun& laid, const End& from, const End& to) {
    laid.length = Ranged<Length>::exact(*laid.run->length);
    const Length apart{norm(to.at - from.at)};
    if (laid.length.high >= apart) return;
    laid.held = worse(laid.held, Held::kMarginal);
    laid.open_question = true;
    laid.flags.push_back(fmt::format("its stated length is {:.1f} m, and its ends are {:.1f} m apart: measure it again",
                                     laid.length.high.si(), apart.si()));
  }

  void tell_open(LaidRun& laid, bool far) const {
    if (site_.ways.empty())
      laid.flags.emplace_back(
          "no ways are drawn: it is a straight line at the low end, twice that at the high; draw ways");
    else if (far)
      laid.flags.push_back(
          fmt::format("{:.1f} m of it lie along no way: draw the way that it takes there, or draw ways "
                      "so that they meet (within {} m)",
                      laid.open.si(), kJoin));
  }

  const need::Project& project_;
  const site::Site& site_;
  WayGraph graph_;
  std::set<const site::Run*> powered_;
};

ConduitFill fill_of(const Way& way, const std::vector<LaidRun>& runs) {
  std::vector<Length> outer;
  for (const LaidRun& run : runs)
    if (std::find(run.along.begin(), run.along.end(), way.name) != run.along.end()) outer.push_back(run.to_lay().outer);
  const int count = static_cast<int>(outer.size());
  if (count == 0) return {way.name, 0, {{}, {}, Held::kMet, "no cable takes it", {}}, bends(way.line)};
  ConduitFill result{way.name, count, {}, bends(way.line)};
  result.fill = bear<double>(fill(outer, *way.bore), most_fill(count),
                             "areas of cables over that of the bore, beside the most of NEC chapter 9 table 1 (from "
                             "memory); bends are not counted");
  if (result.fill.held != Held::kMet)
    result.fill.remedy =
        fmt::format("{:.0f} % of {:.0f} %: a bore of {:.0f} mm would do, or a second conduit",
                    100 * result.fill.load.nominal, 100 * most_fill(count), bore_for(outer).in(units::mm));
  return result;
}

void buy(std::vector<CableNeed>& all, const LaidRun& run) {
  const std::string& cable = run.to_lay().name;
  auto at = std::find_if(all.begin(), all.end(), [&](const CableNeed& one) { return one.cable == cable; });
  if (at == all.end()) at = all.insert(at, {cable, {}, 0, {}});
  at->length = {at->length.low + run.length.low, at->length.nominal + run.length.nominal,
                at->length.high + run.length.high};
  ++at->runs;
}

/// The price of a kind of cable stands with the runs that the document gives it to.
void add_prices(Cabling& answer) {
  for (CableNeed& need : answer.to_buy)
    for (const LaidRun& laid : answer.runs)
      if (laid.cable->name == need.cable && laid.run->metre_price) need.metre_price = laid.run->metre_price;
}

bool in_the_ground(const Way& way) { return way.kind == WayKind::kTrench || way.height < Length{0}; }

std::optional<std::string> said_of(const Way& way) {
  if (way.kind == WayKind::kOverhead)
    return "hangs in the open: it needs a cable or a wire that bears its weight, ice and wind, and clearance above "
           "what passes under it, which local codes set";
  if (!in_the_ground(way)) return std::nullopt;
  return fmt::format(
      "lies {:.2f} m deep{}: find out before digging what lies there already; the least depth, and the distance from "
      "mains, gas and water, are for local codes to say",
      -way.height.si(),
      -way.height < kShallow ? fmt::format(", where a spade reaches (above {} m)", kShallow.si()) : "");
}

void tell_what_stands_over(Cabling& answer, const site::Site& site) {
  for (const Way& way : site.ways) {
    if (way.indoors || !in_the_ground(way)) continue;
    for (const std::string& name : stands_over(site, way.line))
      answer.cautions.push_back(
          {way.name, fmt::format("leads under \"{}\": draw it around, or find out before digging whether what stands "
                                 "there may be dug under",
                                 name)});
  }
}

void tell_bends(Cabling& answer) {
  for (const ConduitFill& one : answer.conduits)
    if (one.cables > 0 && one.bends > kMostBends)
      answer.cautions.push_back(
          {one.way, fmt::format("bends by {:.0f} degrees in all; without a box to pull from in between, {:.0f} are the "
                                "most (NEC, from memory)",
                                one.bends.in(units::deg), kMostBends.in(units::deg))});
}

void tell_tails(Cabling& answer, const need::Project& project) {
  for (const camera::Camera& camera : project.cameras) {
    const site::Mount& mount = need::the_named(project.site.mounts, camera.mount);
    if (mount.back_box || building_around(project.site, mount.at) != nullptr) continue;
    answer.cautions.push_back({camera.name, kTailOutdoors});
  }
}

void add_cautions(Cabling& answer, const need::Project& project) {
  for (const Way& way : project.site.ways)
    if (auto text = said_of(way)) answer.cautions.push_back({way.name, std::move(*text)});
  const auto caution = [&](const std::string& about, const char* text) {
    answer.cautions.push_back({about, text});
    answer.held = worse(answer.held, Held::kUnknown);
  };
  if (answer.runs.empty() && !project.cameras.empty()) return caution("", "no runs are drawn: draw them to know more");
  for (const camera::Camera& camera : project.cameras)
    if (std::none_of(answer.runs.begin(), answer.runs.end(),
                     [&](const LaidRun& laid) { return laid.run->to == camera.name; }))
      caution(camera.name, "no run leads to it: draw one");
  if (!answer.runs.empty())
    answer.cautions.push_back(
        {"",
         "Keep these cables apart from mains cables: no conduit, tray or box together with them, and crossing at "
         "right angles. How far apart, and who may do the work, is for local codes to say."});
}

}  // namespace

std::optional<double> CableNeed::price() const {
  if (!metre_price) return std::nullopt;
  return *metre_price * std::round(10 * length.high.si()) / 10;
}

Cabling lay(const need::Project& project) {
  Cabling answer;
  const Layer layer(project);
  answer.runs.resize(project.site.runs.size());
  tbb::parallel_for(size_t{0}, answer.runs.size(), [&](size_t i) { answer.runs[i] = layer.lay(project.site.runs[i]); });
  judge_channels(project, answer.runs);
  for (const LaidRun& laid : answer.runs) {
    answer.held = worse(answer.held, laid.held);
    buy(answer.to_buy, laid);
  }
  add_prices(answer);
  for (const Way& way : project.site.ways) {
    if (!way.bore) continue;
    answer.conduits.push_back(fill_of(way, answer.runs));
    answer.held = worse(answer.held, answer.conduits.back().fill.held);
  }
  tell_what_stands_over(answer, project.site);
  tell_bends(answer);
  tell_tails(answer, project);
  add_cautions(answer, project);
  return answer;
}

}  // namespace sightfall::loads
