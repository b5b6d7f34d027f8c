// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/check.h"

#include <fmt/format.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <map>
#include <memory>
#include <mutex>

#include "base/check.h"
#include "need/cautions.h"
#include "need/frame.h"
#include "need/lamp_cautions.h"
#include "need/least_seen.h"
#include "need/remedy.h"
#include "need/sun_hours.h"
#include "need/trial.h"

namespace sightfall::need {
namespace {

constexpr int kMostSamples = 16384;  // where sampling alone leaves the answer open, samples double up to here
constexpr int kRemedySamples = 256;

bool asked_for(const std::vector<std::string>& names, const std::string& name) {
  return names.empty() || std::find(names.begin(), names.end(), name) != names.end();
}

/// The scenes of the two seasons, each built when a condition asks for it.
class Scenes {
 public:
  explicit Scenes(const Project& project) {
    for (const site::Condition& condition : project.conditions) {
      auto& scene = scenes_.at(index(condition.leaves));
      if (!scene) scene = std::make_unique<site::Scene>(project.site, condition.leaves);
    }
  }
  const site::Scene& at(site::Leaves leaves) const { return *scenes_.at(index(leaves)); }

 private:
  static size_t index(site::Leaves leaves) { return leaves == site::Leaves::kOn ? 0 : 1; }
  std::array<std::unique_ptr<site::Scene>, 2> scenes_;
};

/// A light with every camera in it, metered once for all trials.
struct LitStations {
  Lighting lighting;
  std::vector<Station> stations;  ///< in that light

  LitStations(const Lighting& plain, const std::vector<Station>& all)
      : lighting{with_cameras(plain, all)}, stations{in_condition(all, lighting)} {}
};

/// The light of a condition and, where it is open whether some camera is in colour or in monochrome, the same with
/// each end of the light at which cameras switch.
struct ConditionLight {
  LitStations nominal;
  std::vector<LitStations> ends;

  ConditionLight(const Lighting& plain, const std::vector<Station>& stations) : nominal{plain, stations} {
    const Ranged<double>& lux = plain.project().settings.typical.night_switch.value;
    std::vector<double> scenes;
    for (const Station& station : stations)
      if (station.picture == camera::PictureMode::kAutomatic) scenes.push_back(scene_lux(station, plain));
    for (const double end : {lux.low, lux.high}) {
      const Lighting moved = plain.with_night_switch(end);
      if (std::any_of(scenes.begin(), scenes.end(),
                      [&](double scene) { return (scene < moved.night_switch()) != (scene < plain.night_switch()); }))
        ends.emplace_back(moved, stations);
    }
  }
};

/// A camera as something else than it is in the project.
struct Replaced {
  size_t camera = 0;
  Station station;  ///< in no condition yet
};

/// The trials of one need in one light, by how many samples they have.
class Ladder {
 public:
  Ladder(Moment moment, const Need& need, const std::vector<Station>& stations)
      : moment_{std::move(moment)}, need_{&need}, stations_{&stations} {}

  const Trial& at(int samples) {
    return trials_.try_emplace(samples, moment_, *need_, *stations_, samples).first->second;
  }

  /// Doubles the samples while nothing but sampling keeps the answer open.
  Judgement judge(int& samples, const Replaced* one = nullptr) {
    for (;;) {
      Judgement judgement = judge_at(samples, one);
      if (!judgement.only_sampling || 2 * samples > kMostSamples) return judgement;
      samples *= 2;
    }
  }
  Judgement judge_at(int samples, const Replaced* one) {
    return one != nullptr ? at(samples).judge_with(one->camera, one->station) : at(samples).judge();
  }

 private:
  Moment moment_;
  const Need* need_;
  const std::vector<Station>* stations_;
  std::map<int, Trial> trials_;
};

/// The ladders of one need in one condition: in its light, and at each end of where cameras switch.
struct Ladders {
  const site::Condition* condition = nullptr;
  Ladder nominal;
  std::vector<Ladder> ends;
};

/// One check: what its needs share.
class Check {
 public:
  Check(const Project& project, const CheckOptions& options, const Progress& progress)
      : project_{project}, options_{options}, progress_{progress}, scenes_{project}, stations_{stations_of(project)} {
    for (const site::Condition& condition : project.conditions)
      lightings_.emplace_back(Lighting{project, scenes_.at(condition.leaves), condition}, stations_);
    for (const Need& need : project.needs)
      if (asked_for(options.needs, need.name)) needs_.push_back(&need);
  }

