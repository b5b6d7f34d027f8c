// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "detail/typical_entries.h"
#include "file/json.h"
#include "file/rules.h"
#include "file/words.h"

namespace sightfall::file {
namespace {

bool readable(const Spot& spot, const Report& report) {
  constexpr std::array<const char*, 4> kFields{"", "low", "nominal", "high"};
  return std::all_of(kFields.begin(), kFields.end(), [&](const char* field) { return report.clean(spot.path, field); });
}

void check_range(const Ranged<double>& value, const Spot& spot, Report& report) {
  const auto [low, nominal, high] = value;
  if (low <= nominal && nominal <= high) return;
  report.add(ErrorKind::kField, spot,
             fmt::format("found low {}, nominal {}, high {}; they must not fall", print_number(low),
                         print_number(nominal), print_number(high)));
}

void check_bounds(const char* field, double value, const detail::TypicalEntry& entry, const Spot& spot,
                  Report& report) {
  if (value >= entry.lowest && value <= entry.highest) return;
  report.add(ErrorKind::kField, spot.at(field),
             fmt::format("found {}; {} allows {} to {}", print_number(value), in_quotes(entry.name),
                         print_number(entry.lowest), print_number(entry.highest)));
}

void check_estimate(const camera::Estimate& estimate, const Spot& spot, Report& report) {
  std::vector<std::string_view> names;
  for (const detail::TypicalEntry& entry : detail::typical_entries()) {
    names.push_back(entry.name);
    if (entry.name != estimate.name) continue;
    check_bounds("low", estimate.value.low, entry, spot, report);
    check_bounds("nominal", estimate.value.nominal, entry, spot, report);
    check_bounds("high", estimate.value.high, entry, spot, report);
    if (readable(spot, report)) check_range(estimate.value, spot, report);
    return;
  }
  report.add(ErrorKind::kReference, spot.at("name"),
             "no entry of data/typical.json is called " + in_quotes(estimate.name) + suggestion(estimate.name, names));
}

}  // namespace

void check_typical(const detail::Typical& typical, Report& report) {
  for (const detail::TypicalEntry& entry : detail::typical_entries()) {
    const Spot spot{fmt::format("settings.typical.{}", entry.name), {}, {}};
    if (readable(spot, report)) check_range((typical.*entry.member).value, spot, report);
  }
}

void check_estimates(const camera::Sheet& sheet, const Spot& spot, Report& report) {
  const std::string list = spot.path.empty() ? "estimates" : spot.path + ".estimates";
  for (size_t i = 0; i < sheet.estimates.size(); ++i) {
    const camera::Estimate& estimate = sheet.estimates[i];
    const Spot at = item_spot(list, i, estimate.name);
    if (!estimate.name.empty() && readable(at, report)) check_estimate(estimate, at, report);
  }
}

}  // namespace sightfall::file
