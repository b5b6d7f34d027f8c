// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/check.h"

#include <array>

#include "need/bystanders.h"
#include "need/in_parallel.h"
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
    Standing standing = Ladders{lit, need, *condition}.judge();
    Judgement& judgement = standing.judgement;
    ConditionShare& told = verdict.conditions.emplace_back();
    told.condition = condition->name;
    told.share = judgement.share.nominal;
    if (judgement.worst) {
      told.camera = judgement.worst->camera;
      told.light = judgement.worst->light;
      told.worst_at = judgement.worst->at_site;
    }
    if (worst && !worse(judgement, *worst)) continue;
    verdict.samples = standing.samples;
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

}  // namespace

std::string_view in_words(Answer answer) {
  constexpr std::array<std::string_view, 3> kWords{"met", "marginal", "missed"};
  return kWords.at(static_cast<size_t>(answer));
}

CheckResult check(const Project& project, const CheckOptions& options, const Progress& progress) {
  return check(LitProject{project}, options, progress);
}

CheckResult check(const LitProject& lit, const CheckOptions& options, const Progress& progress) {
  for (const site::Condition& condition : lit.project().conditions)
    if (asked_for(options.conditions, condition.name)) lit.in(condition);
  std::vector<const Need*> needs;
  for (const Need& need : lit.project().needs)
    if (asked_for(options.needs, need.name)) needs.push_back(&need);
  std::vector<std::optional<Verdict>> verdicts(needs.size());
  const double judged_by = options.remedies ? 0.35 : 0.85, told_by = options.remedies ? 0.4 : 1;
  in_parallel(needs.size(), progress.part(0, judged_by), "judging needs",
              [&](size_t i) { verdicts[i] = judged(lit, *needs[i], options.conditions); });
  CheckResult result;
  for (auto& verdict : verdicts)
    if (verdict) result.verdicts.push_back(std::move(*verdict));
  if (options.surroundings) add_surroundings(lit, options.conditions, progress.part(judged_by, told_by), result);
  if (options.remedies) add_remedies(lit, options.conditions, result, progress.part(told_by, 1));
  result.stopped = progress.stopped();
  progress.tell(1, "done");
  return result;
}

void add_remedies(const LitProject& lit, const std::vector<std::string>& conditions, CheckResult& result,
                  const Progress& progress) {
  const Bystanders bystanders{lit, conditions};
  in_parallel(result.verdicts.size(), progress, "looking for remedies", [&](size_t i) {
    Verdict& verdict = result.verdicts[i];
    if (verdict.answer == Answer::kMet) return;
    const Need& need = the_named(lit.project().needs, verdict.need);
    const auto spoils = [&](size_t camera, const Station& other) { return bystanders.spoiled_by(need, camera, other); };
    verdict.remedy = find_remedy(lit.project(), trials_of(lit, need, conditions), spoils, progress);
  });
  result.stopped = progress.stopped();
}

}  // namespace sightfall::need