  CheckResult run() {
    CheckResult result;
    std::vector<std::optional<Verdict>> verdicts(needs_.size());
    for_each_need("judging needs", 0, 0.5, [&](size_t i) { verdicts[i] = judge(*needs_[i]); });
    if (options_.remedies) {
      // Also of needs that were not asked for: a remedy must not spoil them unsaid.
      answers_.resize(project_.needs.size());
      for (const ConditionLight& light : lightings_) stations_in_.push_back(light.nominal.stations);
      tbb::parallel_for(size_t{0}, answers_.size(),
                        [&](size_t i) { answers_[i] = quick_answer(project_.needs[i], stations_in_); });
      for_each_need("looking for remedies", 0.5, 0.95, [&](size_t i) {
        if (verdicts[i] && verdicts[i]->answer != Answer::kMet) verdicts[i]->remedy = remedy(*needs_[i]);
      });
    }
    for (auto& verdict : verdicts)
      if (verdict) result.verdicts.push_back(std::move(*verdict));
    if (options_.surroundings) add_surroundings(result);
    result.stopped = progress_.stopped();
    progress_.tell(1, "done");
    return result;
  }

  std::vector<std::vector<Became>> hold_otherwise(const std::vector<Otherwise>& others) {
    std::vector<std::vector<Became>> became(others.size());
    std::mutex telling;
    for_each_need("judging needs", 0, 1, [&](size_t i) { hold(*needs_[i], others, became, telling); });
    // In the project's order, whichever was done first.
    for (std::vector<Became>& one : became)
      std::sort(one.begin(), one.end(), [&](const Became& a, const Became& b) {
        return &the_named(project_.needs, a.need) < &the_named(project_.needs, b.need);
      });
    return became;
  }

 private:
  /// Runs `work` for every need in parallel; each writes only its own place, so the threads' order does not show.
  template <class Work>
  void for_each_need(std::string_view what, double from, double upto, Work work) {
    std::atomic<size_t> done{0};
    std::mutex telling;
    tbb::parallel_for(size_t{0}, needs_.size(), [&](size_t i) {
      if (progress_.stopped()) return;
      work(i);
      const std::lock_guard lock{telling};
      ++done;
      progress_.tell(from + (upto - from) * static_cast<double>(done) / static_cast<double>(needs_.size()), what);
    });
  }

  std::vector<const site::Condition*> conditions_of(const Need& need) const {
    std::vector<const site::Condition*> result;
    for (const site::Condition& condition : project_.conditions)
      if (asked_for(need.conditions, condition.name) && asked_for(options_.conditions, condition.name))
        result.push_back(&condition);
    return result;
  }

  size_t index_of(const site::Condition& condition) const {
    return static_cast<size_t>(&condition - project_.conditions.data());
  }
  const ConditionLight& light_in(const site::Condition& condition) const { return lightings_[index_of(condition)]; }

  Moment moment(const site::Condition& condition) const {
    return {&project_, &light_in(condition).nominal.lighting, condition.name};
  }

  std::vector<Ladders> ladders_of(const Need& need) const {
    std::vector<Ladders> all;
    for (const site::Condition* condition : conditions_of(need)) {
      const ConditionLight& light = light_in(*condition);
      Ladders& one = all.emplace_back(
          Ladders{condition, Ladder{moment(*condition), need, light.nominal.stations}, std::vector<Ladder>{}});
      for (const LitStations& end : light.ends)
        one.ends.emplace_back(Moment{&project_, &end.lighting, condition->name}, need, end.stations);
    }
    return all;
  }

  /// As it is, or with one camera replaced.
  Judgement judge_in(Ladders& ladders, int& samples, const Replaced* one = nullptr) const {
    Judgement judgement = ladders.nominal.judge(samples, one);
    widen_by_mode(ladders, samples, one, judgement);
    return judgement;
  }

