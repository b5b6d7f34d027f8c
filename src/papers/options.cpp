// SPDX-License-Identifier: GPL-3.0-or-later
// Two sites side by side: which needs each meets, what its cameras cost, and what a met need costs.
#include <fmt/format.h>

#include <algorithm>

#include "need/words.h"
#include "papers/cost.h"
#include "papers/documents.h"
#include "papers/money.h"
#include "papers/told.h"

namespace sightfall::papers {
namespace {

using draw::Heading;
using draw::Paragraph;
using draw::Table;

std::string sum_words(const PricedSort& sort) {
  const std::string sum = money_words(sort.sum);
  return sort.unpriced == 0 ? sum : fmt::format("{} and {} without a price", sum, sort.unpriced);
}

std::string cost_of_a_need(const Verdicts& option) {
  const auto met = std::count_if(option.check.verdicts.begin(), option.check.verdicts.end(),
                                 [](const need::Verdict& one) { return one.answer == need::Answer::kMet; });
  const PricedSort all = cost_of(option).all();
  if (met == 0 || all.priced == 0) return "-";
  const std::string each = number(all.sum / static_cast<double>(met), 0);
  return all.unpriced > 0 ? "at least " + each : each;
}

std::string told(const Verdicts& option, const std::string& name) {
  for (const need::Verdict& one : option.check.verdicts)
    if (one.need == name) return fmt::format("{}, {}", verdict_word(one.answer), need::share_words(one.share.nominal));
  return "not asked";
}

/// Of both, which need not count in the same.
std::string currencies_of(const need::Project& a, const need::Project& b) {
  if (currency_of(a) == currency_of(b)) return currency_of(a);
  return fmt::format("A {}, B {}", currency_of(a), currency_of(b));
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
  const Cost cost_a = cost_of(a), cost_b = cost_of(b);
  sums.rows.push_back({"price of the cameras", sum_words(cost_a.cameras), sum_words(cost_b.cameras)});
  sums.rows.push_back({"price of feeds, disks and cable", sum_words(cost_a.carriers()), sum_words(cost_b.carriers())});
  sums.rows.push_back({"price of all these", sum_words(cost_a.all()), sum_words(cost_b.all())});
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
  blocks.emplace_back(Paragraph{
      fmt::format(
          "Prices are those that were entered, {}; cable by its longest likely length; brackets, fixings, ends of "
          "cables, what cable lies in, and work are not in them.",
          currencies_of(*a.project, *b.project)),
      draw::Tone::kNote});
  return document;
}

}  // namespace sightfall::papers
