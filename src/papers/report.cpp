// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>

#include "need/lighting.h"
#include "need/words.h"
#include "papers/documents.h"
#include "papers/told.h"

namespace sightfall::papers {
namespace {

using namespace units;
using draw::Block;
using draw::Heading;
using draw::Paragraph;
using draw::Table;
using draw::Tone;

std::string loads_counts(const Job& job) {
  const std::vector<loads::Ask>& asks = job.here.asks;
  const auto count = [&](loads::Held held) {
    return std::count_if(asks.begin(), asks.end(), [&](const loads::Ask& one) { return one.held == held; });
  };
  return fmt::format("{} met, {} marginal, {} missed, {} unknown", count(loads::Held::kMet),
                     count(loads::Held::kMarginal), count(loads::Held::kMissed), count(loads::Held::kUnknown));
}

void add_title(const Job& job, std::vector<Block>& blocks) {
  const need::Project& project = job.project();
  blocks.emplace_back(Heading{1, project.name});
  if (!project.about.empty()) blocks.emplace_back(Paragraph{project.about, Tone::kNote});
  blocks.emplace_back(
      Paragraph{fmt::format("Date: {}    Handed over by: {}", or_line(job.asked.date), or_line(job.asked.by))});
  blocks.emplace_back(Paragraph{
      fmt::format("{}: {}. {}. Loads: {}.", counted(job.here.check.verdicts.size(), "need"),
                  counts(job.here.check.verdicts), counted(project.cameras.size(), "camera"), loads_counts(job)),
      Tone::kLead});
  if (job.stopped)
    blocks.emplace_back(
        Paragraph{"Stopped before its end: what is told holds, the rest was not worked out.", Tone::kCaution});
  blocks.emplace_back(draw::Contents{});
}

void add_job(const Job& job, std::vector<Block>& blocks) {
  const need::Project& project = job.project();
  blocks.emplace_back(Heading{1, "The job"});
  Table needs{{{"need", 3}, {"what must be made out", 6}, {"in", 3}}, {}};
  for (const need::Need& need : project.needs) {
    std::string conditions;
    for (const std::string& one : need.conditions) conditions += (conditions.empty() ? "" : ", ") + one;
    needs.rows.push_back({need.name, sentence(need), conditions.empty() ? "every condition" : conditions});
  }
  blocks.emplace_back(needs);
  const detail::LevelTable& levels = project.settings.levels;
  std::string bands;
  for (const detail::Level& level : levels.levels)
    bands += fmt::format("{}{} {}", bands.empty() ? "" : ", ", level.name, number(level.least.si(), 0));
  blocks.emplace_back(Paragraph{fmt::format("Levels, by least px/m on the subject: {}. {}", bands,
                                            levels.source.empty() ? levels.name : levels.source)});
  Table conditions{{{"condition", 3}, {"light", 7}, {"leaves", 1}}, {}};
  for (const site::Condition& condition : project.conditions)
    conditions.rows.push_back(
        {condition.name, need::light_in_words(condition), condition.leaves == site::Leaves::kOn ? "on" : "off"});
  blocks.emplace_back(conditions);
}

void add_plan(const Job& job, std::vector<Block>& blocks) {
  constexpr int kFigureWidth = 1000;
  blocks.emplace_back(Heading{1, "The plan", true});
  const draw::PlanSheet figure = draw::site_figure(plan_of(job), kFigureWidth);
  std::string words =
      "Cameras with number, height of the lens above the ground, and cable. The frame's figures are metres east and "
      "north. At a true scale, with a key and the names of all that stands there: plan.pdf.";
  if (!figure.labels.aside.empty()) words += " Where a number stands alone, the list of cameras has its name.";
  blocks.emplace_back(draw::Figures{{{figure.page, figure.drawing, words, draw::heard(figure)}}});
}

std::string worst_words(const Job& job, const need::Verdict& verdict) {
  if (!verdict.worst) return "-";
  const need::WorstPlace& worst = *verdict.worst;
  const need::Units units = job.project().settings.units;
  const std::string where = place_on_plan(geom::plan(worst.at_site), units) + ", " + worst.condition;
  return fmt::format("{}{}: {}", where, worst.camera.empty() ? "" : ", by " + worst.camera,
                     need::worst_words(worst, units));
}

/// Needs down, conditions across where they are few; otherwise a line each.
void add_conditions(const Job& job, std::vector<Block>& blocks) {
  constexpr size_t kFew = 6;
  blocks.emplace_back(Heading{2, "Shares by condition"});
  const std::vector<site::Condition>& all = job.project().conditions;
  const bool few = all.size() <= kFew;
  Table table{{{"need", 5}}, {}};
  if (few)
    for (const site::Condition& one : all) table.columns.push_back({one.name, 2, true});
  else
    table.columns.insert(table.columns.end(), {{"condition", 5}, {"share", 2, true}});
  for (const need::Verdict& verdict : job.here.check.verdicts) {
    std::vector<std::string> row{verdict.need};
    row.resize(few ? all.size() + 1 : 1);
    for (const need::ConditionShare& one : verdict.conditions) {
      if (!few) {
        table.rows.push_back({verdict.need, one.condition, need::share_words(one.share)});
        continue;
      }
      for (size_t i = 0; i < all.size(); ++i)
        if (all[i].name == one.condition) row[i + 1] = need::share_words(one.share);
    }
    if (few) table.rows.push_back(std::move(row));
  }
  blocks.emplace_back(std::move(table));
}

void add_verdicts(const Job& job, std::vector<Block>& blocks) {
  const need::Units units = job.project().settings.units;
  blocks.emplace_back(Heading{1, "Needs and verdicts"});
  blocks.emplace_back(Paragraph{
      "Met: even at the low end of what is uncertain. Marginal: it hangs on something uncertain, which is named. "
      "Missed: "
      "not even at the high end. Shares are of places or passages; px/m is what is left after lens, focus, movement, "
      "noise, air and compression, with its 90 % range."});
  Table table{
      {{"need", 4}, {"verdict", 2}, {"share, asked", 3}, {"needs", 2, true}, {"limit", 2.7}, {"worst place", 6.6}}, {}};
  for (const need::Verdict& verdict : job.here.check.verdicts)
    table.rows.push_back(
        {verdict.need, verdict_word(verdict.answer),
         fmt::format("{}, {}", need::share_words(verdict.share.nominal), need::share_words(verdict.required_share)),
         need::density_words(verdict.required, units), limit_words(verdict.limit), worst_words(job, verdict)});
  blocks.emplace_back(table);
  add_conditions(job, blocks);
}

void add_remedies(const Job& job, std::vector<Block>& blocks) {
  Table table{{{"need", 4}, {"what would change it", 8}, {"then", 3}}, {}};
  for (const need::Verdict& verdict : job.here.check.verdicts) {
    if (verdict.answer == need::Answer::kMet) continue;
    std::string what = verdict.settle.empty() ? "" : "to be settled: " + verdict.settle;
    if (!verdict.remedy) {
      table.rows.push_back({verdict.need, what.empty() ? "no change of one camera helps" : what, "-"});
      continue;
    }
    const need::Remedy& remedy = *verdict.remedy;
    what += (what.empty() ? "" : "\n") + remedy.text;
    for (const std::string& spoiled : remedy.spoils) what += "\nit would spoil: " + spoiled;
    table.rows.push_back(
        {verdict.need, what,
         fmt::format("{}, {}", verdict_word(remedy.answer_after), need::share_words(remedy.share_after))});
  }
  if (table.rows.empty()) return;
  blocks.emplace_back(Heading{2, "What would change the rest"});
  blocks.emplace_back(table);
}

void add_overlook(const Job& job, std::vector<Block>& blocks) {
  const loads::Overlook& overlook = job.here.loads.overlook;
  blocks.emplace_back(Heading{1, "What cameras show of others"});
  if (overlook.no_boundary)
    blocks.emplace_back(Paragraph{"No boundary is drawn, so that ground beyond it cannot be told."});
  if (overlook.things.empty())
    blocks.emplace_back(
        Paragraph{"No neighbour's window that was entered, and no ground beyond a boundary, shows in any picture."});
  Table table{
      {{"camera", 3}, {"shows", 4}, {"at most", 2, true}, {"mask, % of the picture", 5}, {"what the mask costs", 6}},
      {}};
  for (const loads::Overlooked& thing : overlook.things) {
    std::string costs;
    for (const loads::MaskCost& cost : thing.costs)
      costs += (costs.empty() ? "" : "\n") + cost_words(cost, job.project().settings.units);
    if (costs.empty()) costs = thing.judged ? "nothing" : "not worked out";
    table.rows.push_back(
        {thing.camera,
         thing.window.empty() ? fmt::format("{:.0f} m2 of ground beyond the boundary", thing.area.si())
                              : "window: " + thing.window,
         need::density_words(thing.density, job.project().settings.units),
         fmt::format("{:.1f} to {:.1f} from the left, {:.1f} to {:.1f} from the top", 100 * thing.mask.left,
                     100 * thing.mask.right, 100 * thing.mask.top, 100 * thing.mask.bottom),
         costs});
  }
  if (!table.rows.empty()) blocks.emplace_back(table);
  blocks.emplace_back(
      Paragraph{"Turn the camera, mask it, or ask: law and courtesy both count here. What may be shown of a street or "
                "of others' land "
                "is for the law where the camera hangs."});
}

void add_rest(const Job& job, std::vector<Block>& blocks) {
  const need::CheckResult& check = job.here.check;
  blocks.emplace_back(Heading{1, "Before drilling"});
  draw::Points cautions{
      {"Before each hole: find out what is in the wall and in the ground (mains, gas, water, other cables), and "
       "whether "
       "the wall may hold asbestos; a detector finds much and not all (common practice, no published source).",
       "Who works over a drive or a public way is guarded against traffic; people under the ladder are kept away."}};
  blocks.emplace_back(cautions);
  draw::Points besides;
  for (const need::Caution& one : check.cautions)
    if (need::find_named(job.project().cameras, one.about) == nullptr) besides.items.push_back(caution_words(one));
  for (const need::Watch& one : check.watches)
    besides.items.push_back(fmt::format(R"(the camera "{}" shows the camera "{}": who tampers with that one is seen)",
                                        one.camera, one.sees));
  for (const std::string& place : check.without_need)
    besides.items.push_back("nothing is asked of the place \"" + place + "\": no verdict is about it");
  if (!besides.items.empty()) {
    blocks.emplace_back(Heading{1, "Noticed besides"});
    blocks.emplace_back(besides);
  }
  blocks.emplace_back(Heading{1, "What was assumed"});
  blocks.emplace_back(
      Paragraph{"Where a data sheet or the site says nothing, these were taken, with their ranges; each verdict "
                "carries them on."});
  Table assumed{{{"assumed", 7}, {"how to settle it", 5}}, {}};
  for (const auto* all : {&check.assumptions, &job.here.loads.assumptions})
    for (const Assumption& one : *all) assumed.rows.push_back({one.what, one.settle});
  blocks.emplace_back(assumed);
  blocks.emplace_back(Heading{1, "What these papers are"});
  blocks.emplace_back(Paragraph{
      "A forecast from optics, light, noise, air and compression, of the site as it was entered. What was not entered "
      "is "
      "not in it: a new hedge, a parked lorry, a dirty dome, a spider. The papers advise and certify nothing; they do "
      "not "
      "show that an installation complies with any standard. Local codes and licensed trades decide how work at "
      "height, "
      "near mains and overhead is done. A picture taken on the spot beats any forecast: the field sheet is for that."});
}

}  // namespace

draw::Document report(const Job& job) {
  draw::Document document = titled(job.project(), "report", job.asked.date);
  add_title(job, document.blocks);
  add_plan(job, document.blocks);
  add_job(job, document.blocks);
  add_verdicts(job, document.blocks);
  add_remedies(job, document.blocks);
  add_cameras(job, document.blocks);
  add_loads(job, document.blocks);
  add_overlook(job, document.blocks);
  add_rest(job, document.blocks);
  return document;
}

}  // namespace sightfall::papers
