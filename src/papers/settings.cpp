// SPDX-License-Identifier: GPL-3.0-or-later
// What is typed into each camera so that it shows what was promised, the addresses, and what keeps strangers out.
//   Limits   names of menus differ from maker to maker; the settings are told by what they do
#include <fmt/format.h>

#include <algorithm>

#include "need/lamp_cautions.h"
#include "need/station.h"
#include "need/words.h"
#include "papers/documents.h"
#include "papers/run_words.h"
#include "papers/settings_rows.h"
#include "papers/told.h"
#include "video/encode.h"

namespace sightfall::papers {
namespace {

using namespace units;
using draw::Heading;
using draw::Paragraph;
using draw::Table;

const loads::StreamRate& rate_of(const Job& job, const CameraPart& part) {
  return job.here.loads.network.rates[static_cast<size_t>(part.number) - 1];
}

void add_exposure(const Job& job, const CameraPart& part, SettingRows& rows) {
  const detail::Typical& typical = job.project().settings.typical;
  const camera::Camera& camera = *part.camera;
  if (camera.shutter)
    rows.push_back({"shutter", "fixed at " + shutter(*camera.shutter), "set for this job"});
  else
    rows.push_back(
        {"shutter",
         fmt::format("automatic, never slower than {}",
                     shutter(Time{need::slowest_shutter(*part.sheet, camera, typical).nominal})),
         camera.slowest_shutter ? "set for this job" : "assumed; of a camera that cannot be told so, ask anew"});
  const bool by_sheet = part.sheet->sensor && part.sheet->sensor->largest_gain;
  const double gain =
      camera.largest_gain.value_or(by_sheet ? *part.sheet->sensor->largest_gain : typical.largest_gain.value.nominal);
  rows.push_back({"gain, at most", fmt::format("{:g} dB", gain),
                  camera.largest_gain ? "set for this job"
                  : by_sheet          ? "by its sheet"
                                      : "assumed: its sheet does not say"});
  if (camera.f_number)
    rows.push_back({"iris", fmt::format("f/{:g}", *camera.f_number), "set for this job"});
  else if (part.sheet->iris == camera::Iris::kAutomatic)
    rows.push_back({"iris",
                    fmt::format("automatic, from f/{:.2g} by night to f/{:.2g} in bright light",
                                need::station_of(job.project(), camera).lens.optics.f_number,
                                part.sheet->smallest_iris.value_or(typical.smallest_iris.value.nominal)),
                    part.sheet->smallest_iris ? "as the verdicts count" : "its smallest is assumed"});
  rows.push_back(
      {"frames a second",
       fmt::format("{:g}", camera.frame_rate.value_or(part.sheet->frame_rates.empty()
                                                          ? 0
                                                          : *std::max_element(part.sheet->frame_rates.begin(),
                                                                              part.sheet->frame_rates.end()))),
       camera.frame_rate ? "set for this job" : "the sheet's highest"});
}

void add_picture(const Job& job, const CameraPart& part, SettingRows& rows) {
  const camera::Camera& camera = *part.camera;
  const camera::Sheet& sheet = *part.sheet;
  const detail::Typical& typical = job.project().settings.typical;
  rows.push_back({"wide dynamic range",
                  sheet.wide_dynamic_range ? (*sheet.wide_dynamic_range ? "on" : "the sheet has none") : "off",
                  sheet.wide_dynamic_range ? (*sheet.wide_dynamic_range ? "counted with" : "")
                                           : "counted without, for the sheet tells of none"});
  const char* reductions[] = {"off", "low", "high"};
  rows.push_back(
      {"noise reduction",
       sheet.noise_reduction ? reductions[static_cast<int>(*sheet.noise_reduction)] : "the lowest that looks clean",
       "more of it smears who moves"});
  const char* infrared[] = {"automatic: on in monochrome", "always on", "off"};
  rows.push_back(
      {"own infrared", sheet.infrared ? infrared[static_cast<int>(camera.infrared)] : "the sheet has none", ""});
  const char* modes[] = {"automatic", "always colour", "always monochrome"};
  rows.push_back(
      {"colour or monochrome", modes[static_cast<int>(camera.picture)],
       camera.picture == camera::PictureMode::kAutomatic
           ? fmt::format("counted: to monochrome below about {:g} lx at the scene, back above {:g} times that",
                         typical.night_switch.value.nominal, typical.day_switch.value.nominal)
           : ""});
  const double mains = job.project().settings.mains.in(Hz);
  const bool too_short = need::too_short_for_bands(need::station_of(job.project(), camera));
  rows.push_back({"mains frequency", fmt::format("{:g} Hz", mains),
                  too_short ? fmt::format("against bands; leave it out where it makes the shutter slower than is told "
                                          "above, for at 1/{:g} s what moves is not sharp enough",
                                          2 * mains)
                            : "against bands"});
}

/// `1.2 (0.3 to 5.8) by day, 38.1 (2.1 to 262.3) by night, Mbit/s`
std::string forecast_of(const loads::StreamRate& rate) {
  const auto told = [](const Ranged<DataRate>& one) {
    return ranged({one.low.in(Mbit / s), one.nominal.in(Mbit / s), one.high.in(Mbit / s)});
  };
  return fmt::format("{} by day, {} by night, Mbit/s", told(rate.day.rate), told(rate.night.rate));
}

/// What a mask would cost the needs, in words.
std::string cost_of(const Job& job, const loads::Overlooked& thing) {
  if (!thing.judged) return "its cost was not worked out";
  std::string words;
  for (const loads::MaskCost& cost : thing.costs)
    words += (words.empty() ? "it costs: " : "; ") + cost_words(cost, job.project().settings.units);
  return words.empty() ? "it takes nothing from any need" : words;
}

/// What bounds a rate that nobody has stated: the camera's link, and what its recorder takes in.
void add_bounds(const Job& job, const CameraPart& part, SettingRows& rows) {
  const auto told = [](const std::optional<DataRate>& rate) {
    return rate ? fmt::format("{:g} Mbit/s", rate->in(Mbit / s)) : or_line("");
  };
  for (const loads::LinkLoad& link : job.here.loads.network.links)
    if (link.to == part.camera->name)
      rows.push_back({"its link carries", fmt::format("at most {} ({})", told(link.rate.capacity), link.run),
                      link.rate.remedy.empty() ? std::string(loads::in_words(link.rate.held)) : link.rate.remedy});
  for (const loads::RecorderStorage& one : job.here.loads.storage.recorders) {
    if (std::find(one.cameras.begin(), one.cameras.end(), part.camera->name) == one.cameras.end()) continue;
    for (const loads::IntakeLoad& intake : job.here.loads.network.intakes)
      if (intake.recorder == one.recorder)
        rows.push_back(
            {"its recorder takes in",
             fmt::format("at most {} of {} streams", told(intake.rate.capacity), intake.streams),
             intake.rate.remedy.empty() ? std::string(loads::in_words(intake.rate.held)) : intake.rate.remedy});
  }
}

/// The recorder that its stream goes to.
std::string sent_words(const Job& job, const CameraPart& part) {
  const std::string recorder = loads::recorder_of(job.project(), job.here.loads.cable, part.camera->name);
  return recorder.empty() ? or_line("") : fmt::format("{} ({})", address_of(job, recorder), recorder);
}

/// Its cables, each with the port that it starts at.
void add_cables(const Job& job, const CameraPart& part, SettingRows& rows) {
  for (const loads::LaidRun& laid : job.here.loads.cable.runs)
    if (laid.run->to == part.camera->name)
      rows.push_back({"cable " + laid.run->name,
                      fmt::format("from {}{}", laid.run->from,
                                  laid.run->port ? fmt::format(", port {}", *laid.run->port) : std::string{}),
                      cable_words(laid)});
}

/// What the hours of a camera that is not recorded always have to cover.
std::string hours_remark(const Job& job, const CameraPart& part) {
  if (part.camera->recording.mode != camera::RecordingMode::kHours) return {};
  std::string names;
  for (const site::Condition& condition : job.project().conditions) {
    const bool asked =
        std::any_of(job.here.check.verdicts.begin(), job.here.check.verdicts.end(), [&](const need::Verdict& verdict) {
          return std::any_of(verdict.conditions.begin(), verdict.conditions.end(), [&](const auto& one) {
            return one.camera == part.camera->name && one.condition == condition.name;
          });
        });
    if (asked) names += (names.empty() ? "" : ", ") + condition.name;
  }
  return names.empty() ? names : "its needs are asked for in: " + names + "; the hours have to cover them";
}

/// A card that only writes over the oldest keeps longer than a cap allows where little happens.
std::string card_words(const Job& job, const loads::CardStorage& card) {
  std::string words = fmt::format("{:g} GB: recording to it on, over the oldest", card.card.in(1e9 * byte));
  if (const auto& most = job.project().keeping.most)
    words += fmt::format(", and deleted after {:g} days; a camera that cannot delete by age has no card in it",
                         most->in(day));
  return words;
}

void add_stream(const Job& job, const CameraPart& part, SettingRows& rows) {
  const loads::StreamRate& rate = rate_of(job, part);
  const char* controls[] = {"constant rate", "held quality under a ceiling", "held quality, no ceiling"};
  rows.push_back({"pixels", fmt::format("{} x {}", part.sheet->columns, part.sheet->rows), ""});
  rows.push_back({"codec", rate.stream.codec == camera::Codec::kH264 ? "H.264" : "H.265",
                  rate.assumed ? "assumed: nothing is stated" : "as the verdicts count"});
  rows.push_back({"rate control", controls[static_cast<int>(rate.stream.control)], ""});
  if (rate.stream.control != camera::RateControl::kConstant)
    rows.push_back({"quality to hold",
                    rate.stream.quality ? fmt::format("{:g} on a scale of 1 (finest) to 51", *rate.stream.quality)
                                        : std::string("the usual one of the camera"),
                    rate.stream.rate ? "the ceiling decides by night" : ""});
  if (rate.stream.rate) {
    rows.push_back({"rate or ceiling", fmt::format("{:g} Mbit/s", rate.stream.rate->in(Mbit / s)), ""});
  } else {
    rows.push_back({"rate or ceiling", or_line("") + " Mbit/s",
                    "none stated: agree one before hand-over, and have the verdicts worked out with it"});
    rows.push_back({"rate without a ceiling", forecast_of(rate), "by forecast"});
    add_bounds(job, part, rows);
  }
  rows.push_back({"goes to", sent_words(job, part),
                  "which fetches it by an account of its own, once; multicast off: the loads count so"});
  rows.push_back({"second stream", "off", "unless the recorder asks for one"});
  rows.push_back({"key frame every", fmt::format("{} frames", video::EncodeSettings{}.keyframe_interval),
                  "as pictures and clips here are encoded"});
  rows.push_back({"recorded", recorded_words(part.camera->recording), hours_remark(job, part)});
  for (const loads::CardStorage& card : job.here.loads.storage.cards)
    if (card.camera == part.camera->name)
      rows.push_back({"card in it", card_words(job, card),
                      fmt::format("keeps {} days",
                                  ranged({card.kept.low.in(day), card.kept.nominal.in(day), card.kept.high.in(day)}))});
}

/// What keeps strangers out, as the list at the end asks of every device.
void add_apart(SettingRows& rows) {
  rows.push_back({"gateway", "none", "cameras need no way out"});
  rows.push_back({"password", "one of its own, long", "handed over apart, not in these papers"});
  rows.push_back({"firmware", or_line(""), "the maker's newest; write the version"});
  rows.push_back({"not needed, off", "remote discovery, cloud links, web and file access without encryption", ""});
}

void add_lens(const Job& job, const CameraPart& part, SettingRows& rows) {
  const need::Units units = job.project().settings.units;
  rows.push_back({"focal length", fmt::format("{:g} mm", part.aim.focal.in(mm)),
                  part.sheet->zoom() ? fmt::format("zoom until {} show across", angle(part.aim.view)) : "fixed"});
  rows.push_back(
      {"focus", need::length_words(part.card.focus, units),
       part.camera->focus ? "set for this job; then automatic focus off" : "not stated, so taken: set it sharp there"});
  if (part.sheet->projection != camera::Projection::kFisheye) return;
  constexpr Angle kCeiling = 60 * deg;  // between looking ahead and straight down
  rows.push_back(
      {"it hangs", part.camera->tilt >= kCeiling ? "from above (ceiling)" : "on a wall", "as its menu asks"});
  rows.push_back({"picture made straight (dewarp)", "off in the camera",
                  "the verdicts count with the round picture; who looks may make it straight"});
}

void add_masks(const Job& job, const CameraPart& part, SettingRows& rows) {
  const auto words = [](const camera::Mask& mask) {
    return fmt::format("{:.1f} to {:.1f} % from the left, {:.1f} to {:.1f} % from the top", 100 * mask.left,
                       100 * mask.right, 100 * mask.top, 100 * mask.bottom);
  };
  for (const camera::Mask& mask : part.camera->masks)
    rows.push_back({"mask: " + mask.name, words(mask), "set for this job"});
  for (const loads::Overlooked& thing : job.here.loads.overlook.things)
    if (thing.camera == part.camera->name)
      rows.push_back(
          {"mask, for the owner to decide", words(thing.mask),
           fmt::format("hides {}; set it after aiming; {}",
                       thing.window.empty() ? "ground beyond the boundary" : thing.window, cost_of(job, thing))});
}

void add_camera(const Job& job, const CameraPart& part, draw::Document& document) {
  SettingRows rows;
  rows.push_back({"name in the picture", part.camera->name, ""});
  rows.push_back({"network address",
                  fmt::format("{} mask {}", address_of(job, part.camera->name), mask_of(job.asked.network)), ""});
  const std::string zone = job.project().site.anchor ? job.project().site.anchor->time_zone : "";
  rows.push_back({"time zone", or_line(zone), "the same in every device"});
  rows.push_back({"time from (NTP)", time_source(job), ""});
  add_apart(rows);
  add_cables(job, part, rows);
  add_lens(job, part, rows);
  add_exposure(job, part, rows);
  add_picture(job, part, rows);
  add_stream(job, part, rows);
  add_masks(job, part, rows);
  document.blocks.emplace_back(Heading{2, fmt::format("{}  {}", part.number, part.camera->name), part.number > 1});
  document.blocks.emplace_back(Paragraph{
      fmt::format("{} at {}. With other settings the verdicts do not hold.", part.sheet->name, part.mount->name)});
  for (const loads::LaidRun& laid : job.here.loads.cable.runs)
    if (laid.run->to == part.camera->name)
      if (const loads::Held held = cable_verdict(job, laid).held; held != loads::Held::kMet)
        document.blocks.emplace_back(Paragraph{fmt::format("Its cable {} is {} as planned: {}", laid.run->name,
                                                           held_word(held), verdict_of(job, *laid.run).remarks),
                                               draw::Tone::kCaution});
  document.blocks.emplace_back(settings_table(std::move(rows)));
}

void add_hardening(draw::Document& document) {
  document.blocks.emplace_back(Heading{1, "Keeping strangers out", true});  // a list to tick stays whole
  document.blocks.emplace_back(
      Paragraph{"Baseline of ETSI EN 303 645 (cyber security for consumer internet of things) and common practice; "
                "tick what is done."});
  document.blocks.emplace_back(draw::Points{
      {"Every device has a password of its own that did not come with it (ETSI EN 303 645, provision 5.1).",
       "Firmware is the maker's newest, from the maker, and who looks for the next one is agreed (5.3).",
       "Services that nobody needs are off: remote discovery, cloud links, unencrypted web and file access (5.6).",
       ("Cameras are on a network of their own: they reach nothing of the house, and the house's computers reach the "
        "recorder alone."),
       "No port is open from outside; whoever looks from outside comes through a virtual private network.",
       "Cameras cannot reach the internet unless the owner wants it.",
       "Clocks are in step with one source; the recorder's shows the right time and zone.",
       ("Two people have accounts of their own; the installer's is removed at hand-over or stays by a written wish of "
        "the owner."),
       "Passwords are handed over in a sealed envelope or a password store, not in these papers.",
       "Cables that can be reached from outside end in a port that takes this device alone, or behind a lock.",
       "The recorder stands where a burglar does not look first, and its disks are encrypted where it can do so.",
       "A copy of every configuration is with the owner."},
      true});
  document.blocks.emplace_back(
      Paragraph{"Provision numbers from memory; the standard's text decides.", draw::Tone::kNote});
}

}  // namespace

draw::Table settings_table(SettingRows rows) {
  for (auto& row : rows) row.emplace_back("[  ]");
  return {{{"setting", 3}, {"value", 5}, {"why", 5}, {"done", 1}}, std::move(rows)};
}

std::string time_source(const Job& job) {
  for (const char* kind : {"recorder", "router"})
    for (const Address& one : job.addresses)
      if (one.kind == kind && !one.house) return fmt::format("{} ({})", one.address, one.device);
  return "one source for all devices";
}

std::string recorded_words(const camera::Recording& recording) {
  const char* modes[] = {"always", "by the clock", "on motion"};
  const std::string mode = modes[static_cast<int>(recording.mode)];
  return recording.hours_a_day ? mode + fmt::format(", {:g} h a day: from ______ to ______", *recording.hours_a_day)
                               : mode;
}

draw::Document settings_sheets(const Job& job) {
  draw::Document document = titled(job.project(), "settings", job.asked.date);
  document.blocks.emplace_back(Heading{1, "Settings of each camera"});
  document.blocks.emplace_back(Paragraph{"One page a camera. What is promised was worked out with these settings."});
  for (const CameraPart& part : job.cameras) add_camera(job, part, document);
  add_devices(job, document);
  add_network(job, document);
  add_hardening(document);
  return document;
}

}  // namespace sightfall::papers
