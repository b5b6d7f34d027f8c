// SPDX-License-Identifier: GPL-3.0-or-later
#include "experiment.h"

#include <tbb/parallel_for.h>

namespace sightfall::reading {
namespace {

void count(const std::vector<Look>& looks, Series& series) {
  for (size_t reader = 0; reader < series.score.size(); ++reader) {
    Score score;
    for (size_t seed = 0; seed < looks.size(); ++seed) {
      const double right = looks[seed].right.at(reader);
      Tally& tally = score.half.at(seed % 2 == 0 ? kFirst : kSecond);
      ++tally.shown;
      tally.hits += right >= 1 ? 1 : 0;
      score.right += right / static_cast<double>(looks.size());
    }
    series.score[reader].push_back(score);
  }
  for (const Look& look : looks) series.false_alarms += look.false_alarms;
  series.looks += static_cast<int>(looks.size());
}

}  // namespace

std::vector<Series> run(const std::vector<Cause>& causes, int subjects, size_t readers, const Examine& examine,
                        const std::function<void(const Series& so_far)>& tell) {
  std::vector<Series> all;
  for (const Cause& cause : causes) {
    Series series{cause, std::vector<std::vector<Score>>(readers), 0, 0};
    for (const Level& level : cause.levels) {
      std::vector<Look> looks(static_cast<size_t>(subjects));
      tbb::parallel_for(size_t{0}, looks.size(), [&](size_t seed) { looks[seed] = examine(level, seed); });
      count(looks, series);
      tell(series);
    }
    all.push_back(std::move(series));
  }
  return all;
}

}  // namespace sightfall::reading
