// SPDX-License-Identifier: GPL-3.0-or-later
#include "results.h"

#include <fmt/core.h>

#include <nlohmann/json.hpp>

namespace sightfall::reading {
namespace {

using Json = nlohmann::ordered_json;

Json json_of(const Score& score) {
  Json halves = Json::array();
  for (const Tally& tally : score.half) halves.push_back({{"shown", tally.shown}, {"hits", tally.hits}});
  const Ranged<double> share = wilson(score.whole());
  return {{"half", halves}, {"hits", {share.low, share.nominal, share.high}}, {"right", score.right}};
}

Json json_of(const Finding& finding) {
  Json causes = Json::array();
  for (const Series& series : finding.all) {
    Json levels = Json::array();
    for (size_t i = 0; i < series.cause.levels.size(); ++i) {
      const Level& level = series.cause.levels[i];
      Json one = json_of(series.score[finding.number][i]);
      one["value"] = level.value;
      one["delivered"] = delivered(level.setting, {});
      levels.push_back(one);
    }
    causes.push_back({{"cause", series.cause.name},
                      {"unit", series.cause.unit},
                      {"looks", series.looks},
                      {"false alarms", series.false_alarms},
                      {"levels", levels}});
  }
  return {{"subject", finding.subject}, {"reader", finding.reader}, {"causes", causes}};
}

}  // namespace

std::string progress_line(const Series& so_far) {
  const size_t last = so_far.score.front().size() - 1;
  const Level& level = so_far.cause.levels[last];
  std::string line = fmt::format("  {:<15}{:>9.4g} {:<6}{:>7.1f} px/m  hits", so_far.cause.name, level.value,
                                 so_far.cause.unit, delivered(level.setting, {}));
  for (const std::vector<Score>& scores : so_far.score) line += fmt::format("{:>7.3f}", scores[last].whole().share());
  return line + "\n";
}

std::string table_of(const Finding& finding, const std::string& title, const Thresholds& thresholds) {
  std::string text = fmt::format("\n{}, {}: {} (contrast {:.3g}, noise {:.3g})\n", finding.title, finding.reader, title,
                                 thresholds.contrast, thresholds.noise);
  text += fmt::format("  {:<15}{:>22}{:>24}  within {:.0f} %\n", "cause", "half read at, px/m", "over distance's",
                      100 * kAgree);
  for (const Row& row : rows_of(finding.all, finding.number, kSecond, thresholds))
    text += fmt::format("  {:<15}{:>7.1f} ({:>5.1f}-{:>5.1f})  {:>9.2f} ({:.2f}-{:.2f})  {}\n", row.cause,
                        row.half.nominal, row.half.low, row.half.high, row.ratio.nominal, row.ratio.low, row.ratio.high,
                        row.agrees() ? "yes" : "no");
  return text;
}

std::string json_of(std::span<const Finding> findings) {
  Json all = Json::array();
  for (const Finding& finding : findings) all.push_back(json_of(finding));
  return all.dump(1) + "\n";
}

bool counted_before(const std::string& json, const std::string& subject, const std::vector<Cause>& causes,
                    size_t readers, std::vector<Series>& all) {
  const Json before = Json::parse(json, nullptr, false);
  if (before.is_discarded()) return false;
  all.clear();
  for (const Cause& cause : causes) all.push_back({cause, std::vector<std::vector<Score>>(readers), 0, 0});
  size_t reader = 0;
  for (const Json& finding : before) {
    if (finding["subject"] != subject) continue;
    for (size_t c = 0; c < causes.size(); ++c) {
      const Json& series = finding["causes"].at(c);
      if (series["cause"] != causes[c].name || series["levels"].size() != causes[c].levels.size()) return false;
      all[c].looks = series["looks"];
      all[c].false_alarms = series["false alarms"];
      for (size_t i = 0; i < causes[c].levels.size(); ++i) {
        const Json& level = series["levels"].at(i);
        if (level["value"] != causes[c].levels[i].value) return false;
        Score score;
        for (const Half half : {kFirst, kSecond})
          score.half.at(half) = {level["half"].at(half)["shown"], level["half"].at(half)["hits"]};
        score.right = level["right"];
        all[c].score.at(reader).push_back(score);
      }
    }
    ++reader;
  }
  return reader == readers;
}

}  // namespace sightfall::reading
