// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/check_text.h"

#include <fmt/format.h>

#include <algorithm>

#include "cli/terminal.h"
#include "cli/words.h"

namespace sightfall::cli {
namespace {

using need::Answer;
using need::CheckResult;
using need::Project;
using need::Verdict;

std::string count_words(size_t count, const char* one) {
  return fmt::format("{} {}{}", count, one, count == 1 ? "" : "s");
}

std::string heading(const Project& project, const CheckResult& result) {
  const auto count = [&](Answer answer) {
    return std::count_if(result.verdicts.begin(), result.verdicts.end(),
                         [&](const Verdict& v) { return v.answer == answer; });
  };
  std::string text = fmt::format("{}\n", project.name);
  if (!project.about.empty()) text += wrapped(project.about, 2);
  text += fmt::format("\n{}, {}: {} met, {} marginal, {} missed\n", count_words(result.verdicts.size(), "need"),
                      count_words(project.cameras.size(), "camera"), count(Answer::kMet), count(Answer::kMarginal),
                      count(Answer::kMissed));
  text += wrapped(fmt::format("By day with ample light, clear air, before compression. Levels: {}.",
                              project.settings.levels.source.empty() ? project.settings.levels.name
                                                                     : project.settings.levels.source),
                  0);
  return text;
}

std::string place_words(const Project& project, const Verdict& verdict) {
  if (!verdict.worst) return "";
  const need::WorstPlace& worst = *verdict.worst;
  const bool feet = project.settings.units == need::Units::kFeet;
  const double scale = feet ? 1 / units::ft.si() : 1;
  std::string text =
      fmt::format("({:.1f}, {:.1f}) {}", scale * worst.at_site.x, scale * worst.at_site.y, feet ? "ft" : "m");
  if (worst.camera.empty()) return text + ", no camera sees it";
  return text + fmt::format(", {:.0f} of {:.0f} px/m", worst.delivered.nominal.si(), verdict.required.si());
}

std::vector<std::string> row_of(const Project& project, const Verdict& verdict) {
  const std::string share =
      fmt::format("{} of {}", share_words(verdict.share.nominal), share_words(verdict.required_share));
  const std::string limit{verdict.limit == detail::Limit::kNone ? "-" : detail::in_words(verdict.limit)};
  return {verdict.need, std::string(need::in_words(verdict.answer)), share, limit, place_words(project, verdict)};
}

/// What goes under a need's row: the range, the condition, what to do.
std::string notes_of(const Project& project, const Verdict& verdict) {
  constexpr size_t kIndent = 4;
  std::string text;
  if (verdict.answer == Answer::kMet) return text;
  if (verdict.worst && !verdict.worst->camera.empty())
    text += wrapped(fmt::format("worst place: camera {}, {}; {}", verdict.worst->camera, verdict.worst->condition,
                                density_words(verdict.worst->delivered, project.settings.units)),
                    kIndent);
  else if (verdict.worst)
    text += wrapped(fmt::format("worst place: {}", verdict.worst->condition), kIndent);
  if (verdict.answer == Answer::kMarginal)
    text += wrapped(fmt::format("marginal: {} to {} of the samples may be good enough; settled by this: {}",
                                share_words(verdict.share.low), share_words(verdict.share.high), verdict.settle),
                    kIndent);
  if (!verdict.remedy) {
    text +=
        wrapped("remedy: no change of one camera here helps; add a camera nearer or a sheet to the catalogue", kIndent);
    return text;
  }
  const need::Remedy& remedy = *verdict.remedy;
  text += wrapped(fmt::format("{}: {} -> {}, {}", remedy.mends ? "remedy" : "no single change mends it; nearest",
                              remedy.text, need::in_words(remedy.answer_after), share_words(remedy.share_after)),
                  kIndent);
  if (!remedy.spoils.empty()) {
    std::string spoiled;
    for (const std::string& name : remedy.spoils) spoiled += (spoiled.empty() ? "" : ", ") + name;
    text += wrapped("it would spoil: " + spoiled, kIndent);
  }
  return text;
}

std::string verdicts_text(const Project& project, const CheckResult& result) {
  std::vector<std::vector<std::string>> rows{{"NEED", "VERDICT", "SHARE", "LIMIT", "WORST PLACE"}};
  for (const Verdict& verdict : result.verdicts) rows.push_back(row_of(project, verdict));
  const std::string lines = table(rows);
  // The notes of each need go under its row.
  std::string text;
  size_t from = 0;
  for (size_t i = 0; i < rows.size(); ++i) {
    const size_t end = lines.find('\n', from) + 1;
    text += lines.substr(from, end - from);
    from = end;
    if (i > 0) text += notes_of(project, result.verdicts[i - 1]);
  }
  return text;
}

std::string section(const std::string& title, const std::vector<std::string>& lines) {
  if (lines.empty()) return "";
  std::string text = "\n" + title + "\n";
  for (const std::string& line : lines) text += wrapped(line, 2);
  return text;
}

std::string surroundings(const Project& project, const CheckResult& result) {
  std::vector<std::string> cautions, assumed, watched, ways;
  for (const need::Caution& one : result.cautions) cautions.push_back(one.about + ": " + one.text);
  for (const Assumption& one : result.assumptions) assumed.push_back(one.what + "; to settle it: " + one.settle);
  for (const need::Watch& one : result.watches) watched.push_back(one.camera + " has " + one.sees + " in its picture");
  for (const need::LeastSeenWay& way : result.least_seen)
    ways.push_back(fmt::format("to {}: {} long, {} of it in sight (a person at {} or more), at most {}", way.place,
                               length_words(way.length, project.settings.units),
                               length_words(way.seen, project.settings.units),
                               density_words(project.settings.levels.levels.front().least, project.settings.units),
                               density_words(way.most, project.settings.units)));
  return section("Before drilling", cautions) + section("Assumed, where the sheet or the site says nothing", assumed) +
         section("Places that no need names", result.without_need) + section("Cameras that watch cameras", watched) +
         section("Least-seen way from the boundary", ways);
}

}  // namespace

std::string check_text(const Project& project, const CheckResult& result) {
  std::string text = heading(project, result) + "\n" + verdicts_text(project, result) + surroundings(project, result);
  if (result.stopped) text += "\nStopped before its end: what is above holds, the rest was not judged.\n";
  return text;
}

}  // namespace sightfall::cli
