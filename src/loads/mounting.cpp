// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/mounting.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "loads/buildings.h"
#include "loads/fixing.h"
#include "loads/ingress.h"
#include "loads/ranges.h"
#include "loads/reach.h"
#include "need/station.h"
#include "need/sway.h"
#include "site/pole.h"
#include "site/wind.h"

namespace sightfall::loads {
namespace {

using namespace units;

/// Fixings of a mount of which nothing is said, and the most that one would crowd on a bracket: our own.
constexpr int kUsualFixings = 4, kMostFixings = 8;
constexpr const char* kHangsOverhead =
    "hangs overhead, and what falls hits people: hold it by a steel cord to a fixing of its own as well (common "
    "practice, no published source)";
/// A sway that moves the picture by less is not told.
constexpr Pixels kUnseenSway{1};

/// Wood of an unknown kind holds within a range: met in the softest that is likely, missed in the hardest.
Held judge_within(const Ranged<Force>& load, const Ranged<Force>& capacity) {
  if (judge(load, capacity.low) == Held::kMet) return Held::kMet;
  return judge(load, capacity.high) == Held::kMissed ? Held::kMissed : Held::kMarginal;
}

/// Less than half of an odd number is up: two below and one above.
int upper_of(int count) { return std::max(1, count / 2); }

std::string rule_of(const site::Fixing& fixing) {
  if (fixing.allowable) return "; what its maker states for this base";
  std::string words = fixing.kind == site::FixingKind::kLagScrew
                          ? "; withdrawal of a lag screw, 1800 G^1.5 D^0.75 (National Design Specification)"
                          : "; withdrawal of a wood screw, 2850 G^2 D (Wood Handbook)";
  words += ", across the grain";
  return fixing.gravity ? words : words + ", in the softest wood that is likely";
}

class Mounter {
 public:
  explicit Mounter(const need::Project& project) : project_{project}, typical_{project.settings.typical} {
    const auto& site_wind = project.site.wind;
    wind_ = site_wind ? Ranged<double>::exact(site_wind->basic.si()) : typical_.wind_speed.value;
    category_ = site_wind ? site_wind->category : site::TerrainCategory::kII;
  }

  Ranged<Speed> wind() const {
    return each(wind_, [](double v) { return Speed{v}; });
  }

  HeldMount hold(const site::Mount& mount) const {
    HeldMount held;
    held.mount = mount.name;
    held.height = mount.height;
    const need::Hanging hanging = need::hanging_on(project_, mount);
    held.cameras = hanging.cameras, held.mass = hanging.mass;
    const bool inside = need::out_of_wind(project_.site, mount);
    if (!inside) held.wind = wind_on(hanging, mount.height);
    held.held_by = mount.pole ? site::HeldBy::kWall : mount.held_by;
    judge_fixing(mount, held);
    if (inside) held.pull.rule += "; inside a building, without wind";
    held.held = held.pull.held;
    if (mount.pole && !inside) {
      bend(mount, held);
      held.held = worse(held.held, held.pole->stress.held);
    }
    held.access = access_words(mount.height, held.mass.high, mount.pole.has_value());
    return held;
  }

 private:
  Ranged<double> gust_at(Length height) const {
    return each(wind_, [&](double v) { return site::gust_pressure(Speed{v}, category_, height).si(); });
  }

  /// In the strongest gust.
  Ranged<Force> wind_on(const need::Hanging& hanging, Length height) const {
    return each(product({gust_at(height), typical_.body_drag.value, hanging.area}), [](double n) { return Force{n}; });
  }

  Ranged<double> arm_of(const site::Mount& mount) const {
    return mount.fixing && mount.fixing->arm ? Ranged<double>::exact(mount.fixing->arm->si())
                                             : typical_.fixing_arm.value;
  }

  /// The wider the fixings are apart the less they are pulled, so the range is turned about.
  Ranged<double> spread_of(const site::Mount& mount) const {
    if (mount.fixing && mount.fixing->spread) return Ranged<double>::exact(mount.fixing->spread->si());
    const Ranged<double>& usual = typical_.fixing_spread.value;
    return {usual.high, usual.nominal, usual.low};
  }

  /// What `turns` does at the arm's end to one of the farther half of the fixings, and its share of what pulls
  /// straight.
  Ranged<Force> pull_on_one(const site::Mount& mount, int count, const Ranged<double>& turns,
                            const Ranged<double>& straight) const {
    Ranged<double> couple{};
    if (turns.nominal > 0)
      couple = product({turns, arm_of(mount), each(spread_of(mount), [](double s) { return 1 / s; })});
    const auto on_one = [&](double turning, double pulling) {
      return kMargin * Force{turning / upper_of(count) + pulling / count};
    };
    return {on_one(couple.low, straight.low), on_one(couple.nominal, straight.nominal),
            on_one(couple.high, straight.high)};
  }

