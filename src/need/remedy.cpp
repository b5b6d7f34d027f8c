// SPDX-License-Identifier: GPL-3.0-or-later
#include "need/remedy.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

namespace sightfall::need {
namespace {

/// A change of one camera with what it would bring, nominally, in the worst condition.
struct Tried {
  size_t camera = 0;
  Change change;
  double share = 0;
};

/// The nominal share in the worst condition; of a change that leads nowhere some share that leads nowhere, too, for
/// that is told without its light.
template <class Idle>
double worst_share_with(const std::vector<const Trial*>& hardest_first, size_t camera, const Station& station,
                        Idle leads_nowhere) {
  double worst = 1;
  for (const Trial* trial : hardest_first) {
    worst = std::min(worst, trial->most_share_with(camera, station));
    if (leads_nowhere(worst)) return worst;
  }
  worst = 1;
  for (const Trial* trial : hardest_first) {
    worst = std::min(worst, trial->nominal_share_with(camera, trial->in_light(station)));
    if (leads_nowhere(worst)) return worst;
  }
  return worst;
}

Answer worst_answer_with(const std::vector<Trial>& trials, size_t camera, const Station& station) {
  Answer worst = Answer::kMet;
  for (const Trial& trial : trials) {
    if (worst == Answer::kMissed) break;
    worst = std::max(worst, trial.judge_with(camera, trial.in_light(station), Telling::kAnswer).answer);
  }
  return worst;
}

/// The trial in which the need falls shortest.
const Trial& shortest(const std::vector<Trial>& trials) {
  return *std::min_element(trials.begin(), trials.end(),
                           [](const Trial& a, const Trial& b) { return a.nominal_share() < b.nominal_share(); });
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

bool smaller(const Tried& a, const Tried& b) {
  if (a.change.kind != b.change.kind) return a.change.kind < b.change.kind;
  return a.change.size < b.change.size;
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

std::vector<Tried> try_all(const Project& project, const std::vector<Trial>& trials, const Progress& progress) {
  std::vector<const Trial*> hardest_first;
  hardest_first.reserve(trials.size());
  for (const Trial& trial : trials) hardest_first.push_back(&trial);
  std::stable_sort(hardest_first.begin(), hardest_first.end(),
                   [](const Trial* a, const Trial* b) { return a->nominal_share() < b->nominal_share(); });
  const Trial& hardest = *hardest_first.front();
  const geom::SitePoint middle = hardest.shortfall_middle();
  const double as_it_is = hardest.nominal_share(), required = hardest.need().share;
  double best = as_it_is;
  // It does not mend the need, and either does not help or helps less than another.
  const auto leads_nowhere = [&](double share) { return share < required && (share <= as_it_is || share < best); };
  std::vector<Tried> tried;
  for (const size_t camera : cameras_to_try(project, middle))
    for (Change& change : changes_of(project, project.cameras[camera], hardest.need(), middle)) {
      if (progress.stopped()) return tried;
      const Station station = changed_station(project, change);
      const double share = worst_share_with(hardest_first, camera, station, leads_nowhere);
      best = std::max(best, share);
      tried.push_back({camera, std::move(change), share});
    }
  return tried;
}

}  // namespace

std::optional<Remedy> find_remedy(const Project& project, const std::vector<Trial>& trials, const Spoils& spoils,
                                  const Progress& progress) {
  std::vector<Tried> tried = try_all(project, trials, progress);
  if (tried.empty() || progress.stopped()) return std::nullopt;
  const double required = trials.front().need().share;
  std::vector<Tried> promising;
  std::copy_if(tried.begin(), tried.end(), std::back_inserter(promising),
               [&](const Tried& one) { return one.share >= required; });
  std::stable_sort(promising.begin(), promising.end(), smaller);
  // A need that reaches its share already, nominally, is open for want of knowledge: a change that leaves it open is
  // none.
  const bool already_reached = shortest(trials).nominal_share() >= required;
  // Ranges are wider than the nominal share shows, so a nominal success is judged in full before it is offered.
  std::optional<Remedy> mends_but_spoils, nearly;
  constexpr size_t kMostJudged = 24;  // in full, which costs some twenty times a nominal share
  if (promising.size() > kMostJudged) promising.resize(kMostJudged);
  for (const Tried& one : promising) {
    if (progress.stopped()) return std::nullopt;
    const Station station = changed_station(project, one.change);
    const Answer answer = worst_answer_with(trials, one.camera, station);
    if (answer == Answer::kMissed) continue;
    if (answer == Answer::kMarginal && (nearly || already_reached)) continue;
    Remedy remedy = remedy_of(project, one, answer, spoils(one.camera, station));
    if (answer == Answer::kMarginal)
      nearly = remedy;
    else if (remedy.spoils.empty())
      return remedy;
    else if (!mends_but_spoils)
      mends_but_spoils = remedy;
  }
  if (mends_but_spoils) return mends_but_spoils;
  if (nearly) return nearly;
  const Tried best = *std::max_element(tried.begin(), tried.end(), [](const Tried& a, const Tried& b) {
    return a.share < b.share || (a.share == b.share && smaller(b, a));
  });
  if (best.share <= shortest(trials).nominal_share()) return std::nullopt;
  const Station station = changed_station(project, best.change);
  return remedy_of(project, best, worst_answer_with(trials, best.camera, station), spoils(best.camera, station));
}

}  // namespace sightfall::need
