// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/trial.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "base/check.h"
#include "need/frame.h"

namespace sightfall::need {
namespace {

using detail::Input;
using detail::Limit;

double largest(const Ranged<double>& of) { return std::max({of.low, of.nominal, of.high}); }

/// Samples that reach what is asked, in their order; `turns` is how often a lane goes from reached to not or back.
struct Tally {
  int reached = 0, turns = 0, lane = -1;
  bool last = false;

  void add(bool now, int in_lane) {
    reached += now ? 1 : 0;
    turns += in_lane == lane && now != last ? 1 : 0;
    lane = in_lane;
    last = now;
  }
};

}  // namespace

Answer answer_for(const Ranged<double>& share, const Ranged<double>& error, double required) {
  if (share.low >= required && (share.low - error.low >= required || share.low >= 1)) return Answer::kMet;
  if (share.high < required && (share.high + error.high < required || share.high <= 0)) return Answer::kMissed;
  return Answer::kMarginal;
}

Required required_of(const Project& project, const Need& need) {
  const detail::Level* level = project.settings.levels.find(need.level);
  CHECK_EQ(level != nullptr, true);  // the reader refuses a level that the table does not have
  return {level->least.si(), need.detector_height ? need.detector_height->si() : 0,
          height_of(need.subject, project.settings.typical).value};
}

double share_error(double share, int count) {
  constexpr double kNinetyNine = 2.576;  // normal quantile of a two-sided 99 % interval
  constexpr double kNone = 3;  // rule of three: none reached, or none missed, does not say that there are none
  return std::max(kNinetyNine * std::sqrt(share * (1 - share) / count) + 1.0 / count, kNone / count);
}

double way_error(int turns, int lanes, int count) { return (0.75 * turns + lanes) / count; }

Trial::Trial(const Moment& moment, const Need& need, const std::vector<Station>& stations, int samples)
    : need_{&need},
      moment_{moment},
      required_{required_of(*moment.project, need)},
      samples_{samples_of(*moment.project, need, samples)},
      lights_{std::make_shared<const std::vector<PlaceLight>>(light_on(*moment.lighting, samples_))} {
  seats_.reserve(stations.size());
  for (const Station& station : stations) seats_.push_back(seat_of(station, unlit(station), nullptr));
}

std::vector<SampleView> Trial::unlit(const Station& station) const {
  return unlit_view_of(station, *moment_.lighting, *need_, samples_);
}

/// What is still to be told is what each sample that it sees counts.
Trial::Seat Trial::seat_with(const Station& station, std::vector<SampleView> unlit) const {
  Seat seat;
  seat.gates.reserve(unlit.size());
  for (const SampleView& view : unlit) seat.gates.push_back(view.gate);
  if (std::find(seat.gates.begin(), seat.gates.end(), Limit::kNone) == seat.gates.end()) return seat;
  seat.station = station;
  seat.views = std::move(unlit);
  seat.nominal.resize(samples_.size());
  detail::RangedInputs inputs = subject_inputs(station, *need_, moment_.project->settings.typical);
  const site::Place& place = the_named(moment_.project->site.places, need_->place);
  if (!need_->speed && place.speed)
    inputs[static_cast<size_t>(Input::kSpeed)] = Ranged<double>::exact(place.speed->si());
  seat.values.emplace(inputs);
  return seat;
}

std::shared_ptr<const Trial::Seat> Trial::seat_of(const Station& in_light, std::vector<SampleView> unlit,
                                                  std::shared_ptr<const Seat> like) const {
  if (need_->colour && in_light.monochrome)
    for (SampleView& view : unlit)
      if (view.gate == Limit::kNone) view.gate = Limit::kColour;
  Seat seat = seat_with(in_light, std::move(unlit));
  if (!seat.sees()) return std::make_shared<const Seat>(std::move(seat));
  if (like != nullptr && like->sees() && like->station.constants == seat.station.constants &&
      like->values == seat.values)
    seat.like = std::move(like);
  seat.reaches.resize(samples_.size());
  if (need_->once_a_passage)
    for (size_t i = 0; i < samples_.size(); ++i) {
      if (!seat.sees(i)) continue;
      nominal_of(seat, i);  // which puts it in light
      const detail::Exposed exposed =
          detail::exposed(seat.station.constants, seat.views[i].seen, seat.values->nominal());
      seat.longest_exposure = std::max(seat.longest_exposure, exposed.time);
    }
  return std::make_shared<const Seat>(std::move(seat));
}

/// A camera that delivers all that it shows.
std::shared_ptr<const Trial::Seat> Trial::unlit_seat_of(const Station& station, std::vector<SampleView> unlit) const {
  Seat seat = seat_with(station, std::move(unlit));
  if (!seat.sees()) return std::make_shared<const Seat>(std::move(seat));
  for (size_t i = 0; i < samples_.size(); ++i)
    if (seat.sees(i)) seat.nominal[i] = most_counted(seat, i);
  return std::make_shared<const Seat>(std::move(seat));
}

/// What counts against the level: the delivered detail, or less where a detector finds the subject too small.
double Trial::counted(const Seat& seat, size_t sample, double delivered, double height, double factor) const {
  if (required_.detector_px <= 0) return delivered;
  const double tall = seat.views[sample].height_density * factor * height;
  return std::min(delivered, required_.density * tall / required_.detector_px);
}

/// With all detail that the density allows.
double Trial::most_counted(const Seat& seat, size_t sample) const {
  const double factor = seat.values->nominal()[Input::kDensityFactor];
  return counted(seat, sample, seat.views[sample].seen.density * factor, required_.height.nominal, factor);
}

/// What counts against the level; 0 where it is not seen.
double Trial::nominal_of(const Seat& seat, size_t sample) const {
  if (!seat.sees(sample)) return 0;
  std::optional<double>& kept = seat.nominal[sample];
  if (kept) return *kept;
  SampleView& view = seat.views[sample];
  put_in_light(seat.station, *moment_.lighting, *need_, samples_[sample], (*lights_)[sample], view);
  const Seat* like = seat.like.get();
  if (like != nullptr && like->sees(sample) && like->nominal[sample] && like->views[sample] == view) {
    seat.reaches[sample] = like->reaches[sample];
    return *(kept = like->nominal[sample]);
  }
  const detail::Values& values = seat.values->nominal();
  kept = counted(seat, sample, detail::delivered(seat.station.constants, view.seen, values), required_.height.nominal,
                 values[Input::kDensityFactor]);
  return *kept;
}

/// Of a view that is in light.
Trial::Counted Trial::counted_range(const Seat& seat, size_t sample) const {
  const detail::DeliveredRange range =
      detail::delivered_range(seat.station.constants, seat.views[sample].seen, *seat.values);
  const Ranged<double>& factor = seat.values->of(Input::kDensityFactor);
  return {{counted(seat, sample, range.value.low, required_.height.low, factor.low), nominal_of(seat, sample),
           counted(seat, sample, range.value.high, required_.height.high, factor.high)},
          range.widest};
}

/// Whether what one camera gives reaches what is asked at the low, nominal and high end of what is known.
Ranged<bool> Trial::reached_by(const Seat& seat, size_t sample) const {
  if (!seat.sees(sample)) return {};
  const bool nominally = nominal_of(seat, sample) >= required_.density;  // which puts it in light
  std::optional<Ranged<bool>>& kept = seat.reaches[sample];
  if (kept) return *kept;
  const Ranged<double>& factor = seat.values->of(Input::kDensityFactor);
  const auto tall_enough = [&](double height, double by) {
    return counted(seat, sample, std::numeric_limits<double>::infinity(), height, by) >= required_.density;
  };
  kept = Ranged<bool>{};
  if (!tall_enough(required_.height.high, factor.high)) return *kept;
  kept = detail::delivers(seat.station.constants, seat.views[sample].seen, *seat.values, required_.density);
  kept->low = kept->low && tall_enough(required_.height.low, factor.low);
  kept->nominal = nominally;
  return *kept;
}

const Trial::Seat* Trial::best_at(size_t sample) const {
  const Seat* best = nullptr;
  for (const auto& seat : seats_)
    if (seat->sees(sample) && (best == nullptr || nominal_of(*seat, sample) > nominal_of(*best, sample)))
      best = seat.get();
  return best;
}

/// By any camera, not only by the one that is best nominally; but that one is asked first, for it mostly does.
Ranged<bool> Trial::reached_at(size_t sample) const {
  const Seat* best = best_at(sample);
  if (best == nullptr) return {};
  Ranged<bool> reached = reached_by(*best, sample);
  for (const auto& seat : seats_) {
    if (reached.low) break;
    if (seat.get() == best) continue;
    const Ranged<bool> by_one = reached_by(*seat, sample);
    reached = {reached.low || by_one.low, reached.nominal || by_one.nominal, reached.high || by_one.high};
  }
  return reached;
}

/// By any camera, one that is known to do so before others.
bool Trial::reached_nominally(size_t sample) const {
  const auto enough = [&](double counted) { return counted >= required_.density; };
  const auto any = [&](const auto& is_so) {
    return std::any_of(seats_.begin(), seats_.end(),
                       [&](const auto& seat) { return seat->sees(sample) && is_so(*seat); });
  };
  return any([&](const Seat& seat) { return seat.nominal[sample] && enough(*seat.nominal[sample]); }) ||
         any([&](const Seat& seat) { return enough(most_counted(seat, sample)) && enough(nominal_of(seat, sample)); });
}

double Trial::share_of_samples(double at_least) const {
  const auto all = static_cast<double>(samples_.size());
  double left = all;  // those that are reached or not looked at
  for (size_t i = 0; i < samples_.size(); ++i) {
    left -= reached_nominally(i) ? 0 : 1;
    if (left / all < at_least) break;
  }
  return left / all;
}

double Trial::nominal_share(double at_least) const {
  return need_->once_a_passage ? share_of_passages() : share_of_samples(at_least);
}

Trial Trial::with(size_t camera, std::shared_ptr<const Seat> seat) const {
  Trial changed = *this;
  changed.seats_[camera] = std::move(seat);
  return changed;
}

Judgement Trial::judge_with(size_t camera, const Station& other, Telling telling) const {
  return with(camera, seat_of(other, unlit(other), seats_[camera])).judge(telling);
}

/// Where the need is met nominally, the samples that are reached faintest are asked first: they decide.
Answer Trial::answer() const {
  const double required = need_->share;
  if (need_->once_a_passage || share_of_samples(required) < required) return judge(Telling::kAnswer).answer;
  std::vector<std::pair<double, size_t>> faintest_first;
  faintest_first.reserve(samples_.size());
  for (size_t i = 0; i < samples_.size(); ++i) {
    const Seat* seat = best_at(i);
    faintest_first.emplace_back(seat != nullptr ? nominal_of(*seat, i) : 0, i);
  }
  std::sort(faintest_first.begin(), faintest_first.end());
  const auto all = static_cast<double>(samples_.size());
  double left = all;  // those that are surely reached or not looked at
  for (const auto& [nominal, sample] : faintest_first) {
    left -= reached_at(sample).low ? 0 : 1;
    if (left / all < required) return Answer::kMarginal;
  }
  return judge(Telling::kAnswer).answer;
}

std::shared_ptr<Replacing::Sights> Replacing::sights_of(const Trial& trial, const Station& other,
                                                        const std::vector<Replacing>& in_others) {
  const auto alike = std::find_if(in_others.begin(), in_others.end(), [&](const Replacing& one) {
    return &one.trial_->moment_.lighting->scene() == &trial.moment_.lighting->scene() &&
           one.trial_->sample_count() == trial.sample_count();
  });
  if (alike != in_others.end()) return alike->sights_;
  return std::make_shared<Sights>(Sights{trial.unlit(other), nullptr});
}

Replacing::Replacing(const Trial& trial, size_t camera, Station other, const std::vector<Replacing>& in_others)
    : trial_{&trial}, camera_{camera}, other_{std::move(other)}, sights_{sights_of(trial, other_, in_others)} {}

double Replacing::most_share(double at_least) const {
  return trial_->with(camera_, trial_->unlit_seat_of(other_, sights_->unlit)).nominal_share(at_least);
}

const Trial& Replacing::in_light() {
  if (!in_light_) {
    const Lighting& lighting = *trial_->moment_.lighting;
    if (!sights_->frame) sights_->frame = std::make_shared<const MeterFrame>(other_, lighting);
    const Station lit = in_condition(other_, Meter{sights_->frame, lighting}, lighting);
    in_light_ = trial_->with(camera_, trial_->seat_of(lit, sights_->unlit, trial_->seats_[camera_]));
  }
  return *in_light_;
}

Judgement Trial::judge(Telling telling) const {
  return need_->once_a_passage ? judge_passages(telling) : judge_samples(telling);
}

Judgement Trial::judge_samples(Telling telling) const {
  Tally low, nominal, high;
  std::vector<size_t> open;
  for (size_t i = 0; i < samples_.size(); ++i) {
    const Ranged<bool> reached = reached_at(i);
    low.add(reached.low, samples_[i].passage);
    nominal.add(reached.nominal, samples_[i].passage);
    high.add(reached.high, samples_[i].passage);
    if (!reached.low && reached.high) open.push_back(i);
  }
  const int count = sample_count();
  const auto share_of = [&](const Tally& tally) { return static_cast<double>(tally.reached) / count; };
  const bool along_a_way = samples_.front().step > 0;
  const auto error_of = [&](const Tally& tally) {
    const double even = along_a_way ? way_error(tally.turns, passage_count(), count) : 0;
    return std::max(share_error(share_of(tally), count), even);
  };
  Judgement judgement;
  judgement.share = {share_of(low), share_of(nominal), share_of(high)};
  const Ranged<double> error{error_of(low), error_of(nominal), error_of(high)};
  judgement.sampling_error = largest(error);
  judgement.answer = answer_for(judgement.share, error, need_->share);
  judgement.only_sampling =
      judgement.answer == Answer::kMarginal && answer_for(judgement.share, {}, need_->share) != Answer::kMarginal;
  if (telling == Telling::kAnswer) return judgement;
  judgement.worst = place_at(worst_sample());
  if (judgement.answer == Answer::kMarginal)
    judgement.settle = judgement.only_sampling ? kWithinSampling : words_to_settle(open);
  return judgement;
}

Limit Trial::unseen_because(size_t sample) const {
  Limit because = Limit::kOutOfView;
  for (const auto& seat : seats_) {
    const Limit gate = seat->gates[sample];
    // The camera that comes nearest to seeing it tells: turned away is nearer than hidden, hidden than blacked out,
    // blacked out than out of view.
    if (gate == Limit::kAngle || gate == Limit::kColour) return gate;
    if (gate == Limit::kOcclusion || (gate == Limit::kMask && because == Limit::kOutOfView)) because = gate;
  }
  return because;
}

/// Of samples that no camera sees, the one in the middle of those unseen for the commonest reason; else the faintest.
size_t Trial::worst_sample() const {
  std::vector<size_t> hidden, outside, turned, grey;
  size_t faintest = 0;
  double least = std::numeric_limits<double>::infinity();
  for (size_t i = 0; i < samples_.size(); ++i) {
    if (const Seat* best = best_at(i)) {
      if (const double here = nominal_of(*best, i); here < least) faintest = i, least = here;
      continue;
    }
    const Limit because = unseen_because(i);
    (because == Limit::kAngle       ? turned
     : because == Limit::kColour    ? grey
     : because == Limit::kOcclusion ? hidden
                                    : outside)
        .push_back(i);
  }
  const auto* most =
      std::max({&outside, &hidden, &turned, &grey}, [](auto* a, auto* b) { return a->size() < b->size(); });
  return most->empty() ? faintest : middle_of(*most);
}

size_t Trial::middle_of(const std::vector<size_t>& indices) const {
  geom::SitePoint sum;
  for (const size_t i : indices) sum = sum + samples_[i].at_site;
  const geom::SitePoint middle = (1.0 / static_cast<double>(indices.size())) * sum;
  return *std::min_element(indices.begin(), indices.end(), [&](size_t a, size_t b) {
    return norm(samples_[a].at_site - middle) < norm(samples_[b].at_site - middle);
  });
}

Limit Trial::limit_at(size_t sample) const {
  const Seat* seat = best_at(sample);
  if (seat == nullptr) return unseen_because(sample);
  const detail::Values& values = seat->values->nominal();
  const detail::Seen& seen = seat->views[sample].seen;
  // Where the picture is too small for the detector, sharpness is not what is wanting.
  if (nominal_of(*seat, sample) < detail::delivered(seat->station.constants, seen, values)) return Limit::kPixels;
  return detail::limit_of(seat->station.constants, seen, values);
}

WorstPlace Trial::place_at(size_t sample) const {
  WorstPlace place;
  place.at_site = samples_[sample].at_site;
  place.condition = moment_.condition;
  place.limit = limit_at(sample);
  const Seat* seat = best_at(sample);
  if (seat == nullptr) return place;
  const detail::Values& values = seat->values->nominal();
  const Ranged<double> range = counted_range(*seat, sample).value;
  place.camera = seat->station.name;
  place.density = PixelDensity{seat->views[sample].seen.density * values[Input::kDensityFactor]};
  place.delivered = {PixelDensity{range.low}, PixelDensity{range.nominal}, PixelDensity{range.high}};
  const double power = detail::exposed(seat->station.constants, seat->views[sample].seen, values).power;
  place.light = light_shares(seat->station, *moment_.lighting, (*lights_)[sample],
                             posed_at(seat->station, *moment_.lighting, *need_, samples_[sample]), power);
  return place;
}

/// The input that widens the answer most at most of the samples that are open, and the camera whose it is. Some of
/// them, evenly taken, vote for all.
std::string Trial::words_to_settle(const std::vector<size_t>& open) const {
  Votes votes;
  votes.fill(std::vector<int>(seats_.size(), 0));
  constexpr size_t kVoters = 64;
  const size_t step = 1 + open.size() / kVoters;
  for (size_t i = 0; i < open.size(); i += step) {
    const size_t sample = open[i];
    const Seat* best = best_at(sample);
    const auto at = std::find_if(seats_.begin(), seats_.end(), [&](const auto& one) { return one.get() == best; });
    const Input widest = counted_range(*best, sample).widest;
    ++votes[static_cast<size_t>(widest)][static_cast<size_t>(at - seats_.begin())];
  }
  const auto sum = [](const std::vector<int>& of) { return std::accumulate(of.begin(), of.end(), 0); };
  const auto most =
      std::max_element(votes.begin(), votes.end(), [&](const auto& a, const auto& b) { return sum(a) < sum(b); });
  if (sum(*most) == 0) return kWithinSampling;
  const auto input = static_cast<Input>(most - votes.begin());
  const auto seat = static_cast<size_t>(std::max_element(most->begin(), most->end()) - most->begin());
  const detail::TypicalValue& entry =
      entry_of(input, seats_[seat]->station, need_->subject, moment_.project->settings.typical);
  return fmt::format("{} ({:g} to {:g}{}): {}", entry.meaning, entry.value.low, entry.value.high,
                     entry.unit == "1" ? "" : " " + entry.unit, entry.settle);
}

geom::SitePoint Trial::shortfall_middle() const {
  std::vector<size_t> low, all;
  for (size_t i = 0; i < samples_.size(); ++i) {
    all.push_back(i);
    const Seat* seat = best_at(i);
    if (seat == nullptr || nominal_of(*seat, i) < required_.density) low.push_back(i);
  }
  return samples_[middle_of(low.empty() ? all : low)].at_site;
}

}  // namespace sightfall::need