  /// A need is answered as in its worst condition.
  std::optional<Verdict> judge(const Need& need) const {
    std::vector<Ladders> in_conditions = ladders_of(need);
    if (in_conditions.empty()) return std::nullopt;  // only other conditions were asked for
    Verdict verdict;
    verdict.need = need.name;
    verdict.required_share = need.share;
    verdict.required = PixelDensity{required_of(project_, need).density};
    std::optional<Judgement> worst;
    for (Ladders& ladders : in_conditions) {
      int samples = first_count(project_, need);
      Judgement judgement = judge_in(ladders, samples);
      ConditionShare& told = verdict.conditions.emplace_back();
      told.condition = ladders.condition->name;
      told.share = judgement.share.nominal;
      if (judgement.worst)
        told.camera = judgement.worst->camera, told.light = judgement.worst->light,
        told.worst_at = judgement.worst->at_site;
      if (worst && !worse(judgement, *worst)) continue;
      verdict.samples = samples;
      worst = std::move(judgement);
    }
    verdict.answer = worst->answer;
    verdict.share = worst->share;
    verdict.sampling_error = worst->sampling_error;
    verdict.worst = worst->worst;
    verdict.settle = worst->settle;
    if (verdict.answer != Answer::kMet && verdict.worst) verdict.limit = verdict.worst->limit;
    return verdict;
  }

  /// Where a camera may as well be in its other mode, the answer holds only if it is the same in both.
  void widen_by_mode(Ladders& ladders, int samples, const Replaced* one, Judgement& judgement) const {
    for (Ladder& end : ladders.ends) {
      const Judgement other = end.judge_at(samples, one);
      judgement.share.low = std::min(judgement.share.low, other.share.low);
      judgement.share.high = std::max(judgement.share.high, other.share.high);
      if (other.answer == judgement.answer) continue;
      const detail::TypicalValue& entry = project_.settings.typical.night_switch;
      judgement.answer = Answer::kMarginal;
      judgement.only_sampling = false;
      judgement.settle = fmt::format("{} ({:g} to {:g} {}): {}", entry.meaning, entry.value.low, entry.value.high,
                                     entry.unit, entry.settle);
    }
  }

  static bool worse(const Judgement& a, const Judgement& b) {
    return a.answer != b.answer ? a.answer > b.answer : a.share.nominal < b.share.nominal;
  }

  std::vector<Trial> trials_of(const Need& need) const {
    std::vector<Trial> trials;
    for (const site::Condition* condition : conditions_of(need))
      trials.emplace_back(moment(*condition), need, light_in(*condition).nominal.stations, kRemedySamples);
    return trials;
  }

  /// The cameras in each condition.
  using StationsIn = std::vector<std::vector<Station>>;

  /// The answer from few samples on, in the worst condition: what a change is held against.
  Answer quick_answer(const Need& need, const StationsIn& stations) const {
    Answer worst = Answer::kMet;
    for (const site::Condition* condition : conditions_of(need)) {
      int samples = kRemedySamples;
      worst = std::max(worst, Ladder{moment(*condition), need, stations[index_of(*condition)]}.judge(samples).answer);
    }
    return worst;
  }

  /// The answer in the worst condition, as it is or with one camera replaced.
  AnswerShare answer_of(const Need& need, std::vector<Ladders>& in_conditions, const Replaced* one) const {
    std::optional<Judgement> worst;
    for (Ladders& ladders : in_conditions) {
      int samples = first_count(project_, need);
      Judgement judgement = judge_in(ladders, samples, one);
      if (!worst || worse(judgement, *worst)) worst = std::move(judgement);
    }
    return {worst->answer, worst->share.nominal};
  }

