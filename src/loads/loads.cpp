// SPDX-License-Identifier: GPL-3.0-or-later
#include "loads/loads.h"

#include <fmt/format.h>

#include <algorithm>

#include "loads/first_to_fail.h"
#include "need/lit_project.h"

namespace sightfall::loads {
namespace {

/// An entry of the table as it is printed, when the project's cameras may rest on it.
Assumption assumed(const char* what, const detail::TypicalValue& entry) {
  const std::string unit = entry.unit == "1" ? "" : " " + entry.unit;
  return {fmt::format("{}: {:g}{} ({:g} to {:g}): {}", what, entry.value.nominal, unit, entry.value.low,
                      entry.value.high, entry.meaning),
          entry.settle};
}

std::vector<Assumption> assumptions_of(const need::Project& project, const std::vector<StreamRate>& rates) {
  const detail::Typical& t = project.settings.typical;
  std::vector<Assumption> all;
  const site::Site& site = project.site;
  if (!site.runs.empty())
    all = {assumed("cable slack", t.cable_slack), assumed("service loops", t.service_loop),
           assumed("conductors", t.conductor_temperature), assumed("supplies", t.supply_efficiency)};
  const auto has = [&](site::FeedKind kind) {
    return std::any_of(site.feeds.begin(), site.feeds.end(), [&](const site::Feed& one) { return one.kind == kind; });
  };
  if (has(site::FeedKind::kBattery)) {
    all.push_back(assumed("batteries", t.battery_efficiency));
    all.push_back(assumed("batteries' age", t.battery_age));
  }
  const bool forecast = std::any_of(rates.begin(), rates.end(),
                                    [](const StreamRate& one) { return !one.day.measured || !one.night.measured; });
  if (forecast) all.push_back(assumed("rates", t.rate_forecast));
  if (std::any_of(site.feeds.begin(), site.feeds.end(),
                  [](const site::Feed& one) { return one.viewers > 0 && !one.viewer_rate; }))
    all.push_back(assumed("a viewer outside", t.viewer_rate));
  if (has(site::FeedKind::kRecorder)) all.push_back(assumed("disks", t.disk_share));
  if (!project.cameras.empty() && has(site::FeedKind::kRecorder))
    all.push_back(
        {"streams: each camera sends one, to its recorder, without multicast; who looks on inside the site "
         "takes the recorder's copy",
         "ask who looks on where: each who takes a camera's own stream is one more on its links, or none more where "
         "every switch on the way passes multicast, and only where it is asked for"});
  const bool by_motion = std::any_of(project.cameras.begin(), project.cameras.end(), [](const camera::Camera& one) {
    return one.recording.mode == camera::RecordingMode::kMotion && !one.recording.motion_share;
  });
  if (by_motion) all.push_back(assumed("recording by motion", t.motion_share));
  if (!site.wind && !project.cameras.empty()) all.push_back(assumed("wind", t.wind_speed));
  if (!project.cameras.empty()) all.push_back(assumed("wind on a camera", t.body_drag));
  return all;
}

}  // namespace

Held Loads::held() const {
  Held worst = cable.held;
  for (const Held one : {power.held, network.held, storage.held, mount.held}) worst = worse(worst, one);
  return worst;
}

Loads loads(const need::Project& project, const LoadsOptions& options, const Progress& progress) {
  return loads(need::LitProject{project}, options, progress);
}

Loads loads(const need::LitProject& lit, const LoadsOptions& options, const Progress& progress) {
  const need::Project& project = lit.project();
  Loads answer;
  progress.tell(0, "cables");
  answer.cable = lay(project);
  answer.power = power(project, answer.cable);
  progress.tell(0.02, "rates");
  answer.network = network(project, answer.cable, stream_rates(lit, options.measured));
  answer.storage = storage(project, answer.cable, answer.network.rates);
  answer.network.first_to_fail = first_to_fail(project, answer);
  answer.mount = mounting(project);
  progress.tell(0.1, "what is overlooked");
  const Progress rest = progress.part(0.1, 1);
  if (options.overlook) answer.overlook = overlook(lit, options.mask_costs && !progress.stopped(), rest);
  answer.stopped = progress.stopped();
  answer.assumptions = assumptions_of(project, answer.network.rates);
  return answer;
}

}  // namespace sightfall::loads
