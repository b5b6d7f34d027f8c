// SPDX-License-Identifier: GPL-3.0-or-later
// What changes of cameras, such as masks, make of the needs.
#include <algorithm>
#include <optional>

#include "need/check.h"
#include "need/in_parallel.h"
#include "need/ladder.h"
#include "need/lit_project.h"

namespace sightfall::need {
namespace {

using Afterwards = std::vector<std::optional<Became>>;  // a change each

/// The answer in the worst condition, as it is or with one camera replaced.
AnswerShare answer_of(std::vector<Ladders>& in_conditions, const Replaced* one) {
  std::optional<Judgement> worst;
  for (Ladders& ladders : in_conditions) {
    Judgement judgement = ladders.judge(one).judgement;
    if (!worst || worse(judgement, *worst)) worst = std::move(judgement);
  }
  return {worst->answer, worst->share.nominal, worst->worst ? worst->worst->delivered.nominal : PixelDensity{0}};
}

/// What each change makes of a need; only one camera's part of the trials is worked out anew.
Afterwards held(const LitProject& lit, const Need& need, const std::vector<Otherwise>& others,
                const Progress& progress) {
  Afterwards became(others.size());
  std::vector<Ladders> in_conditions;
  for (const site::Condition* condition : lit.conditions_of(need, {}))
    in_conditions.emplace_back(lit, need, *condition);
  std::optional<AnswerShare> before;
  for (size_t i = 0; i < others.size() && !progress.stopped(); ++i) {
    const std::vector<std::string>& names = others[i].needs;
    if (std::find(names.begin(), names.end(), need.name) == names.end()) continue;
    if (!before) before = answer_of(in_conditions, nullptr);
    if (before->answer == Answer::kMissed) break;
    const Replaced one{others[i].camera, station_of(lit.project(), others[i].set)};
    became[i] = Became{need.name, *before, answer_of(in_conditions, &one)};
  }
  return became;
}

}  // namespace

std::vector<std::vector<Became>> hold_otherwise(const LitProject& lit, const std::vector<Otherwise>& others,
                                                const Progress& progress) {
  const std::vector<Need>& needs = lit.project().needs;
  for (const site::Condition& condition : lit.project().conditions) lit.in(condition);
  std::vector<Afterwards> of_needs(needs.size());
  in_parallel(needs.size(), progress, "judging needs",
              [&](size_t i) { of_needs[i] = held(lit, needs[i], others, progress); });
  std::vector<std::vector<Became>> became(others.size());
  for (const Afterwards& of_need : of_needs)
    for (size_t i = 0; i < of_need.size(); ++i)
      if (of_need[i]) became[i].push_back(*of_need[i]);
  return became;
}

}  // namespace sightfall::need
