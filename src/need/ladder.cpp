// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/ladder.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "need/frame.h"
#include "need/samples.h"

namespace sightfall::need {
namespace {

constexpr int kMostSamples = 16384;  // where sampling alone leaves the answer open, samples double up to here

std::optional<Replaced> in_light_of(const Ladder& ladder, const Replaced* one) {
  if (one == nullptr) return std::nullopt;
  return ladder.in_light(*one);
}

}  // namespace

const Trial& Ladder::at(int samples) {
  return trials_.try_emplace(samples, moment_, *need_, *stations_, samples).first->second;
}

Judgement Ladder::judge_at(int samples, const Replaced* one, Telling telling) {
  return one != nullptr ? at(samples).judge_with(one->camera, one->station, telling) : at(samples).judge(telling);
}

Replaced Ladder::in_light(const Replaced& one) const {
  return {one.camera, in_condition(one.station, *moment_.lighting)};
}

Judgement Ladder::judge(int& samples, const Replaced* one, Telling telling) {
  for (;;) {
    Judgement judgement = judge_at(samples, one, telling);
    if (!judgement.only_sampling || 2 * samples > kMostSamples) return judgement;
    samples *= 2;
  }
}

Ladders::Ladders(const LitProject& lit, const Need& need, const site::Condition& condition)
    : lit_{&lit},
      need_{&need},
      condition_{&condition},
      nominal_{lit.moment(condition), need, lit.in(condition).nominal.stations} {
  for (const LitStations& end : lit.in(condition).ends)
    ends_.emplace_back(Moment{&lit.project(), &end.lighting, condition.name}, need, end.stations);
}

Standing Ladders::judge(const Replaced* one) {
  if (one != nullptr) return judged(one);
  return lit_->standing(*need_, *condition_, [&] { return judged(nullptr); });
}

Standing Ladders::judged(const Replaced* one) {
  int samples = first_count(lit_->project(), *need_);
  const std::optional<Replaced> lit = in_light_of(nominal_, one);
  Judgement judgement = nominal_.judge(samples, lit ? &*lit : nullptr);
  widen_by_mode(samples, one, judgement);
  return {std::move(judgement), samples};
}

/// Where a camera may as well be in its other mode, the answer holds only if it is the same in both.
void Ladders::widen_by_mode(int samples, const Replaced* one, Judgement& judgement) {
  for (Ladder& end : ends_) {
    const std::optional<Replaced> lit = in_light_of(end, one);
    const Judgement other = end.judge_at(samples, lit ? &*lit : nullptr, Telling::kAnswer);
    judgement.share.low = std::min(judgement.share.low, other.share.low);
    judgement.share.high = std::max(judgement.share.high, other.share.high);
    if (other.answer == judgement.answer) continue;
    const detail::TypicalValue& entry = lit_->project().settings.typical.night_switch;
    judgement.answer = Answer::kMarginal;
    judgement.only_sampling = false;
    judgement.settle = fmt::format("{} ({:g} to {:g} {}): {}", entry.meaning, entry.value.low, entry.value.high,
                                   entry.unit, entry.settle);
  }
}

bool worse(const Judgement& a, const Judgement& b) {
  return a.answer != b.answer ? a.answer > b.answer : a.share.nominal < b.share.nominal;
}

}  // namespace sightfall::need
