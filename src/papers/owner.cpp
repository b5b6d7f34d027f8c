// SPDX-License-Identifier: GPL-3.0-or-later
// One page for the owner: what will be seen, what will not, what it costs, how long it is kept, in plain words.
#include <fmt/format.h>

#include <algorithm>

#include "need/trial.h"
#include "need/words.h"
#include "papers/cost.h"
#include "papers/documents.h"
#include "papers/told.h"

namespace sightfall::papers {
namespace {

using namespace units;
using draw::Heading;
using draw::Paragraph;
using draw::Points;
using draw::Tone;

/// What holds a need back, for somebody who does not do this for a living.
std::string plainly(detail::Limit limit) {
  using enum detail::Limit;
  switch (limit) {
    case kNone:
      return "nothing holds it back";
    case kPixels:
      return "too far for this camera and lens";
    case kLens:
    case kFocus:
      return "not sharp there";
    case kMotion:
    case kShake:
      return "movement smears it";
    case kNoise:
      return "too dark";
    case kClipping:
    case kGlare:
      return "too much light into the camera";
    case kContrast:
      return "too little stands out from what is around it";
    case kAir:
      return "fog, haze or rain in between";
    case kVeil:
      return "leaves, a fence or glass in between";
    case kCompression:
      return "the recording is squeezed too small";
    case kAngle:
      return "seen from the wrong side, or from too steep";
    case kOcclusion:
      return "something stands in the way";
    case kColour:
      return "the picture has no colour then";
    case kOutOfView:
      return "no camera looks there";
    case kMask:
      return "it is blacked out";
  }
  return "";
}

/// Why something may or may not work; what settles it stands in the report.
std::string perhaps(const need::Verdict& verdict) {
  if (verdict.settle == need::kWithinSampling || verdict.limit == detail::Limit::kNone)
    return "just about as much as is asked";
  return "perhaps " + plainly(verdict.limit);
}

/// ` (summer day, winter day)`: when it is asked for, or nothing where that is always.
std::string when(const Job& job, const std::string& name) {
  const need::Need& need = need::the_named(job.project().needs, name);
  std::string words;
  for (const std::string& condition : need.conditions) words += (words.empty() ? " (" : ", ") + condition;
  return words.empty() ? words : words + ")";
}

Points named(const Job& job, need::Answer answer, size_t most) {
  Points points;
  size_t more = 0;
  for (const need::Verdict& verdict : job.here.check.verdicts) {
    if (verdict.answer != answer) continue;
    if (points.items.size() == most) {
      ++more;
      continue;
    }
    std::string words = verdict.need + when(job, verdict.need);
    if (answer == need::Answer::kMarginal)
      words += ": " + perhaps(verdict);
    else if (answer != need::Answer::kMet && verdict.limit != detail::Limit::kNone)
      words += ": " + plainly(verdict.limit);
    points.items.push_back(std::move(words));
  }
  if (more > 0) points.items.push_back(fmt::format("and {} more, which the report tells", more));
  return points;
}

void add_group(const Job& job, need::Answer answer, const std::string& title, size_t most, draw::Document& document) {
  Points points = named(job, answer, most);
  if (points.items.empty()) return;
  document.blocks.emplace_back(Heading{2, title});
  document.blocks.emplace_back(std::move(points));
}

/// `3.2 days, 0.7 at least and 26.6 at most`, or `14 days` where all are alike.
std::string days_words(const Ranged<Time>& kept) {
  const std::string likely = number(kept.nominal.in(day)), low = number(kept.low.in(day)),
                    high = number(kept.high.in(day));
  if (low == high) return likely + " days";
  return fmt::format("{} days, {} at least and {} at most", likely, low, high);
}

/// `recorder: likely 3.2 days, 0.7 at least and 26.6 at most, of 14 wanted: too short as planned; ...`
std::string kept_words(const Job& job, const loads::RecorderStorage& one) {
  if (!one.lacks.empty()) return one.recorder + ": " + one.lacks + "; settle it before hand-over";
  std::string words = fmt::format("{}: likely {}", one.recorder, days_words(one.told));
  const auto& wanted = job.project().keeping.wanted;
  if (!wanted) return words;
  words += fmt::format(", of {} wanted", number(wanted->in(day), 0));
  if (one.wanted.held == loads::Held::kMet) return words;
  return words + (one.told.nominal < *wanted ? ": too short as planned" : ": not sure") +
         "; settle it before hand-over";
}

/// `not always: gate cam by the clock, 12 hours a day; yard cam on motion alone`; empty where all record always.
std::string not_always(const Job& job) {
  std::vector<std::string> cameras;
  for (const CameraPart& part : job.cameras) {
    const camera::Recording& recording = part.camera->recording;
    if (recording.mode == camera::RecordingMode::kMotion)
      cameras.push_back(part.camera->name + " on motion alone");
    else if (recording.hours_a_day)
      cameras.push_back(fmt::format("{} for {:g} hours a day", part.camera->name, *recording.hours_a_day));
  }
  return cameras.empty() ? std::string{} : fmt::format("Not always: {}.", fmt::join(cameras, "; "));
}

/// What carries the cameras and does not hold as planned.
std::string carriers_to_settle(const Job& job) {
  const auto missed =
      static_cast<size_t>(std::count_if(job.here.asks.begin(), job.here.asks.end(),
                                        [](const loads::Ask& ask) { return ask.held == loads::Held::kMissed; }));
  return missed == 0 ? std::string{}
                     : fmt::format(
                           "Before anything is bought, have {} of power, cable, network, storage or mounts "
                           "settled that {} not hold as planned; the report says which.",
                           counted(missed, "thing"), missed == 1 ? "does" : "do");
}

draw::Document summary(const Job& job, size_t most) {
  draw::Document document = titled(job.project(), "summary for the owner", job.asked.date);
  auto& blocks = document.blocks;
  blocks.emplace_back(Heading{1, job.project().name});
  blocks.emplace_back(Paragraph{
      fmt::format("What {} will show you, and what not. Asked for: {}: {}.", counted(job.cameras.size(), "camera"),
                  counted(job.here.check.verdicts.size(), "thing"), counts(job.here.check.verdicts)),
      Tone::kLead});
  add_group(job, need::Answer::kMet, "You can count on", most, document);
  add_group(job, need::Answer::kMarginal, "It may work; something has to be settled or tried first", most, document);
  add_group(job, need::Answer::kMissed, "It will not work as planned", most, document);
  blocks.emplace_back(Heading{2, "How long pictures are kept"});
  Points kept;
  for (const loads::RecorderStorage& one : job.here.loads.storage.recorders) kept.items.push_back(kept_words(job, one));
  if (kept.items.empty()) kept.items.emplace_back("No recorder was entered.");
  for (const loads::CardStorage& card : job.here.loads.storage.cards)
    kept.items.push_back(fmt::format("card in {}: likely {}", card.camera, days_words(card.kept)));
  if (std::string words = not_always(job); !words.empty()) kept.items.push_back(std::move(words));
  if (job.project().keeping.most)
    kept.items.push_back(fmt::format("Never longer than {} days: {}", number(job.project().keeping.most->in(day), 0),
                                     job.project().keeping.reason));
  blocks.emplace_back(std::move(kept));
  blocks.emplace_back(Heading{2, "What it costs"});
  blocks.emplace_back(Paragraph{cost_told(job)});
  if (job.here.loads.power.a_year.nominal > Energy{})
    blocks.emplace_back(
        Paragraph{fmt::format("It draws {} to {} kWh a year.", number(job.here.loads.power.a_year.low.in(kWh), 0),
                              number(job.here.loads.power.a_year.high.in(kWh), 0))});
  blocks.emplace_back(Heading{2, "What you have to do"});
  Points to_do{
      {"Tell people that there are cameras: signs are among these papers.",
       fmt::format("Neighbours: {}.", job.here.loads.overlook.things.empty()
                                          ? "nothing of theirs that was entered shows"
                                          : "some of what is theirs shows; the report says what, and which "
                                            "masks remove it. Talk to them before the cameras hang"),
       "Walk the field test with whoever hangs the cameras, by day and after dark, and sign only what you saw.",
       "Clean, prune and look after it as the calendar says; change every password that came with a device."}};
  if (std::string words = loads::in_words(job.here.loads.outage); !words.empty()) {
    words.front() = 'W';
    to_do.items.push_back(words + ". Decide whether that is enough.");
  }
  if (std::string words = carriers_to_settle(job); !words.empty())
    to_do.items.insert(to_do.items.begin(), std::move(words));
  blocks.emplace_back(std::move(to_do));
  return document;
}

}  // namespace

draw::Document owner_summary(const Job& job) {
  constexpr size_t kAll = 40;
  for (size_t most = kAll; most > 1; most -= most > 10 ? 5 : 1)
    if (draw::Document document = summary(job, most); draw::pages_of(document, job.asked.paper) == 1) return document;
  return summary(job, 1);
}

}  // namespace sightfall::papers
