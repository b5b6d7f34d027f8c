// SPDX-License-Identifier: GPL-3.0-or-later
// One need in one condition, tried on its samples: every sample takes the best camera, and the share is held against
// what is asked.
//   Model    docs/models.md section 7. The 90 % range combines inputs by root-sum-square of logarithms. The share's
//            sampling error is stated: it moves by less when the samples double.
//   Checked  trial_test.cpp, check_test.cpp, passages_test.cpp; tests/physics/verdict_laws_test.cpp
#pragma once
#include <array>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "need/check.h"
#include "need/meter.h"
#include "need/samples.h"
#include "need/station.h"
#include "need/view.h"

namespace sightfall::need {

/// What came of a trial.
struct Judgement {
  Answer answer = Answer::kMissed;
  Ranged<double> share;
  double sampling_error = 0;   ///< see Verdict
  bool only_sampling = false;  ///< marginal, and finer sampling alone would settle it
  std::optional<WorstPlace> worst;
  std::string settle;
};

/// How much of a judgement is wanted: the worst place and what settles it are dear.
enum class Telling { kAnswer, kAll };

/// A moment on the site: what all trials in one condition share.
struct Moment {
  const Project* project = nullptr;
  const Lighting* lighting = nullptr;
  std::string condition;
};

/// What is asked of each sample.
struct Required {
  double density = 0;      ///< px/m
  double detector_px = 0;  ///< least height in the picture; 0: none asked
  Ranged<double> height;   ///< of the subject, m
};

class Trial {
 public:
  /// `stations` are in the moment's light already (frame.h: in_condition), which costs a frame each: many trials share
  /// a moment.
  Trial(const Moment& moment, const Need& need, const std::vector<Station>& stations, int samples);

  /// The answer with its ranges, and where all is wanted the worst place with its limit and what settles it.
  Judgement judge(Telling telling = Telling::kAll) const;

  /// The answer that judge() gives, in less time where the range leaves it open.
  Answer answer() const;

  /// The nominal share; one below `at_least` is told by a bound that is below it, too.
  double nominal_share(double at_least = 0) const;

  /// With one camera replaced by a station that is in the moment's light, too.
  Judgement judge_with(size_t camera, const Station& other, Telling telling = Telling::kAll) const;

  /// The middle of the samples that the best camera leaves short; of all samples when none is short.
  geom::SitePoint shortfall_middle() const;

  const Need& need() const { return *need_; }
  int sample_count() const { return static_cast<int>(samples_.size()); }

 private:
  /// What counts against the level, with its range, and the input that widens it most.
  struct Counted {
    Ranged<double> value;
    detail::Input widest = detail::Input::kThreshold;
  };

  /// One camera's part; of one that sees no sample, its gates alone, for of a thousand cameras most do not.
  struct Seat {
    std::vector<detail::Limit> gates;  ///< by sample, as SampleView's
    Station station;                   ///< in the condition
    std::optional<detail::RangedValues> values;
    double longest_exposure = kShortest;  ///< s, nominal: a slow shutter costs frames
    std::shared_ptr<const Seat> like;     ///< the same but for its views, as with another mask; or null

    // By sample, worked out when first asked for, and shared by trials with another camera replaced: these are the
    // dearest parts of a trial. They are asked on one thread.
    mutable std::vector<SampleView> views;               ///< in light as soon as `nominal` is known
    mutable std::vector<std::optional<double>> nominal;  ///< what counts against the level, px/m
    mutable std::vector<std::optional<Ranged<bool>>> reaches;

    static constexpr double kShortest = 1e-9;
    bool sees() const { return !views.empty(); }
    bool sees(size_t sample) const { return gates[sample] == detail::Limit::kNone; }
  };

  /// For each input and each seat, the samples that it alone would settle most.
  using Votes = std::array<std::vector<int>, detail::kInputCount>;

  /// Frames of one passage; `open` is how many of them one step between samples may add or take.
  struct Frames {
    Ranged<double> count, open;
    double surely = 0;  ///< at the low end, whatever lies between the samples: what one camera leaves open does not
                        ///< take from what another one gives
  };

