// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/remedy.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>
#include <utility>

namespace sightfall::need {
namespace {

/// A change of one camera, and what it brings, nominally, in the worst condition.
struct Tried {
  size_t camera = 0;
  Change change;
  double share = 0;
};

/// The nominal share in the worst condition; of a change that does not come to `at_least` a bound that does not either,
/// told without its light where that is enough.
double worst_share(std::vector<Replacing>& in_conditions, double at_least) {
  double worst = 1;
  for (const Replacing& one : in_conditions) {
    worst = std::min(worst, one.most_share(at_least));
    if (worst < at_least) return worst;
  }
  worst = 1;
  for (Replacing& one : in_conditions) {
    worst = std::min(worst, one.nominal_share(at_least));
    if (worst < at_least) return worst;
  }
  return worst;
}

/// Its worst answer; where that is as bad as `hopeless`, not whether it is worse.
Answer worst_answer(std::vector<Replacing>& in_conditions, Answer hopeless) {
  Answer worst = Answer::kMet;
  for (Replacing& one : in_conditions) {
    worst = std::max(worst, one.answer());
    if (worst >= hopeless) break;
  }
  return worst;
}

std::vector<Replacing> replaced(const std::vector<const Trial*>& hardest_first, size_t camera, const Station& station) {
  std::vector<Replacing> in_conditions;
  in_conditions.reserve(hardest_first.size());
  for (const Trial* trial : hardest_first) in_conditions.emplace_back(*trial, camera, station, in_conditions);
  return in_conditions;
}

/// By their nominal shares as it is.
std::vector<const Trial*> hardest_first(const std::vector<Trial>& trials) {
  std::vector<std::pair<double, const Trial*>> by_share;
  by_share.reserve(trials.size());
  for (const Trial& trial : trials) by_share.emplace_back(trial.nominal_share(), &trial);
  std::stable_sort(by_share.begin(), by_share.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<const Trial*> order;
  order.reserve(trials.size());
  for (const auto& [share, trial] : by_share) order.push_back(trial);
  return order;
}

/// The cameras to try: those nearest to the middle of what falls short; far ones on a large site are not tried.
std::vector<size_t> cameras_to_try(const Project& project, geom::SitePoint middle) {
  constexpr size_t kMost = 4;
  std::vector<size_t> order(project.cameras.size());
  std::iota(order.begin(), order.end(), size_t{0});
  const auto distance = [&](size_t camera) {
    const site::Mount& mount = the_named(project.site.mounts, project.cameras[camera].mount);
    return norm(mount.at - plan(middle));
  };
  std::stable_sort(order.begin(), order.end(), [&](size_t a, size_t b) { return distance(a) < distance(b); });
  if (order.size() > kMost) order.resize(kMost);
  return order;
}

/// All of them, the smaller ones first.
std::vector<Tried> to_try(const Project& project, const Need& need, geom::SitePoint middle) {
  std::vector<Tried> all;
  for (const size_t camera : cameras_to_try(project, middle))
    for (Change& change : changes_of(project, project.cameras[camera], need, middle))
      all.push_back({camera, std::move(change)});
  std::stable_sort(all.begin(), all.end(), [](const Tried& a, const Tried& b) {
    return std::pair{a.change.kind, a.change.size} < std::pair{b.change.kind, b.change.size};
  });
  return all;
}

Remedy remedy_of(const Project& project, const Tried& tried, Answer answer, std::vector<std::string> spoils) {
  Remedy remedy;
  remedy.mends = answer == Answer::kMet;
  remedy.camera = project.cameras[tried.camera].name;
  remedy.text = remedy.camera + ": " + tried.change.text;
  remedy.share_after = tried.share;
  remedy.answer_after = answer;
  remedy.spoils = std::move(spoils);
  remedy.changed = tried.change.camera;
  remedy.raised = tried.change.raised;
  return remedy;
}

}  // namespace

std::optional<Remedy> find_remedy(const Project& project, const std::vector<Trial>& trials, const Spoils& spoils,
                                  const Progress& progress) {
  const std::vector<const Trial*> order = hardest_first(trials);
  const Trial& hardest = *order.front();
  const double as_it_is = hardest.nominal_share(), required = hardest.need().share;
  // A need that reaches its share already, nominally, is open for want of knowledge: a change that leaves it open is
  // none.
  const bool already_reached = as_it_is >= required;
  std::optional<Remedy> mends_but_spoils, nearly;
  std::optional<Tried> best;
  constexpr int kMostJudged = 24;  // in full, which costs some twenty times a nominal share
  int judged = 0;
  for (Tried& one : to_try(project, hardest.need(), hardest.shortfall_middle())) {
    if (progress.stopped()) return std::nullopt;
    const Station station = changed_station(project, one.change);
    std::vector<Replacing> in_conditions = replaced(order, one.camera, station);
    // One that neither mends the need nor helps as much as another leads nowhere.
    one.share = worst_share(in_conditions, std::min(required, best ? best->share : as_it_is));
    if (one.share > (best ? best->share : as_it_is)) best = one;
    if (one.share < required || ++judged > kMostJudged) continue;
    // Ranges are wider than the nominal share shows, so a nominal success is judged in full before it is offered.
    const Answer hopeless = nearly || already_reached ? Answer::kMarginal : Answer::kMissed;
    const Answer answer = worst_answer(in_conditions, hopeless);
    if (answer >= hopeless) continue;
    Remedy remedy = remedy_of(project, one, answer, spoils(one.camera, station));
    if (answer == Answer::kMarginal)
      nearly = std::move(remedy);
    else if (remedy.spoils.empty())
      return remedy;
    else if (!mends_but_spoils)
      mends_but_spoils = std::move(remedy);
  }
  if (mends_but_spoils) return mends_but_spoils;
  if (nearly || !best) return nearly;
  const Station station = changed_station(project, best->change);
  std::vector<Replacing> in_conditions = replaced(order, best->camera, station);
  return remedy_of(project, *best, worst_answer(in_conditions, Answer::kMissed), spoils(best->camera, station));
}

}  // namespace sightfall::need
