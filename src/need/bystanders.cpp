// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/bystanders.h"

#include <tbb/parallel_for.h>

#include <algorithm>

#include "need/frame.h"
#include "need/ladder.h"

namespace sightfall::need {

Bystanders::Bystanders(const LitProject& lit, const std::vector<std::string>& conditions)
    : lit_{&lit}, conditions_{conditions}, answers_(lit.project().needs.size()) {
  for (const site::Condition& condition : lit.project().conditions)
    stations_in_.push_back(lit.in(condition).nominal.stations);
  tbb::parallel_for(size_t{0}, answers_.size(),
                    [&](size_t i) { answers_[i] = quick_answer(lit.project().needs[i], stations_in_); });
}

/// From few samples on, in the worst condition.
Answer Bystanders::quick_answer(const Need& need, const StationsIn& stations) const {
  Answer worst = Answer::kMet;
  for (const site::Condition* condition : lit_->conditions_of(need, conditions_)) {
    int samples = kRemedySamples;
    Ladder ladder{lit_->moment(*condition), need, stations[lit_->index_of(*condition)]};
    worst = std::max(worst, ladder.judge(samples).answer);
  }
  return worst;
}

std::vector<std::string> Bystanders::spoiled_by(const Need& mended, size_t camera, const Station& other) const {
  const Project& project = lit_->project();
  StationsIn changed = stations_in_;
  for (size_t i = 0; i < changed.size(); ++i)
    changed[i][camera] = in_condition(other, lit_->in(project.conditions[i]).nominal.lighting);
  std::vector<std::string> spoiled;
  for (size_t i = 0; i < answers_.size(); ++i) {
    const Need& need = project.needs[i];
    if (&need != &mended && answers_[i] != Answer::kMissed && quick_answer(need, changed) > answers_[i])
      spoiled.push_back(need.name);
  }
  return spoiled;
}

}  // namespace sightfall::need
