// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/bystanders.h"

#include <tbb/parallel_for.h>

#include <algorithm>

namespace sightfall::need {
namespace {

/// From few samples on.
Answer quick_answer(Ladder& ladder, const Replaced* one) {
  int samples = kRemedySamples;
  return ladder.judge(samples, one, Telling::kAnswer).answer;
}

}  // namespace

Bystanders::Bystanders(const LitProject& lit, const std::vector<std::string>& conditions)
    : lit_{&lit}, needs_(lit.project().needs.size()) {
  tbb::parallel_for(size_t{0}, needs_.size(), [&](size_t i) {
    const Need& need = lit.project().needs[i];
    Bystander& one = needs_[i];
    one.conditions = lit.conditions_of(need, conditions);
    for (const site::Condition* condition : one.conditions) {
      one.ladders.emplace_back(lit.moment(*condition), need, lit.in(*condition).nominal.stations);
      one.answer = std::max(one.answer, quick_answer(one.ladders.back(), nullptr));
    }
  });
}

std::vector<std::string> Bystanders::spoiled_by(const Need& mended, size_t camera, const Station& other) const {
  const std::vector<Need>& needs = lit_->project().needs;
  std::vector<std::optional<Replaced>> in_light(lit_->project().conditions.size());
  std::vector<std::string> spoiled;
  for (size_t i = 0; i < needs.size(); ++i) {
    Bystander& one = needs_[i];
    if (&needs[i] == &mended || one.answer == Answer::kMissed) continue;
    Answer after = Answer::kMet;
    for (size_t k = 0; k < one.ladders.size() && after <= one.answer; ++k) {
      std::optional<Replaced>& replaced = in_light[lit_->index_of(*one.conditions[k])];
      if (!replaced) replaced = one.ladders[k].in_light({camera, other});
      const std::lock_guard lock{one.judging};
      after = std::max(after, quick_answer(one.ladders[k], &*replaced));
    }
    if (after > one.answer) spoiled.push_back(needs[i].name);
  }
  return spoiled;
}

}  // namespace sightfall::need