  std::vector<SampleView> unlit(const Station& station) const;
  Seat seat_with(const Station& station, std::vector<SampleView> unlit) const;
  std::shared_ptr<const Seat> seat_of(const Station& in_light, std::vector<SampleView> unlit,
                                      std::shared_ptr<const Seat> like) const;
  std::shared_ptr<const Seat> unlit_seat_of(const Station& station, std::vector<SampleView> unlit) const;
  Trial with(size_t camera, std::shared_ptr<const Seat> seat) const;
  double counted(const Seat& seat, size_t sample, double delivered, double height, double factor) const;
  double most_counted(const Seat& seat, size_t sample) const;
  double nominal_of(const Seat& seat, size_t sample) const;
  Counted counted_range(const Seat& seat, size_t sample) const;
  Ranged<bool> reached_by(const Seat& seat, size_t sample) const;
  const Seat* best_at(size_t sample) const;
  Ranged<bool> reached_at(size_t sample) const;
  bool reached_nominally(size_t sample) const;
  double share_of_samples(double at_least) const;
  Frames frames(int passage, bool ranged) const;
  double share_of_passages() const;
  int passage_count() const { return samples_.back().passage + 1; }
  Judgement judge_samples(Telling telling) const;
  Judgement judge_passages(Telling telling) const;
  void tell_worst_passage(Judgement& judgement, int passage, const Ranged<double>& frames) const;
  size_t best_moment(int passage) const;
  detail::Limit limit_beside(size_t moment) const;
  WorstPlace place_at(size_t sample) const;
  detail::Limit limit_at(size_t sample) const;
  detail::Limit unseen_because(size_t sample) const;
  size_t worst_sample() const;
  size_t middle_of(const std::vector<size_t>& indices) const;
  std::string words_to_settle(const std::vector<size_t>& open) const;

  const Need* need_;
  Moment moment_;
  Required required_;
  std::vector<Sample> samples_;
  std::shared_ptr<const std::vector<PlaceLight>> lights_;  ///< of each sample, whatever camera looks
  /// Shared, so that a trial with one camera replaced costs one seat, also among a thousand.
  std::vector<std::shared_ptr<const Seat>> seats_;

  friend class Replacing;
};

/// A trial with one camera replaced, worked out as far as it is asked. The trial must outlive it.
class Replacing {
 public:
  /// `other` is in no condition yet. What the same replacement in another trial of the need sees, it need not look for.
  Replacing(const Trial& trial, size_t camera, Station other, const std::vector<Replacing>& in_others = {});

  /// No less than nominal_share(), and in a fraction of the time: delivered detail is never more than the density.
  double most_share(double at_least = 0) const;

  double nominal_share(double at_least = 0) { return in_light().nominal_share(at_least); }
  Answer answer() { return in_light().answer(); }
  Judgement judge(Telling telling = Telling::kAll) { return in_light().judge(telling); }

 private:
  /// What it sees, and its meter looks at once it is asked for: the same in every condition with the same leaves.
  struct Sights {
    std::vector<SampleView> unlit;
    std::shared_ptr<const MeterFrame> frame;
  };

  const Trial& in_light();
  static std::shared_ptr<Sights> sights_of(const Trial& trial, const Station& other,
                                           const std::vector<Replacing>& in_others);

  const Trial* trial_;
  size_t camera_;
  Station other_;
  std::shared_ptr<Sights> sights_;
  std::optional<Trial> in_light_;
};

/// Met or missed when the range, widened at both ends by what sampling leaves open, lies on one side of what is asked.
Answer answer_for(const Ranged<double>& share, const Ranged<double>& error, double required);

/// What settles an answer that nothing but sampling leaves open.
inline constexpr const char* kWithinSampling =
    "the share lies within its sampling error of what is asked: nothing to settle but how much is asked";

/// The level's lower edge and the detector's height for a need of a valid project.
Required required_of(const Project& project, const Need& need);

/// The bound on how far a share of `count` samples moves when they double: the 99 % binomial half-width and one sample,
/// at least three samples. Points of a low-discrepancy sequence mostly move by half of it or less.
double share_error(double share, int count);

/// The same along a way, whose even samples stand or fall together over its lanes: each end of a stretch moves by at
/// most three quarters of a step, and a stretch shorter than a step may lie between the samples of every lane.
double way_error(int turns, int lanes, int count);

}  // namespace sightfall::need
