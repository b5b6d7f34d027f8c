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

/// What is not known, of a sentence that tells its range and how to settle it.
std::string hangs_on(const std::string& settle) {
  if (settle == need::kWithinSampling) return "just about as much as is asked";
  return "it hangs on the " + settle.substr(0, settle.find(" ("));
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
    if (answer == need::Answer::kMarginal && !verdict.settle.empty())
      words += ": " + hangs_on(verdict.settle);
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

/// `recorder: likely 3.2 of the 14 days wanted, 0.7 at least and 26.6 at most: too short as planned; ...`
std::string kept_words(const Job& job, const loads::RecorderStorage& one) {
  if (!one.lacks.empty()) return one.recorder + ": " + one.lacks + "; settle it before hand-over";
  const std::string likely = number(one.told.nominal.in(day)), low = number(one.told.low.in(day)),
                    high = number(one.told.high.in(day));
  const auto& wanted = job.project().keeping.wanted;
  if (!wanted) return fmt::format("{}: likely {} days, {} at least and {} at most", one.recorder, likely, low, high);
  std::string words = fmt::format("{}: likely {} of the {} days wanted, {} at least and {} at most", one.recorder,
                                  likely, number(wanted->in(day), 0), low, high);
  if (one.wanted.held == loads::Held::kMet) return words;
  return words + (one.told.nominal < *wanted ? ": too short as planned" : ": not sure") +
         "; settle it before hand-over";
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
  blocks.emplace_back(
      Points{{"Tell people that there are cameras: signs are among these papers.",
              fmt::format("Neighbours: {}.", job.here.loads.overlook.things.empty()
                                                 ? "nothing of theirs that was entered shows"
                                                 : "some of what is theirs shows; the report says what, and which "
                                                   "masks remove it. Talk to them before the cameras hang"),
              "Walk the field test with whoever hangs the cameras, by day and after dark, and sign only what you saw.",
              "Clean, prune and look after it as the calendar says; change every password that came with a device."}});
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