  /// Pull, moment and the force across of what holds it; where that is not known the larger of each.
  void load_fixing(const site::Mount& mount, int count, HeldMount& held) const {
    const Ranged<double> weight = each(held.mass, [](Mass one) { return (one * standard_gravity).si(); });
    const Ranged<double> push = each(held.wind, [](Force one) { return one.si(); });
    const Ranged<double> both = added(weight, push);
    const bool overhead = held.held_by == site::HeldBy::kCeiling;
    const Ranged<double>& turns = overhead ? push : both;
    if (turns.nominal > 0) held.moment = each(product({turns, arm_of(mount)}), [](double nm) { return Moment{nm}; });
    held.across = each(turns, [&](double n) { return kMargin / count * Force{n}; });
    if (!overhead) held.pull.load = pull_on_one(mount, count, both, push);
    if (held.held_by != site::HeldBy::kWall) {
      const Ranged<Force> hung = pull_on_one(mount, count, push, both);
      held.pull.load = {std::max(held.pull.load.low, hung.low), std::max(held.pull.load.nominal, hung.nominal),
                        std::max(held.pull.load.high, hung.high)};
    }
    held.pull.rule = overhead ? fmt::format("pull on one of {} fixings overhead, times a margin of {}", count, kMargin)
                              : fmt::format("pull on one of {} upper fixings of {}, times a margin of {}",
                                            upper_of(count), count, kMargin);
    if (!held.held_by)
      held.pull.rule += "; whether a wall or a ceiling holds it is not said, and the larger pull is taken";
  }

  void judge_fixing(const site::Mount& mount, HeldMount& held) const {
    load_fixing(mount, mount.fixing ? mount.fixing->count : kUsualFixings, held);
    const bool overhead = held.held_by == site::HeldBy::kCeiling;
    const auto capacity =
        mount.fixing ? allowable(*mount.fixing, typical_.wood_gravity.value) : std::optional<Ranged<Force>>{};
    if (!capacity) {
      held.pull.remedy = fmt::format("find out what holds it: each {} must carry {:.0f} N, the bracket {:.1f} Nm",
                                     overhead ? "fixing overhead" : "upper fixing", held.pull.load.high.in(N),
                                     held.moment.high.in(N * m));
      return;
    }
    held.pull.capacity = capacity->low;
    held.pull.held = judge_within(held.pull.load, *capacity);
    held.pull.rule += rule_of(*mount.fixing);
    if (held.pull.held != Held::kMet)
      held.pull.remedy = remedy_of(*mount.fixing, held.pull.load.high, capacity->low, overhead);
  }

  std::string remedy_of(const site::Fixing& fixing, Force pull, Force capacity, bool overhead) const {
    constexpr Length kDeepest{0.08};
    const auto depth = depth_for(fixing, typical_.wood_gravity.value.low, pull);
    if (depth && *depth > kDeepest)
      return overhead ? "reinforce: a plate bolted through, a joist, or a concrete ceiling; screws of this thickness "
                        "do not reach"
                      : "reinforce: a plate bolted through, a stud, or a masonry wall; screws of this thickness do not "
                        "reach";
    const int count = fixings_for(std::max(fixing.count, 2) * (pull / capacity));
    const std::string more = count <= kMostFixings ? fmt::format("{} like these; or ", count) : "";
    if (!depth)
      return fmt::format("fixings that may carry {:.0f} N each in this base; or {}another {}", pull.in(N), more,
                         overhead ? "ceiling" : "wall");
    return fmt::format("{:.0f} mm of thread in sound wood, which asks for a {}, a batten or a plate behind; or {}a {}",
                       std::ceil(depth->in(mm)), overhead ? "joist" : "stud", more,
                       overhead ? "concrete ceiling" : "masonry wall");
  }

  /// The next even number, since half of them are up.
  static int fixings_for(double count) { return 2 * static_cast<int>(std::ceil(count / 2)); }

