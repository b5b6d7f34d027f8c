// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/on_the_spot.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "need/lighting.h"
#include "need/words.h"
#include "papers/bars.h"
#include "papers/hazard.h"
#include "papers/tape.h"
#include "papers/told.h"

namespace sightfall::papers {
namespace {

using namespace units;
using draw::Heading;
using draw::Paragraph;
using draw::Table;

constexpr double kTestHeight = 60;  // points, so that there is room to write

/// What finding marks and telling their light needs.
struct OnSite {
  explicit OnSite(const need::Project& project)
      : scene{project.site, site::Leaves::kOn}, points{tape_points(project)} {}

  site::Scene scene;  ///< in leaf, for a tape
  std::vector<TapePoint> points;
};

std::string mark_words(const Job& job, const OnSite& on_site, geom::PlanPoint at) {
  return tape_words(on_site.points, on_site.scene, at, job.project());
}

bool on_wheels(const need::Need& need) {
  return need.subject == need::Subject::kPlate || need.subject == need::Subject::kVehicle;
}

/// As the check takes it: the need's own, the route's, or what is usual.
Speed speed_of(const need::Project& project, const need::Need& need) {
  if (need.speed) return *need.speed;
  if (const auto& route = need::the_named(project.site.places, need.place).speed) return *route;
  if (need.subject == need::Subject::kObject) return Speed{0};
  const detail::Typical& typical = project.settings.typical;
  return Speed{(on_wheels(need) ? typical.speed_vehicle : typical.speed_walker).value.nominal};
}

/// A wheel's speed as a speedometer tells it.
std::string pace_words(Speed speed, bool driven, need::Units units) {
  constexpr Speed kMileAnHour{0.44704}, kKilometreAnHour{1 / 3.6};
  const bool feet = units == need::Units::kFeet;
  std::string pace =
      feet ? fmt::format("{:.1f} ft/s", speed.si() / (1 * ft).si()) : fmt::format("{:g} m/s", speed.si());
  if (!driven) return pace;
  return pace + (feet ? fmt::format(" ({:.0f} mph)", speed / kMileAnHour)
                      : fmt::format(" ({:.0f} km/h)", speed / kKilometreAnHour));
}

/// How a face or a plate is turned; nothing of what has no front.
std::string facing_words(const need::Need& need) {
  if (need.subject != need::Subject::kFace && need.subject != need::Subject::kPlate) return {};
  const std::string what = need.subject == need::Subject::kPlate ? "the plate " : "";
  switch (need.facing) {
    case need::Facing::kTravel:
      return what + "facing along the way";
    case need::Facing::kHeading:
      return what + "facing " + angle(need.facing_heading);
    case need::Facing::kCamera:
      break;
  }
  return what + "facing the camera";
}

std::string after_comma(const std::string& words) { return words.empty() ? words : ", " + words; }

/// Who goes there, and how.
std::string going_words(const need::Project& project, const need::Need& need) {
  const site::Place& place = need::the_named(project.site.places, need.place);
  const Speed speed = speed_of(project, need);
  const bool driven = on_wheels(need), object = need.subject == need::Subject::kObject;
  if (speed == Speed{0}) {
    const std::string stands = object ? "Set it up there" : driven ? "A vehicle stands there" : "Somebody stands there";
    return stands + after_comma(facing_words(need));
  }
  const std::string goes = object ? "It is carried" : driven ? "Drive" : "Walk";
  std::string way;
  if (place.kind == site::PlaceKind::kRoute)
    way = fmt::format("\"{}\" from its beginning to its end, over the mark", place.name);
  else if (need.facing == need::Facing::kHeading)
    way = "over the mark, heading " + angle(need.facing_heading);
  else if (need.subject == need::Subject::kFace)
    way = "over the mark, towards the camera";
  else
    way = "over the mark, across the camera's view";
  // Units stand near the beginning of a line, for lines break at their strokes.
  const bool heads_so = place.kind != site::PlaceKind::kRoute && need.facing == need::Facing::kHeading;
  return fmt::format("{} {}\nat {}{}", goes, way, pace_words(speed, driven, project.settings.units),
                     heads_so ? "" : after_comma(facing_words(need)));
}

std::string where_words(const Job& job, const OnSite& on_site, const need::Verdict& verdict) {
  const need::Project& project = job.project();
  const need::WorstPlace& worst = *verdict.worst;
  const geom::PlanPoint at = geom::plan(worst.at_site);
  std::string words = going_words(project, need::the_named(project.needs, verdict.need)) +
                      ".\nMark: " + mark_words(job, on_site, at) + ".";
  for (const CameraPart& part : job.cameras)
    if (part.camera->name == worst.camera)
      words += fmt::format("\n{} on the ground from under \"{}\".",
                           taped_words(Length{geom::norm(at - part.mount->at)}, project.settings.units), worst.camera);
  if (may_burst(project.site, at)) words += std::string("\nHere: ") + kHazardHere + ".";
  return words;
}

/// Where the need may be met although its worst place fails: how to find out on the ground.
std::string spread_words(const need::Need& need, const need::Verdict& verdict) {
  const bool falls_short = verdict.worst->delivered.nominal < verdict.required;
  if (!falls_short || need.once_a_passage || verdict.answer == need::Answer::kMissed) return {};
  constexpr int kSpots = 10;
  return fmt::format(
      "; this place alone may fail: {:.0f} % of \"{}\" is asked. Then try {} spots spread evenly over it, of which {} "
      "must pass",
      100 * need.share, need.place, kSpots, std::ceil(kSpots * need.share));
}

std::string pass_words(const Job& job, const need::Verdict& verdict) {
  const need::Project& project = job.project();
  const need::Units units = project.settings.units;
  const need::Need& need = need::the_named(project.needs, verdict.need);
  std::string words =
      fmt::format("{}\nPasses at \"{}\",\n{}: {}", verdict.need, need.level,
                  need::density_words(verdict.required, units), look_for_words(verdict.required, need.subject));
  if (need.once_a_passage) words += fmt::format("; in at least {} frames of the passage", *need.once_a_passage);
  if (need.detector_height) words += fmt::format("; the subject at least {:.0f} px high", need.detector_height->si());
  if (need.colour) words += "; in colour";
  words += fmt::format(".\nPredicted {}:\n{}", verdict_word(verdict.answer), need::worst_words(*verdict.worst, units));
  if (verdict.worst->frames && !verdict.worst->camera.empty()) words += ", at the best moment of the worst passage";
  if (verdict.answer == need::Answer::kMissed) words += "; it is not expected to pass";
  return words + spread_words(need, verdict) + ".";
}

std::string infrared_words(const std::vector<need::LightShare>& light) {
  std::string words = "\nIts own infrared is off.";
  for (const need::LightShare& one : light)
    if (one.from == need::LightFrom::kOwnInfrared) words = "\nIts own infrared is on.";
  for (const need::LightShare& one : light)
    if (one.from == need::LightFrom::kOthersInfrared) words += "\nInfrared of \"" + one.name + "\" is on.";
  return words;
}

std::string lamp_words(const need::Project& project, const site::Scene& scene, const site::Condition& condition) {
  std::string names;
  const need::Lighting lighting{project, scene, condition};
  for (const need::BurningLamp& lamp : lighting.lamps())
    if (lamp.lamp != nullptr) names += (names.empty() ? "" : ", ") + lamp.lamp->name;
  return names.empty() ? "\nNo lamp of the site is on." : "\nLamps that are on, and no other: " + names + ".";
}

std::string light_words(const need::Project& project, const OnSite& on_site, const need::WorstPlace& worst) {
  const site::Condition& condition = need::the_named(project.conditions, worst.condition);
  const std::string light = condition.ample() ? "by day, bright everywhere" : need::light_in_words(condition);
  std::string words = fmt::format("{}{}.\nLeaves {}.", light.starts_with(condition.name) ? "" : condition.name + ": ",
                                  light, condition.leaves == site::Leaves::kOn ? "on" : "off");
  if (condition.ample()) return words;
  words += lamp_words(project, on_site.scene, condition);
  return worst.camera.empty() ? words : words + infrared_words(worst.light);
}

std::string measure_words(const Job& job, const need::Verdict& verdict) {
  const need::Project& project = job.project();
  if (verdict.worst->camera.empty()) return "Is there a camera now that sees it?\n[  ] yes   [  ] no";
  return fmt::format(
      "camera \"{}\"\na) ruler: {}\n    seen ______________\nb) bars of {}:\n    upright [  ] "
      "  level [  ]\nc) subject:\n    as it passes [  ]   not [  ]",
      verdict.worst->camera, need::density_words(verdict.worst->density, project.settings.units),
      bar_words(verdict.required, project));
}

void add_routes(const Job& job, const OnSite& on_site, std::vector<draw::Block>& blocks) {
  const need::Project& project = job.project();
  Table table{{{"route", 3}, {"begins", 6}, {"ends", 6}}, {}};
  for (const site::Place& place : project.site.places) {
    const bool asked = std::any_of(
        job.here.check.verdicts.begin(), job.here.check.verdicts.end(),
        [&](const auto& one) { return one.worst && need::the_named(project.needs, one.need).place == place.name; });
    if (asked && place.kind == site::PlaceKind::kRoute)
      table.rows.push_back(
          {place.name, mark_words(job, on_site, place.line.front()), mark_words(job, on_site, place.line.back())});
  }
  if (table.rows.empty()) return;
  blocks.emplace_back(Heading{3, "Routes that are walked or driven"});
  blocks.emplace_back(table);
}

/// Lamps that a need counts on in a condition.
std::string lamps_of(const std::vector<need::LightShare>& light) {
  constexpr double kCountsOn = 0.1;  // of the subject's signal
  std::string names;
  for (const need::LightShare& one : light)
    if (one.from == need::LightFrom::kLamp && one.share >= kCountsOn) names += (names.empty() ? "" : ", ") + one.name;
  return names;
}

/// Conditions beside the worst one in which a need hangs on lamps: whether they burn as was entered shows there alone.
void add_lamp_tests(const Job& job, const OnSite& on_site, std::vector<draw::Block>& blocks) {
  Table table{{{"", 1, true}, {"need", 5}, {"in which light", 5}, {"mark", 7}, {"passes", 3}}, {}};
  int number = 0;
  for (const need::Verdict& verdict : job.here.check.verdicts) {
    if (!verdict.worst) continue;
    ++number;
    for (const need::ConditionShare& one : verdict.conditions) {
      const std::string lamps = lamps_of(one.light);
      if (one.condition == verdict.worst->condition || lamps.empty() || !one.worst_at) continue;
      table.rows.push_back({std::to_string(number), verdict.need,
                            fmt::format("{}; it hangs on {}", one.condition, lamps),
                            mark_words(job, on_site, geom::plan(*one.worst_at)), "[  ] yes   [  ] no"});
    }
  }
  if (table.rows.empty()) return;
  blocks.emplace_back(Heading{3, "Promised by lamps in other light, too"});
  blocks.emplace_back(Paragraph{"Gone through as above, once the lamps are on as was entered."});
  blocks.emplace_back(std::move(table));
}

}  // namespace

void add_walk_test(const Job& job, std::vector<draw::Block>& blocks) {
  blocks.emplace_back(Heading{1, "Walk test"});
  blocks.emplace_back(Paragraph{
      "At each need's worst place, in its light and at its pace, and looked at in the recording, not in the "
      "live picture. a) A board of known width, facing as the subject does: its width in pixels over its width "
      "in metres (or feet). It checks lens and aim alone: a ruler passes where the picture is blurred, smeared "
      "or too dark. b) The bars after these tests are as wide as the level asks: what is promised is "
      "the detail that is left after lens, focus, movement, noise, air and compression. c) The subject itself."});
  blocks.emplace_back(Paragraph{
      "Nobody climbs with a telephone in the hand, and nobody stands in a drive without somebody who watches for cars. "
      "Who drives keeps to what is safe there, whatever the pace that is asked.",
      draw::Tone::kCaution});
  const OnSite on_site{job.project()};
  add_routes(job, on_site, blocks);
  // Points of 493 in all: what is written by hand has 41 mm.
  Table table{{{"", 19, true}, {"need, and what passes", 112}, {"how and where", 148}, {"light", 98}, {"seen", 116}},
              {},
              kTestHeight};
  int number = 0;
  for (const need::Verdict& verdict : job.here.check.verdicts)
    if (verdict.worst)
      table.rows.push_back({std::to_string(++number), pass_words(job, verdict), where_words(job, on_site, verdict),
                            light_words(job.project(), on_site, *verdict.worst), measure_words(job, verdict)});
  if (!table.rows.empty()) blocks.emplace_back(table);
  add_lamp_tests(job, on_site, blocks);
}

void add_test_bars(const Job& job, std::vector<draw::Block>& blocks) {
  std::vector<AskedLevel> levels;
  for (const need::Verdict& verdict : job.here.check.verdicts) {
    const std::string& level = need::the_named(job.project().needs, verdict.need).level;
    const bool there =
        std::any_of(levels.begin(), levels.end(), [&](const AskedLevel& one) { return one.name == level; });
    if (verdict.worst && !there) levels.push_back({level, verdict.required});
  }
  add_bar_chart(job.project(), std::move(levels), job.asked.paper, blocks);
}

}  // namespace sightfall::papers
