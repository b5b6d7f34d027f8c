// SPDX-License-Identifier: GPL-3.0-or-later
// Two sites side by side: which needs each meets, what its cameras cost, and what a met need costs.
#include <fmt/format.h>

#include <algorithm>

#include "need/words.h"
#include "papers/documents.h"
#include "papers/told.h"

namespace sightfall::papers {
namespace {

using draw::Heading;
using draw::Paragraph;
using draw::Table;

struct Cost {
  double sum = 0;
  size_t unknown = 0;
};

Cost cost_of(const need::Project& project) {
  Cost cost;
  for (const camera::Camera& camera : project.cameras) {
    const camera::Sheet& sheet = need::the_named(project.catalogue, camera.sheet);
    if (sheet.price)
      cost.sum += *sheet.price;
    else
      ++cost.unknown;
  }
  return cost;
}

std::string cost_words(const Cost& cost) {
  if (cost.unknown == 0) return fmt::format("{:g}", cost.sum);
  return fmt::format("{:g} and {} without a price", cost.sum, cost.unknown);
}

std::string cost_of_a_need(const Verdicts& option) {
  const auto met = std::count_if(option.check.verdicts.begin(), option.check.verdicts.end(),
                                 [](const need::Verdict& one) { return one.answer == need::Answer::kMet; });
  const Cost cost = cost_of(*option.project);
  if (met == 0 || cost.unknown > 0) return "-";
  return number(cost.sum / static_cast<double>(met), 0);
}

std::string told(const Verdicts& option, const std::string& name) {
  for (const need::Verdict& one : option.check.verdicts)
    if (one.need == name) return fmt::format("{}, {}", verdict_word(one.answer), need::share_words(one.share.nominal));
  return "not asked";
}

std::string loads_words(const Verdicts& option) {
  const std::vector<loads::Ask>& asks = option.asks;
  const auto met =
      std::count_if(asks.begin(), asks.end(), [](const loads::Ask& one) { return one.held == loads::Held::kMet; });
  return fmt::format("{} of {} met", met, asks.size());
}

}  // namespace

draw::Document options(const Job& job) {
  const Verdicts &a = job.here, &b = *job.other;
  draw::Document document = titled(*a.project, "options", job.asked.date);
  auto& blocks = document.blocks;
  blocks.emplace_back(Heading{1, "Options A and B"});
  blocks.emplace_back(Paragraph{fmt::format("A: {}. B: {}.", a.project->name, b.project->name), draw::Tone::kLead});
  Table sums{{{"", 5}, {"A", 4}, {"B", 4}}, {}};
  sums.rows.push_back({"needs", counts(a.check.verdicts), counts(b.check.verdicts)});
  sums.rows.push_back(
      {"cameras", std::to_string(a.project->cameras.size()), std::to_string(b.project->cameras.size())});
  sums.rows.push_back({"price of the cameras", cost_words(cost_of(*a.project)), cost_words(cost_of(*b.project))});
  sums.rows.push_back({"price for each need met", cost_of_a_need(a), cost_of_a_need(b)});
  sums.rows.push_back({"loads", loads_words(a), loads_words(b)});
  blocks.emplace_back(sums);
  Table needs{{{"need", 5}, {"A", 4}, {"B", 4}}, {}};
  std::vector<std::string> names;
  for (const Verdicts* option : {&a, &b})
    for (const need::Verdict& one : option->check.verdicts)
      if (std::find(names.begin(), names.end(), one.need) == names.end()) names.push_back(one.need);
  for (const std::string& name : names) needs.rows.push_back({name, told(a, name), told(b, name)});
  blocks.emplace_back(needs);
  blocks.emplace_back(
      Paragraph{"Prices are the sheets' alone; cables, feeds and work are not in them.", draw::Tone::kNote});
  return document;
}

}  // namespace sightfall::papers