  /// All that hangs on the pole, by whichever bracket, pushes on it.
  void bend(const site::Mount& mount, HeldMount& held) const {
    const site::Pole& pole = *mount.pole;
    const Ranged<double> pressure = gust_at(pole.height);
    const auto load_at = [&](double pascal) { return LineLoad{need::kPoleDrag * pascal * pole.outer.si()}; };
    PoleBend bend{bent_by_wind(pole, load_at(pressure.nominal), mount.height).shift, {}, {}, {}, {}};
    Ranged<double> moment =
        each(pressure, [&](double pascal) { return load_at(pascal).si() * pole.height.si() * pole.height.si() / 2; });
    for (const site::Mount* one : need::on_same_pole(project_.site, mount)) {
      const Ranged<Force> push = wind_on(need::hanging_on(project_, *one), one->height);
      bend.shift = bend.shift + bent_by_force(pole, push.nominal, one->height, mount.height).shift;
      moment = added(moment, each(push, [&](Force force) { return (force * one->height).si(); }));
    }
    bend.stress =
        bear(each(moment, [&](double nm) { return stress_at_foot(pole, Moment{nm}); }),
             std::optional(stuff_of(pole.material).allowable),
             "bending at the foot in the strongest gust, beside two thirds of the yield of common stuff (from "
             "memory); the foundation is not reckoned with");
    if (bend.stress.held != Held::kMet) bend.stress.remedy = "a thicker pole, a lower mount, or stays";
    const need::PoleSway sway = need::pole_sway(project_, mount, mount.height);
    bend.sway = sway.amplitude, bend.own = sway.frequency;
    for (const std::string& name : held.cameras) {
      const need::Station station = need::station_of(project_, need::the_named(project_.cameras, name));
      bend.in_picture = std::max(bend.in_picture, site::moved_in_picture(station.lens.projector.focal_px, bend.sway));
    }
    held.pole = std::move(bend);
  }

  const need::Project& project_;
  const detail::Typical& typical_;
  Ranged<double> wind_;
  site::TerrainCategory category_ = site::TerrainCategory::kII;
};

std::optional<Caution> sway_caution(const need::Project& project, const site::Mount& mount, const HeldMount& held) {
  if (!held.pole || held.pole->in_picture < kUnseenSway) return std::nullopt;
  const need::Sway counted = need::sway_of(project, mount);
  const bool own = counted.assumed == need::SwayAssumed::kBendOfPole;
  if (!own && counted.amplitude >= held.pole->sway) return std::nullopt;
  const std::string verdicts =
      own ? "the verdicts count with it"
          : fmt::format("the verdicts count with {:g} deg, and should with what the pole gives", mount.sway.in(deg));
  return Caution{
      mount.name,
      fmt::format("in a fresh breeze ({:g} m/s, steady; gusts bend it more) its pole bends by {:.3f} deg, {:.1f} px in "
                  "the picture, and sways some {:.1f} times a second; {}",
                  need::kBreeze.in(m / s), held.pole->sway.in(deg), held.pole->in_picture.in(px), held.pole->own.in(Hz),
                  verdicts)};
}

/// Outdoors is what stands in no building's outline.
void look_at_rain(const need::Project& project, Mounting& answer) {
  for (const camera::Camera& camera : project.cameras) {
    if (building_around(project.site, need::the_named(project.site.mounts, camera.mount).at) != nullptr) continue;
    const auto& ingress = need::the_named(project.catalogue, camera.sheet).ingress;
    const auto water = ingress ? against_water(*ingress) : std::nullopt;
    if (!water)
      answer.cautions.push_back({camera.name,
                                 "hangs outdoors, and its sheet states no grade against water: find out whether it may "
                                 "hang in the rain (IP44 at the least, IEC 60529)"});
    else if (*water < kSplash)
      answer.exposed.push_back(
          {camera.name, *ingress,
           "another camera, or a housing: outdoors water splashes from all sides, which is IP44 at "
           "the least (IEC 60529), and most are IP65 or better"});
  }
  if (!answer.exposed.empty()) answer.held = Held::kMissed;
}

}  // namespace

Mounting mounting(const need::Project& project) {
  const Mounter mounter(project);
  Mounting answer;
  answer.wind = mounter.wind();
  for (const site::Mount& mount : project.site.mounts) {
    const auto& cameras = project.cameras;
    if (std::none_of(cameras.begin(), cameras.end(), [&](const auto& one) { return one.mount == mount.name; }))
      continue;
    HeldMount held = mounter.hold(mount);
    if (auto caution = sway_caution(project, mount, held)) answer.cautions.push_back(std::move(*caution));
    if (held.held_by == site::HeldBy::kCeiling) answer.cautions.push_back({mount.name, kHangsOverhead});
    answer.held = worse(answer.held, held.held);
    answer.mounts.push_back(std::move(held));
  }
  look_at_rain(project, answer);
  answer.cautions.push_back(
      {"", "these figures advise and certify nothing: local codes and licensed trades decide what holds"});
  return answer;
}

}  // namespace sightfall::loads
