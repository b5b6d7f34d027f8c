// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/answers.h"

#include <fmt/format.h>

#include <cmath>

#include "camera/stream_in_force.h"
#include "file/answer_values.h"
#include "file/describe.h"
#include "file/writer.h"
#include "need/station.h"
#include "need/words.h"

namespace sightfall::file {
namespace {

using namespace units;

constexpr int kAnswerVersion = 1;

Value light_of(const need::LightShare& light) {
  return Object{
      {"from", Value{need::in_words(light.from)}}, {"name", text_or_null(light.name)}, {"share", share(light.share)}};
}

Value frames_of(const std::optional<need::PassageFrames>& frames) {
  if (!frames) return {};
  const auto told = [](double mean) { return Value{need::frames_told(mean)}; };
  return Object{{"asked", frames->asked}, {"predicted", range(frames->predicted, told)}};
}

Value worst_of(const std::optional<need::WorstPlace>& worst) {
  if (!worst) return {};
  return Object{{"at", point(worst->at_site)},
                {"condition", worst->condition},
                {"camera", text_or_null(worst->camera)},
                {"density_px_per_m", density(worst->density)},
                {"delivered_px_per_m", density_range(worst->delivered)},
                {"limit", Value{detail::in_words(worst->limit)}},
                {"frames", frames_of(worst->frames)}};
}

/// What the document is changed in for a remedy, as the workbench's edits are written (docs/wire.md).
Value changes_of(const need::Project& project, const need::Remedy& remedy) {
  List changes;
  const camera::Camera& camera = need::the_named(project.cameras, remedy.camera);
  const auto change = [&](List at, Value was, Value now) {
    if (was == now) return;
    changes.emplace_back(Object{{"at", std::move(at)}, {"was", std::move(was)}, {"now", std::move(now)}});
  };
  change({"cameras", camera.name}, Writer::written(camera), Writer::written(remedy.changed));
  const site::Mount& mount = need::the_named(project.site.mounts, camera.mount);
  site::Mount raised = mount;
  raised.height = raised.height + remedy.raised;
  change({"site", "mounts", mount.name}, Writer::written(mount), Writer::written(raised));
  return changes;
}

Value remedy_of(const need::Project& project, const std::optional<need::Remedy>& remedy) {
  if (!remedy) return {};
  return Object{{"mends", remedy->mends},
                {"camera", remedy->camera},
                {"text", remedy->text},
                {"share_after", share(remedy->share_after)},
                {"verdict_after", Value{need::in_words(remedy->answer_after)}},
                {"spoils", text_list(remedy->spoils)},
                {"changes", changes_of(project, *remedy)}};
}

Value verdict_of(const need::Project& project, const need::Verdict& verdict) {
  return Object{{"name", verdict.need},
                {"verdict", Value{need::in_words(verdict.answer)}},
                {"share", share(verdict.share.nominal)},
                {"share_range", range(verdict.share, share)},
                {"sampling_error", share(verdict.sampling_error)},
                {"required_share", share(verdict.required_share)},
                {"required_px_per_m", density(verdict.required)},
                {"limit", limit_or_null(verdict.limit)},
                {"worst", worst_of(verdict.worst)},
                {"remedy", remedy_of(project, verdict.remedy)},
                {"settle", text_or_null(verdict.settle)},
                {"samples", verdict.samples},
                {"conditions", list(verdict.conditions, [](const need::ConditionShare& one) {
                   return Value{Object{{"name", one.condition},
                                       {"share", share(one.share)},
                                       {"camera", text_or_null(one.camera)},
                                       {"light", list(one.light, light_of)}}};
                 })}};
}

Value way_of(const need::LeastSeenWay& way) {
  return Object{{"place", way.place},
                {"condition", way.condition},
                {"length_m", metres(way.length)},
                {"seen_m", metres(way.seen)},
                {"most_px_per_m", density(way.most)},
                {"way", list(way.way, [](geom::PlanPoint p) { return point(p, 100); })}};
}

Value focus_of(const card::FocusReach& reach) {
  return Object{{"near_m", metres(reach.near)}, {"far_m", metres(reach.far)}};
}

Value seeing_of(const card::CardRequest& request, const card::Seeing& seeing) {
  Object levels;
  for (size_t i = 0; i < request.tables.size(); ++i)
    levels.push_back({request.tables[i].name, text_or_null(seeing.levels[i])});
  const bool seen = seeing.shutter > Time{0};
  return Object{{"delivered_px_per_m", density(seeing.delivered.nominal)},
                {"range_px_per_m", density_range(seeing.delivered)},
                {"level", text_or_null(seeing.levels.front())},
                {"levels", levels},
                {"limit", limit_or_null(seeing.limit)},
                {"noise_ratio", seen ? rounded(seeing.noise_ratio, 100) : Value{}},
                {"shutter_s", seen ? rounded(seeing.shutter.si(), 1e7) : Value{}},
                {"gain_db", seen ? rounded(seeing.gain, 10) : Value{}},
                {"infrared_power", seen ? rounded(seeing.power, 1000) : Value{}}};
}

Value mark_of(const card::CardRequest& request, const card::Mark& mark) {
  return Object{{"distance_m", metres(mark.distance)}, {"width_m", metres(mark.width)},
                {"height_m", metres(mark.height)},     {"density_px_per_m", density(mark.density)},
                {"day", seeing_of(request, mark.day)}, {"night", seeing_of(request, mark.night)}};
}

Object reach_in(const std::vector<card::LevelReach>& reaches) {
  Object levels;
  for (const card::LevelReach& reach : reaches)
    levels.push_back(
        {reach.level, reach.nearest ? Value{List{metres(reach.nearest), metres(reach.farthest)}} : Value{}});
  return levels;
}

/// Of every level: the stretches between nearest and farthest where it is lost.
Object gaps_in(const std::vector<card::LevelReach>& reaches) {
  Object levels;
  for (const card::LevelReach& reach : reaches)
    levels.push_back({reach.level, list(reach.gaps, [](const card::Gap& gap) {
                        return Value{List{metres(gap.from), metres(gap.to)}};
                      })});
  return levels;
}

Value clipping_of(const card::RangeCard& card) {
  return Object{{"fixed_m", metres(card.clipping.fixed)},
                {"adaptive_m", metres(card.clipping.adaptive)},
                {"tilt_deg", rounded(card.tilt.in(deg), 100)},
                {"ground_reflectance", rounded(card.clipping.ground_reflectance, 100)},
                {"sky", "black"},
                {"largest_gain_db", rounded(card.clipping.largest_gain, 10)}};
}

Value shutter_of(const card::ShutterNeed& need) {
  return Object{
      {"mover", need.mover},
      {"speed_m_s", rounded(need.speed.si(), 100)},
      {"distance_m", metres(need.distance)},
      {"shutter_s", rounded(need.shutter.si(), 1e7)},
      {"noise_ratio", rounded(need.noise_ratio, 100)},
      {"noise_ratio_automatic", rounded(need.noise_ratio_automatic, 100)},
      {"lean_deg", List{rounded(need.lean.low.in(units::deg), 1000), rounded(need.lean.nominal.in(units::deg), 1000),
                        rounded(need.lean.high.in(units::deg), 1000)}}};
}

Value claim_of(const card::Claim& claim) {
  return Object{{"claim", claim.claim},
                {"stated", claim.stated},
                {"computed", text_or_null(claim.computed)},
                {"assumption", text_or_null(claim.assumption)},
                {"holds", Value{card::in_words(claim.holds)}}};
}

/// Four digits that count: entries of the table are of every size.
Value four_digits(double number) {
  if (number == 0) return number;
  const double after_point = 3 - std::floor(std::log10(std::abs(number)));
  return rounded(number, std::pow(10, std::max(0.0, after_point)));
}

Value narrowed_of(const card::Narrowed& one) {
  return Object{{"name", one.name},
                {"unit", one.unit},
                {"before", range(one.before, four_digits)},
                {"after", one.told ? range(one.after, four_digits) : Value{}},
                {"together_with", list(one.told ? one.held : std::vector<card::Held>{}, [](const card::Held& held) {
                   return Value{Object{{"name", held.name}, {"unit", held.unit}, {"value", four_digits(held.value)}}};
                 })}};
}

Value calibration_of(const std::optional<card::Calibration>& calibration) {
  if (!calibration) return {};
  return Object{{"observations", static_cast<int>(calibration->observations)},
                {"inputs", list(calibration->parameters, narrowed_of)}};
}

Value aim_point_of(const need::AimPoint& mark) {
  return Object{{"name", mark.name},
                {"at", point(mark.at)},
                {"distance_m", metres(mark.distance)},
                {"heading_deg", rounded(mark.heading.in(deg), 100)},
                {"right_share", share(mark.right)},
                {"down_share", share(mark.down)},
                {"set_down", mark.set_down}};
}

Value aim_of(const need::Aim& aim) {
  return Object{
      {"camera", aim.camera},
      {"mount", aim.mount},
      {"at", point(geom::plan(aim.eye))},
      {"height_m", metres(aim.height)},
      {"heading_deg", rounded(aim.heading.in(deg), 100)},
      {"tilt_deg", rounded(aim.tilt.in(deg), 100)},
      {"roll_deg", rounded(aim.roll.in(deg), 100)},
      {"focal_mm", rounded(aim.focal.in(mm), 1000)},
      {"view_deg", rounded(aim.view.in(deg), 100)},
      {"corner",
       aim.corner ? Value{Object{{"name", aim.corner->name}, {"distance_m", metres(aim.corner->distance)}}} : Value{}},
      {"points", list(aim.points, aim_point_of)}};
}

Value ask_of(const loads::Ask& ask) {
  return Object{{"part", ask.part},
                {"about", ask.about},
                {"text", ask.words},
                {"held", Value{loads::in_words(ask.held)}},
                {"remedy", text_or_null(ask.remedy)}};
}

}  // namespace

Value answer_of(const need::Project& project, const need::CheckResult& result, const Asks& asks) {
  return Object{{"sightfall_check", kAnswerVersion},
                {"project", project.name},
                {"level_table", project.settings.levels.name},
                {"light", fmt::format("as each condition says, {}", need::compression_in_words(project))},
                {"stopped", result.stopped},
                {"needs", list(result.verdicts, [&](const need::Verdict& one) { return verdict_of(project, one); })},
                {"cautions", cautions_value(result.cautions)},
                {"assumptions", assumptions_value(result.assumptions)},
                {"places_without_need", text_list(result.without_need)},
                {"watches", list(result.watches,
                                 [](const need::Watch& one) {
                                   return Value{Object{{"camera", one.camera}, {"sees", one.sees}}};
                                 })},
                {"least_seen_ways", list(result.least_seen, way_of)},
                {"aims", list(result.aims, aim_of)},
                {"loads", asks ? list(*asks, ask_of) : Value{}}};
}

std::string answer_text(const need::Project& project, const need::CheckResult& result, const Asks& asks) {
  return print_json(answer_of(project, result, asks));
}

Value answer_of(const card::CardRequest& request, const card::RangeCard& card,
                const std::optional<card::Calibration>& calibration) {
  return Object{
      {"sightfall_card", kAnswerVersion},
      {"camera", card.camera},
      {"light", fmt::format("day: ample light; night: black sky and the camera's own infrared; {}",
                            camera::compression_in_words(request.sheet))},
      {"level_table", request.tables.front().name},
      {"focal_mm", rounded(card.focal.in(mm), 1000)},
      {"f_number", rounded(card.f_number, 100)},
      {"view_deg", List{rounded(card.horizontal_view.in(deg), 100), rounded(card.vertical_view.in(deg), 100)}},
      {"mount_height_m", metres(request.height)},
      {"tilt_deg", request.height ? rounded(card.tilt.in(deg), 100) : Value{}},
      {"marks", list(card.marks, [&](const card::Mark& mark) { return mark_of(request, mark); })},
      {"focus", Object{{"set_m", metres(card.focus)},
                       {"near_m", metres(card.seventy_percent.near)},
                       {"far_m", metres(card.seventy_percent.far)},
                       {"one_pixel", focus_of(card.one_pixel)},
                       {"seventy_percent", focus_of(card.seventy_percent)}}},
      {"reach", Object{{"day", reach_in(card.reach)},
                       {"night", reach_in(card.reach_night)},
                       {"gaps", Object{{"day", gaps_in(card.reach)}, {"night", gaps_in(card.reach_night)}}}}},
      {"infrared", Object{{"burns", card.infrared}, {"glows", card.glows}, {"monochrome", card.monochrome}}},
      {"clipping", clipping_of(card)},
      {"shutter", list(card.shutters, shutter_of)},
      {"eye_distance_m", metres(card.eye_distance)},
      {"claims", list(card.claims, claim_of)},
      {"calibration", calibration_of(calibration)},
      {"assumptions", assumptions_value(card.assumptions)},
      {"cautions", text_list(card.cautions)}};
}

std::string answer_text(const card::CardRequest& request, const card::RangeCard& card,
                        const std::optional<card::Calibration>& calibration) {
  return print_json(answer_of(request, card, calibration));
}

}  // namespace sightfall::file
