// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/cost.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <vector>

#include "papers/money.h"

namespace sightfall::papers {
namespace {

struct SortWords {
  PricedSort Cost::*sort;
  const char *one, *more;
};

constexpr std::array<SortWords, 4> kSorts{
    {{&Cost::cameras, "camera", "cameras"},
     {&Cost::feeds, "other device (switch, recorder and the like)", "other devices (switches, recorders and the like)"},
     {&Cost::disks, "disk", "disks"},
     {&Cost::cable, "kind of cable, by its longest likely length", "kinds of cable, by their longest likely length"}}};

std::string sort_words(size_t count, const SortWords& words) {
  return fmt::format("{} {}", count, count == 1 ? words.one : words.more);
}

}  // namespace

void PricedSort::add(const std::optional<double>& price, size_t pieces) {
  (price ? priced : unpriced) += pieces;
  sum += static_cast<double>(pieces) * price.value_or(0);
}

void PricedSort::add(const PricedSort& other) {
  sum += other.sum;
  priced += other.priced;
  unpriced += other.unpriced;
}

PricedSort Cost::carriers() const {
  PricedSort all = feeds;
  all.add(disks);
  all.add(cable);
  return all;
}

PricedSort Cost::all() const {
  PricedSort all = carriers();
  all.add(cameras);
  return all;
}

Cost cost_of(const Verdicts& option) {
  Cost cost;
  for (const camera::Camera& camera : option.project->cameras)
    cost.cameras.add(need::the_named(option.project->catalogue, camera.sheet).price);
  for (const site::Feed& feed : option.project->site.feeds) {
    cost.feeds.add(feed.price);
    if (feed.disks) cost.disks.add(feed.disks->price, static_cast<size_t>(feed.disks->count));
  }
  for (const loads::CableNeed& need : option.loads.cable.to_buy) cost.cable.add(need.price());
  return cost;
}

std::string money_words(double sum) { return fmt::format("{:.12g}", std::round(100 * sum) / 100); }

std::string cost_told(const Job& job) {
  const Cost cost = cost_of(job.here);
  if (cost.all().priced == 0) return "No prices were entered.";
  std::vector<std::string> in, out;
  for (const SortWords& words : kSorts) {
    const PricedSort& sort = cost.*words.sort;
    if (sort.priced > 0) in.push_back(fmt::format("{}: {}", sort_words(sort.priced, words), money_words(sort.sum)));
    if (sort.unpriced > 0) out.push_back(sort_words(sort.unpriced, words));
  }
  out.emplace_back("brackets, fixings, ends of cables, what cable lies in, and work");
  return fmt::format("What has a price comes to {}{}: {}. Not in it, for no price was entered: {}.",
                     money_words(cost.all().sum), currency_after(job.project()), fmt::join(in, "; "),
                     fmt::join(out, "; "));
}

}  // namespace sightfall::papers