  /// What each change makes of a need; only one camera's part of the trials is worked out anew.
  void hold(const Need& need, const std::vector<Otherwise>& others, std::vector<std::vector<Became>>& became,
            std::mutex& telling) const {
    std::vector<Ladders> in_conditions = ladders_of(need);
    if (in_conditions.empty()) return;
    std::optional<AnswerShare> before;
    for (size_t i = 0; i < others.size() && !progress_.stopped(); ++i) {
      const std::vector<std::string>& names = others[i].needs;
      if (std::find(names.begin(), names.end(), need.name) == names.end()) continue;
      if (!before) before = answer_of(need, in_conditions, nullptr);
      if (before->answer == Answer::kMissed) return;
      const Replaced one{others[i].camera, station_of(project_, others[i].set)};
      const AnswerShare after = answer_of(need, in_conditions, &one);
      const std::lock_guard lock{telling};
      became[i].push_back({need.name, *before, after});
    }
  }

  std::vector<std::string> spoiled_by(const Need& mended, size_t camera, const Station& other) const {
    StationsIn changed = stations_in_;
    for (size_t i = 0; i < changed.size(); ++i)
      changed[i][camera] = in_condition(other, lightings_[i].nominal.lighting);
    std::vector<std::string> spoiled;
    for (size_t i = 0; i < answers_.size(); ++i) {
      const Need& other_need = project_.needs[i];
      if (&other_need != &mended && answers_[i] != Answer::kMissed && quick_answer(other_need, changed) > answers_[i])
        spoiled.push_back(other_need.name);
    }
    return spoiled;
  }

  std::optional<Remedy> remedy(const Need& need) const {
    return find_remedy(
        project_, trials_of(need), [&](size_t camera, const Station& other) { return spoiled_by(need, camera, other); },
        progress_);
  }

  void add_surroundings(CheckResult& result) const {
    for (const Station& station : stations_)
      result.assumptions.insert(result.assumptions.end(), station.assumptions.begin(), station.assumptions.end());
    result.without_need = places_without_need(project_);
    result.aims = aims_of(project_);
    if (progress_.stopped()) return;
    const site::Scene& first = scenes_.at(project_.conditions.front().leaves);
    result.cautions = cautions_of(project_, stations_);
    add_lamp_cautions(result, first);
    if (project_.site.anchor)
      for (const SunHours& hours : sun_hours(*project_.site.anchor, stations_, first, progress_))
        if (hours.in_picture.total > Time{0}) result.cautions.push_back({hours.camera, hours.words});
    result.watches = watches_of(stations_, first);
    for (const site::Condition& condition : project_.conditions)
      if (asked_for(options_.conditions, condition.name))
        for (LeastSeenWay& way : least_seen_ways(project_, *moment(condition).lighting, condition.name, progress_))
          result.least_seen.push_back(std::move(way));
  }

  void add_lamp_cautions(CheckResult& result, const site::Scene& scene) const {
    for (Caution& caution : headlight_cautions(project_, stations_, scene))
      result.cautions.push_back(std::move(caution));
    for (const site::Condition& condition : project_.conditions) {
      if (!asked_for(options_.conditions, condition.name)) continue;
      for (const Station& station : light_in(condition).nominal.stations)
        if (auto caution = band_caution(station, condition.name)) result.cautions.push_back(std::move(*caution));
    }
  }

  const Project& project_;
  const CheckOptions& options_;
  const Progress& progress_;
  Scenes scenes_;
  std::vector<Station> stations_;
  std::vector<ConditionLight> lightings_;  // one a condition
  std::vector<const Need*> needs_;
  StationsIn stations_in_;       // a condition each; filled before remedies are looked for
  std::vector<Answer> answers_;  // on few samples, one a need; filled before remedies are looked for
};

}  // namespace

std::string_view in_words(Answer answer) {
  constexpr std::array<std::string_view, 3> kWords{"met", "marginal", "missed"};
  return kWords.at(static_cast<size_t>(answer));
}

CheckResult check(const Project& project, const CheckOptions& options, const Progress& progress) {
  return Check{project, options, progress}.run();
}

std::vector<std::vector<Became>> hold_otherwise(const Project& project, const std::vector<Otherwise>& others,
                                                const Progress& progress) {
  const CheckOptions options;
  return Check{project, options, progress}.hold_otherwise(others);
}

}  // namespace sightfall::need
