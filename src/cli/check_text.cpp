// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/check_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "cli/layout.h"
#include "need/lighting.h"
#include "need/station.h"
#include "need/words.h"

namespace sightfall::cli {
namespace {

using need::Answer;
using need::CheckResult;
using need::Project;
using need::share_words;
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
  text += fmt::format("\n{}, {}: ", count_words(result.verdicts.size(), "need"),
                      count_words(project.cameras.size(), "camera"));
  text += result.verdicts.empty() ? "nothing to judge\n"
                                  : fmt::format("{} met, {} marginal, {} missed\n", count(Answer::kMet),
                                                count(Answer::kMarginal), count(Answer::kMissed));
  const detail::LevelTable& levels = project.settings.levels;
  std::string compression{need::compression_in_words(project)};
  compression.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(compression.front())));
  text += wrapped(fmt::format("{}. Levels: {}.", compression, levels.source.empty() ? levels.name : levels.source), 0);
  for (const site::Condition& condition : project.conditions)
    text += wrapped(fmt::format("{}: {}, leaves {}", condition.name, need::light_in_words(condition),
                                condition.leaves == site::Leaves::kOn ? "on" : "off"),
                    2);
  return text;
}

bool in_feet(const Project& project) { return project.settings.units == need::Units::kFeet; }

std::string place_words(const Project& project, const Verdict& verdict) {
  if (!verdict.worst) return "-";
  const double scale = in_feet(project) ? 1 / units::ft.si() : 1;
  const geom::SitePoint at = verdict.worst->at_site;
  return fmt::format("{:.1f}, {:.1f}", scale * at.x, scale * at.y);
}

std::string delivered_words(const Project& project, const Verdict& verdict) {
  if (!verdict.worst) return "-";
  if (verdict.worst->camera.empty()) return "unseen";
  const need::Units units = project.settings.units;
  return fmt::format("{} ({})", density_number(verdict.worst->delivered.nominal, units),
                     density_number(verdict.required, units));
}

Row row_of(const Project& project, const Verdict& verdict) {
  const std::string share =
      fmt::format("{} ({})", share_words(verdict.share.nominal), share_words(verdict.required_share));
  const std::string limit{verdict.limit == detail::Limit::kNone ? "-" : detail::in_words(verdict.limit)};
  return {verdict.need,
          std::string(need::in_words(verdict.answer)),
          share,
          limit,
          place_words(project, verdict),
          delivered_words(project, verdict)};
}

constexpr size_t kNoteIndent = 4;

std::string worst_note(const Project& project, const need::WorstPlace& worst) {
  const std::string_view name = need::worst_name(worst);
  if (worst.camera.empty()) return fmt::format("{}: {}, where no camera sees it", name, worst.condition);
  return fmt::format("{}: {}, camera {}: {}", name, worst.condition, worst.camera,
                     need::worst_words(worst, project.settings.units));
}

std::string remedy_note(const Verdict& verdict) {
  if (!verdict.remedy)
    return wrapped("remedy: no change of one camera helps; add a camera nearer, or a sheet to the catalogue",
                   kNoteIndent);
  const need::Remedy& remedy = *verdict.remedy;
  std::string text =
      wrapped(fmt::format("{}: {} -> {}, {}", remedy.mends ? "remedy" : "no single change mends it; the best tried",
                          remedy.text, need::in_words(remedy.answer_after), share_words(remedy.share_after)),
              kNoteIndent);
  std::string spoiled;
  for (const std::string& name : remedy.spoils) spoiled += (spoiled.empty() ? "" : ", ") + name;
  return spoiled.empty() ? text : text + wrapped("it would spoil: " + spoiled, kNoteIndent);
}

/// What goes under a need's row: the worst place, what would settle it, what to do.
std::string notes_of(const Project& project, const Verdict& verdict, Remedies remedies) {
  if (verdict.answer == Answer::kMet) return "";
  std::string text;
  if (verdict.worst) text += wrapped(worst_note(project, *verdict.worst), kNoteIndent);
  if (verdict.answer == Answer::kMarginal)
    text += wrapped(fmt::format("marginal: {} to {} of the samples may be good enough; settled by this: {}",
                                share_words(verdict.share.low), share_words(verdict.share.high), verdict.settle),
                    kNoteIndent);
  return remedies == Remedies::kLookedFor ? text + remedy_note(verdict) : text;
}

std::string verdicts_text(const Project& project, const CheckResult& result, Remedies remedies) {
  const std::string unit = in_feet(project) ? "ft" : "m";
  std::vector<Row> rows{
      {"need", "verdict", "share (asked)", "limit", "worst place, " + unit, "px/" + unit + " (asked)"}};
  for (const Verdict& verdict : result.verdicts) rows.push_back(row_of(project, verdict));
  const std::vector<std::string> lines = table_rows(rows);
  std::string text = lines.front();
  for (size_t i = 0; i < result.verdicts.size(); ++i)
    text += lines[i + 1] + notes_of(project, result.verdicts[i], remedies);
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
    ways.push_back(fmt::format("to {}, {}: {} long, {} of it in sight (a person at {} or more), at most {}", way.place,
                               way.condition, length_words(way.length, project.settings.units),
                               length_words(way.seen, project.settings.units),
                               density_words(project.settings.levels.levels.front().least, project.settings.units),
                               density_words(way.most, project.settings.units)));
  return section("Before drilling", cautions) + section("Assumed, where the sheet or the site says nothing", assumed) +
         section("Places that no need names", result.without_need) + section("Cameras that watch cameras", watched) +
         section("Least-seen way from the boundary", ways);
}

/// Loads that are not met; how many are.
std::string loads_lines(const std::vector<loads::Ask>& asks) {
  std::vector<Row> rows;
  for (const loads::Ask& ask : asks)
    if (ask.held != loads::Held::kMet)
      rows.push_back(
          {"  " + std::string(in_words(ask.held)),
           fmt::format("{}, {}: {}{}{}", ask.part, ask.about, ask.words, ask.remedy.empty() ? "" : "\n", ask.remedy)});
  std::string text = fmt::format("\nLoads: {} of {} met", asks.size() - rows.size(), asks.size());
  text += rows.empty() ? "\n" : "; not met:\n" + described_list(rows);
  return text + wrapped("`sightfall loads` tells them all; it advises and certifies nothing.", 2);
}

}  // namespace

std::string check_text(const Project& project, const CheckResult& result, Remedies remedies,
                       const std::optional<std::vector<loads::Ask>>& asks) {
  // A remedy that is not there was not looked for when the check was stopped.
  if (result.stopped) remedies = Remedies::kNotLookedFor;
  std::string text = heading(project, result);
  if (!result.verdicts.empty()) text += "\n" + verdicts_text(project, result, remedies);
  if (asks) text += loads_lines(*asks);
  text += surroundings(project, result);
  if (result.stopped) text += "\nStopped before its end: what is above holds, the rest was not judged.\n";
  return text;
}

}  // namespace sightfall::cli
