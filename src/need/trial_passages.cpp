// SPDX-License-Identifier: GPL-3.0-or-later
// Trials of a need that asks for frames once a passage.
#include <algorithm>
#include <cmath>
#include <limits>

#include "need/trial.h"

namespace sightfall::need {
namespace {

using detail::Input;
using detail::Limit;

/// What stands still gives frames without end; a crawl keeps the count finite.
Ranged<double> moving(const Ranged<double>& speed) {
  constexpr double kCrawl = 1e-6;  // m/s
  return {std::max(speed.low, kCrawl), std::max(speed.nominal, kCrawl), std::max(speed.high, kCrawl)};
}

/// Stretches of a way, sample by sample in their order.
struct Stretches {
  double way = 0, open = 0;  // m within them; m that their ends may add or take
  bool first = true, within = false;

  void add(bool reached, double step) {
    way += reached ? step : 0;
    open += !first && reached != within ? step / 2 : 0;
    first = false;
    within = reached;
  }
};

}  // namespace

/// Frames at the level that all cameras together take of one passage. Each end of a stretch is known to half a step
/// between samples to either side, and a stretch or a gap shorter than a step may be missed.
Trial::Frames Trial::frames(int passage, bool ranged) const {
  Frames total;
  for (const auto& one : seats_) {
    const Seat& seat = *one;
    if (!seat.sees()) continue;
    const Ranged<double> speed = moving(seat.values->of(Input::kSpeed));
    Stretches low, nominal, high;
    double missed = 0;  // m that may lie between two samples of what the camera sees
    for (size_t i = 0; i < samples_.size(); ++i) {
      if (samples_[i].passage != passage) continue;
      if (seat.sees(i)) missed = samples_[i].step;
      const Ranged<bool> reached =
          ranged ? reached_by(seat, i) : Ranged<bool>::exact(nominal_of(seat, i) >= required_.density);
      low.add(reached.low, samples_[i].step);
      nominal.add(reached.nominal, samples_[i].step);
      high.add(reached.high, samples_[i].step);
    }
    const double rate = std::min(seat.station.frame_rate, 1 / seat.longest_exposure);
    total.count.low += rate * low.way / speed.high;
    total.open.low += rate * (low.open + missed) / speed.high;
    total.surely += rate * std::max(0.0, low.way - low.open - missed) / speed.high;
    total.count.nominal += rate * nominal.way / speed.nominal;
    total.open.nominal += rate * (nominal.open + missed) / speed.nominal;
    total.count.high += rate * high.way / speed.low;
    total.open.high += rate * (high.open + missed) / speed.low;
  }
  return total;
}

double Trial::share_of_passages() const {
  int enough = 0;
  for (int passage = 0; passage < passage_count(); ++passage)
    enough += frames(passage, false).count.nominal >= *need_->once_a_passage ? 1 : 0;
  return static_cast<double>(enough) / passage_count();
}

Judgement Trial::judge_passages(Telling telling) const {
  Ranged<double> surely, open,
      sharply;  // passages with enough frames; that may change; with the samples taken as exact
  int worst_passage = 0;
  Ranged<double> fewest = Ranged<double>::exact(std::numeric_limits<double>::infinity());
  const int asked = *need_->once_a_passage;
  // Twice as many samples halve a step, which moves an end of the count by at most twice what was open.
  const auto may_change = [&](double count, double by) { return by > 0 && std::abs(count - asked) <= 2 * by ? 1 : 0; };
  const auto enough = [&](double count) { return count >= asked ? 1 : 0; };
  for (int passage = 0; passage < passage_count(); ++passage) {
    const Frames got = frames(passage, true);
    const Ranged<double> ends{got.surely, got.count.nominal, got.count.high + got.open.high};
    surely = {surely.low + enough(ends.low), surely.nominal + enough(ends.nominal), surely.high + enough(ends.high)};
    sharply = {sharply.low + enough(got.count.low), 0, sharply.high + enough(got.count.high)};
    open = {open.low + may_change(ends.low, got.open.low), open.nominal + may_change(ends.nominal, got.open.nominal),
            open.high + may_change(ends.high, got.open.high)};
    if (ends.nominal < fewest.nominal) {
      fewest = ends;
      worst_passage = passage;
    }
  }
  Judgement judgement;
  const auto share_of = [&](const Ranged<double>& passages) {
    const double all = passage_count();
    return Ranged<double>{passages.low / all, passages.nominal / all, passages.high / all};
  };
  judgement.share = share_of(surely);
  judgement.sampling_error = std::max({open.low, open.nominal, open.high}) / passage_count();
  judgement.answer = answer_for(judgement.share, {}, need_->share);
  judgement.only_sampling =
      judgement.answer == Answer::kMarginal && answer_for(share_of(sharply), {}, need_->share) != Answer::kMarginal;
  if (telling == Telling::kAll) tell_worst_passage(judgement, worst_passage, fewest);
  return judgement;
}

/// Where along the passage it is seen best. If that is not good enough, what holds it back there is what to change;
/// else what ends the stretch around it.
void Trial::tell_worst_passage(Judgement& judgement, int passage, const Ranged<double>& frames) const {
  const size_t best = best_moment(passage);
  judgement.worst = place_at(best);
  judgement.worst->frames = PassageFrames{frames, *need_->once_a_passage};
  if (reached_nominally(best)) judgement.worst->limit = limit_beside(best);
  if (judgement.answer != Answer::kMarginal) return;
  judgement.settle = kWithinSampling;
  const Seat* seat = best_at(best);
  if (seat == nullptr || judgement.only_sampling) return;
  judgement.settle = words_to_settle({best});
}

size_t Trial::best_moment(int passage) const {
  size_t best = 0;
  double most = -1;
  for (size_t i = 0; i < samples_.size(); ++i) {
    if (samples_[i].passage != passage) continue;
    const Seat* seat = best_at(i);
    const double here = seat != nullptr ? nominal_of(*seat, i) : 0;
    if (here > most) {
      most = here;
      best = i;
    }
  }
  return best;
}

/// Of the nearest moment of the same passage that is not good enough, and that has not pixels enough where pixels are
/// what holds it back; none when all are good enough.
Limit Trial::limit_beside(size_t moment) const {
  std::vector<size_t> short_of;
  for (size_t i = 0; i < samples_.size(); ++i)
    if (samples_[i].passage == samples_[moment].passage && !reached_nominally(i)) short_of.push_back(i);
  const auto apart = [&](size_t i) { return norm(samples_[i].at_site - samples_[moment].at_site); };
  std::stable_sort(short_of.begin(), short_of.end(), [&](size_t a, size_t b) { return apart(a) < apart(b); });
  for (const size_t i : short_of) {
    const Limit limit = limit_at(i);
    if (limit != Limit::kPixels || most_counted(*best_at(i), i) < required_.density) return limit;
  }
  return short_of.empty() ? Limit::kNone : Limit::kPixels;
}

}  // namespace sightfall::need
