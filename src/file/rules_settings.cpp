// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "base/network.h"
#include "file/json.h"
#include "file/project.h"
#include "file/rules.h"
#include "file/words.h"

namespace sightfall::file {
namespace {

using namespace sightfall::units;

void check_table(const detail::LevelTable& table, const Spot& spot, Report& report) {
  for (const detail::LevelTable& standard : standard_level_tables())
    if (table.name == standard.name)
      report.add(ErrorKind::kField, spot.at("name"),
                 "found " + in_quotes(table.name) +
                     ", which is a table of the standard; a table of your own needs a name "
                     "of its own");
  for (size_t i = 1; i < table.levels.size(); ++i) {
    const double before = table.levels[i - 1].least.in(px / m), here = table.levels[i].least.in(px / m);
    if (here > before) continue;
    report.add(ErrorKind::kField, spot.at(fmt::format("levels[{}].px_per_m", i)),
               fmt::format("found {} after {}; levels rise", print_number(here), print_number(before)));
  }
}

}  // namespace

void check_settings(const need::Settings& settings, Report& report) {
  for (size_t i = 0; i < settings.level_tables.size(); ++i) {
    const Spot spot = item_spot("settings.level_tables", i, settings.level_tables[i].name);
    if (report.clean(spot.path, "levels")) check_table(settings.level_tables[i], spot, report);
  }
  const bool tables_readable = report.clean("settings", "level_table") && report.clean("settings", "level_tables");
  if (tables_readable && find_level_table(settings) == nullptr) {
    std::vector<std::string_view> names;
    for (const auto* tables : {&standard_level_tables(), &settings.level_tables})
      for (const detail::LevelTable& table : *tables) names.push_back(table.name);
    report.add(ErrorKind::kReference, {"settings", {}, "level_table"},
               "no level table is called " + in_quotes(settings.level_table) + suggestion(settings.level_table, names));
  }
  if (!settings.house_network.empty() && report.clean("settings", "house_network"))
    if (const auto network = network_of(settings.house_network); !network)
      report.add(ErrorKind::kField, {"settings", {}, "house_network"}, network.error().text);
  check_typical(settings.typical, report);
}

}  // namespace sightfall::file
