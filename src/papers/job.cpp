// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/job.h"

#include <algorithm>

#include "draw/canvas.h"
#include "need/lit_project.h"
#include "papers/feet.h"
#include "walk/film.h"
#include "walk/preview.h"
#include "walk/standing.h"

namespace sightfall::papers {
namespace {

constexpr int kShownColumns = 640;

Verdicts judged(const need::Project& project, const Asked& asked, const Progress& progress) {
  const need::LitProject lit{project};
  Verdicts verdicts{&project, {}, {}, {}};
  // First, for it tries its masks on the trials of the needs as they are, whose answers the check takes over.
  verdicts.loads = loads::loads(lit, {{}, true, asked.mask_costs}, progress.part(0, 0.5));
  verdicts.check = need::check(lit, {}, progress.part(0.5, 1));
  verdicts.asks = loads::asks_of(verdicts.loads);
  if (project.settings.units == need::Units::kFeet) tell_in_feet(verdicts);
  return verdicts;
}

walk::Mover mover_of(const need::Project& project, const std::string& need) {
  const need::Need* found = need::find_named(project.needs, need);
  const bool driven =
      found != nullptr && (found->subject == need::Subject::kPlate || found->subject == need::Subject::kVehicle);
  return driven ? walk::Mover::kCar : walk::Mover::kWalker;
}

std::optional<Shown> shown_in(const need::Project& project, const camera::Camera& camera, Shown shown) {
  const site::Condition* condition = need::find_named(project.conditions, shown.condition);
  if (condition == nullptr) return std::nullopt;
  const site::Place way = walk::way_towards(need::the_named(project.site.mounts, camera.mount).at, shown.at);
  const walk::WalkRequest request{&project, condition, &camera, &way, mover_of(project, shown.need), {}, 1};
  const walk::Walk small = walk::Walk::standing(request).preview(kShownColumns);
  shown.picture = walk::Film{small}.picture(small.marks().front());
  return shown;
}

card::CardRequest request_for(const need::Project& project, const CameraPart& part) {
  card::CardRequest request;
  request.sheet = *part.sheet;
  request.setting = *part.camera;
  request.height = part.mount->height;
  request.tilt = part.camera->tilt;
  request.tables = {project.settings.levels};
  request.typical = project.settings.typical;
  request.materials = project.settings.materials;
  return request;
}

void add_pictures(const Verdicts& here, const Progress& progress, std::vector<CameraPart>& parts) {
  const need::Project& project = *here.project;
  const site::Scene scene{project.site, site::Leaves::kOff};
  for (size_t i = 0; i < parts.size() && !progress.stopped(); ++i) {
    progress.tell(static_cast<double>(i) / static_cast<double>(parts.size()), "pictures");
    for (const bool night : {false, true})
      if (auto picture = shown_in(project, *parts[i].camera, place_to_show(here, i, scene, night)))
        parts[i].shown.push_back(std::move(*picture));
  }
}

/// Texts of the user's that papers write, some of whose letters would show as boxes; each once.
std::vector<std::string> without_shape(const need::Project& project, const Asked& asked) {
  std::vector<std::string> texts{project.name, project.about, project.keeping.reason, project.settings.currency,
                                 asked.by};
  const auto add = [&](const auto& all) {
    for (const auto& one : all) texts.push_back(one.name);
  };
  const site::Site& site = project.site;
  add(project.needs), add(project.cameras), add(project.catalogue), add(project.conditions);
  add(project.settings.levels.levels);
  add(site.mounts), add(site.places), add(site.feeds), add(site.runs), add(site.ways);
  add(site.solids), add(site.veils), add(site.neighbours), add(site.lamps);
  for (const site::Mount& mount : site.mounts) texts.push_back(mount.surface), texts.push_back(mount.access);
  for (const camera::Sheet& sheet : project.catalogue)
    for (const auto& text : {sheet.power.supply, sheet.ingress, sheet.connector}) texts.push_back(text.value_or(""));
  std::vector<std::string> lacking;
  for (std::string& text : texts)
    if (draw::letters_without_shape(text) > 0 && std::find(lacking.begin(), lacking.end(), text) == lacking.end())
      lacking.push_back(std::move(text));
  return lacking;
}

/// Conditions whose picture stands for the night, or the day; dusk for the night only where no darker one is named.
std::vector<const site::Condition*> conditions_to_show(const need::Project& project, bool night) {
  std::vector<const site::Condition*> all, darker;
  for (const site::Condition& condition : project.conditions) {
    if (loads::by_night(project, condition) != night) continue;
    all.push_back(&condition);
    if (condition.light != site::NamedLight::kDusk) darker.push_back(&condition);
  }
  return night && !darker.empty() ? darker : all;
}

}  // namespace

Shown place_to_show(const Verdicts& here, size_t which, const site::Scene& scene, bool night) {
  const camera::Camera& camera = here.project->cameras[which];
  Shown shown;
  shown.night = night;
  const std::vector<const site::Condition*> conditions = conditions_to_show(*here.project, night);
  const auto is_shown = [&](const std::string& name) {
    return std::any_of(conditions.begin(), conditions.end(), [&](const auto* one) { return one->name == name; });
  };
  for (const bool worst_then : {true, false})
    for (const need::Verdict& verdict : here.check.verdicts)
      for (const need::ConditionShare& one : verdict.conditions) {
        if (one.camera != camera.name || !one.worst_at) continue;
        if (!is_shown(one.condition)) continue;
        if (worst_then && verdict.worst && verdict.worst->condition != one.condition) continue;
        shown.at = geom::plan(*one.worst_at);
        shown.need = verdict.need;
        shown.condition = one.condition;
        return shown;
      }
  shown.at = walk::middle_of_picture(*here.project, camera, scene);
  const loads::StreamRate& rate = here.loads.network.rates[which];
  shown.condition = (night ? rate.night : rate.day).condition;
  if (!conditions.empty() && !is_shown(shown.condition)) shown.condition = conditions.front()->name;
  return shown;
}

std::string address_of(const Job& job, const std::string& device) {
  for (const Address& one : job.addresses)
    if (one.device == device && !one.house) return one.address;
  return {};
}

Result<Job> gathered(const need::Project& project, const need::Project* other, const Asked& asked,
                     const Progress& progress) {
  auto addresses = addresses_of(project, asked.network);
  if (!addresses) return tl::make_unexpected(addresses.error());
  Job job{asked,
          judged(project, asked, progress.part(0, other != nullptr ? 0.4 : 0.7)),
          {},
          {},
          std::move(*addresses),
          without_shape(project, asked)};
  if (other != nullptr) job.other = judged(*other, asked, progress.part(0.4, 0.7));
  for (size_t i = 0; i < project.cameras.size(); ++i) {
    const camera::Camera& camera = project.cameras[i];
    CameraPart part{static_cast<int>(i) + 1, &camera, &need::the_named(project.catalogue, camera.sheet),
                    &need::the_named(project.site.mounts, camera.mount), job.here.check.aims[i]};
    part.request = request_for(project, part);
    part.card = card::range_card(part.request);
    if (project.settings.units == need::Units::kFeet)
      for (std::string& caution : part.card.cautions) caution = in_feet(caution);
    job.cameras.push_back(std::move(part));
  }
  if (asked.pictures) add_pictures(job.here, progress.part(0.7, 1), job.cameras);
  job.stopped = progress.stopped();
  return job;
}

}  // namespace sightfall::papers
