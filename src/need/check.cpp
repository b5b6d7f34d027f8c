// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/check.h"

#include <array>

#include "need/bystanders.h"
#include "need/each_need.h"
#include "need/ladder.h"
#include "need/lit_project.h"
#include "need/remedy.h"
#include "need/surroundings.h"

namespace sightfall::need {
namespace {

/// A need is answered as in its worst condition; nothing when only other conditions than its own were asked for.
std::optional<Verdict> judged(const LitProject& lit, const Need& need, const std::vector<std::string>& conditions) {
  Verdict verdict;
  verdict.need = need.name;
  verdict.required_share = need.share;
  verdict.required = PixelDensity{required_of(lit.project(), need).density};
  std::optional<Judgement> worst;
  for (const site::Condition* condition : lit.conditions_of(need, conditions)) {
    int samples = 0;
    Judgement judgement = Ladders{lit, need, *condition}.judge(samples);
    ConditionShare& told = verdict.conditions.emplace_back();
    told.condition = condition->name;
    told.share = judgement.share.nominal;
    if (judgement.worst)
      told.camera = judgement.worst->camera, told.light = judgement.worst->light,
      told.worst_at = judgement.worst->at_site;
    if (worst && !worse(judgement, *worst)) continue;
    verdict.samples = samples;
    worst = std::move(judgement);
  }
  if (!worst) return std::nullopt;
  verdict.answer = worst->answer;
  verdict.share = worst->share;
  verdict.sampling_error = worst->sampling_error;
  verdict.worst = worst->worst;
  verdict.settle = worst->settle;
  if (verdict.answer != Answer::kMet && verdict.worst) verdict.limit = verdict.worst->limit;
  return verdict;
}

std::vector<Trial> trials_of(const LitProject& lit, const Need& need, const std::vector<std::string>& conditions) {
  std::vector<Trial> trials;
  for (const site::Condition* condition : lit.conditions_of(need, conditions))
    trials.emplace_back(lit.moment(*condition), need, lit.in(*condition).nominal.stations, kRemedySamples);
  return trials;
}

void add_remedies(const LitProject& lit, const std::vector<const Need*>& needs,
                  const std::vector<std::string>& conditions, const Progress& progress,
                  std::vector<std::optional<Verdict>>& verdicts) {
  const Bystanders bystanders{lit, conditions};
  for_each_need(needs.size(), progress, "looking for remedies", [&](size_t i) {
    if (!verdicts[i] || verdicts[i]->answer == Answer::kMet) return;
    const auto spoils = [&](size_t camera, const Station& other) {
      return bystanders.spoiled_by(*needs[i], camera, other);
    };
    verdicts[i]->remedy = find_remedy(lit.project(), trials_of(lit, *needs[i], conditions), spoils, progress);
  });
}

}  // namespace

std::string_view in_words(Answer answer) {
  constexpr std::array<std::string_view, 3> kWords{"met", "marginal", "missed"};
  return kWords.at(static_cast<size_t>(answer));
}

CheckResult check(const Project& project, const CheckOptions& options, const Progress& progress) {
  const LitProject lit{project};
  std::vector<const Need*> needs;
  for (const Need& need : project.needs)
    if (asked_for(options.needs, need.name)) needs.push_back(&need);
  std::vector<std::optional<Verdict>> verdicts(needs.size());
  for_each_need(needs.size(), progress.part(0, 0.5), "judging needs",
                [&](size_t i) { verdicts[i] = judged(lit, *needs[i], options.conditions); });
  if (options.remedies) add_remedies(lit, needs, options.conditions, progress.part(0.5, 0.95), verdicts);
  CheckResult result;
  for (auto& verdict : verdicts)
    if (verdict) result.verdicts.push_back(std::move(*verdict));
  if (options.surroundings) add_surroundings(lit, options.conditions, progress, result);
  result.stopped = progress.stopped();
  progress.tell(1, "done");
  return result;
}

}  // namespace sightfall::need
