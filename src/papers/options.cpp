// SPDX-License-Identifier: GPL-3.0-or-later
// Two sites side by side: which needs each meets, what its cameras cost, and what a met need costs.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "need/words.h"
#include "papers/documents.h"
#include "papers/money.h"
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

void add_to(Cost& cost, const std::optional<double>& price, int pieces = 1) {
  if (price)
    cost.sum += pieces * *price;
  else
    ++cost.unknown;
}

Cost cameras_cost(const need::Project& project) {
  Cost cost;
  for (const camera::Camera& camera : project.cameras)
    add_to(cost, need::the_named(project.catalogue, camera.sheet).price);
  return cost;
}

/// Feeds, their disks, and cable by its longest likely length.
Cost carriers_cost(const Verdicts& option) {
  Cost cost;
  for (const site::Feed& feed : option.project->site.feeds) {
    add_to(cost, feed.price);
    if (feed.disks) add_to(cost, feed.disks->price, feed.disks->count);
  }
  for (const loads::CableNeed& need : option.loads.cable.to_buy) add_to(cost, need.price());
  return cost;
}

std::string cost_words(const Cost& cost) {
  const std::string sum = fmt::format("{:.12g}", std::round(100 * cost.sum) / 100);
  return cost.unknown == 0 ? sum : fmt::format("{} and {} without a price", sum, cost.unknown);
}

std::string cost_of_a_need(const Verdicts& option) {
  const auto met = std::count_if(option.check.verdicts.begin(), option.check.verdicts.end(),
                                 [](const need::Verdict& one) { return one.answer == need::Answer::kMet; });
  const Cost cameras = cameras_cost(*option.project), carriers = carriers_cost(option);
  if (met == 0 || cameras.unknown > 0) return "-";
  const std::string each = number((cameras.sum + carriers.sum) / static_cast<double>(met), 0);
  return carriers.unknown > 0 ? "at least " + each : each;
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
  sums.rows.push_back(
      {"price of the cameras", cost_words(cameras_cost(*a.project)), cost_words(cameras_cost(*b.project))});
  sums.rows.push_back({"price of feeds, disks and cable", cost_words(carriers_cost(a)), cost_words(carriers_cost(b))});
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
          "cables and work are not in them.",
          currency_of(*a.project)),
      draw::Tone::kNote});
  return document;
}

}  // namespace sightfall::papers
