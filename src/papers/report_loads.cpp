// SPDX-License-Identifier: GPL-3.0-or-later
// Loads in the report: what carries the cameras, part by part, each with its margin and what to do.
#include <fmt/format.h>

#include <algorithm>

#include "need/words.h"
#include "papers/documents.h"
#include "papers/run_words.h"
#include "papers/told.h"

namespace sightfall::papers {
namespace {

using namespace units;
using draw::Block;
using draw::Heading;
using draw::Paragraph;
using draw::Table;

template <class T>
std::string in_unit(const Ranged<T>& value, T unit, int digits_after = 1) {
  return ranged({value.low.in(unit), value.nominal.in(unit), value.high.in(unit)}, digits_after);
}

void add_part(const std::string& title, const std::string& part, const std::vector<loads::Ask>& asks,
              const std::vector<need::Caution>& cautions, std::vector<Block>& blocks) {
  Table table{{{"what", 4}, {"load, of what carries it", 6}, {"held", 2}, {"what to do", 6}}, {}};
  for (const loads::Ask& ask : asks)
    if (ask.part == part)
      table.rows.push_back({ask.about, ask.words, std::string(loads::in_words(ask.held)), ask.remedy});
  blocks.emplace_back(Heading{2, title});
  if (table.rows.empty())
    blocks.emplace_back(Paragraph{"Nothing was entered of it."});
  else
    blocks.emplace_back(table);
  draw::Points points;
  for (const Said& one : said_once(cautions)) points.items.push_back(caution_words(one));
  if (!points.items.empty()) blocks.emplace_back(points);
}

/// Where cable lies and at what height, for whoever digs, clips and pulls.
void add_ways(const Job& job, std::vector<Block>& blocks) {
  const need::Units units = job.project().settings.units;
  const char* kinds[] = {"along a wall", "trench", "conduit", "tray", "overhead"};
  Table table{{{"way", 5}, {"kind", 3}, {"above ground (-: below)", 3, true}, {"long", 2, true}, {"cables in it", 5}},
              {}};
  for (const site::Way& way : job.project().site.ways)
    table.rows.push_back({way.name, kinds[static_cast<int>(way.kind)], need::measured_words(way.height, units),
                          taped_words(geom::length(way.line), units),
                          fmt::format("{}", fmt::join(runs_along(job, way), ", "))});
  if (table.rows.empty()) return;
  blocks.emplace_back(Heading{3, "Ways that cable takes"});
  blocks.emplace_back(table);
}

void add_rates(const loads::NetworkLoads& network, std::vector<Block>& blocks) {
  if (network.rates.empty()) return;
  const DataRate mbps = 1.0 * (Mbit / s);
  Table table{{{"camera, Mbit/s", 3}, {"by day", 4}, {"by night", 4}, {"told by", 3}}, {}};
  for (const loads::StreamRate& rate : network.rates)
    table.rows.push_back({rate.camera, in_unit(rate.day.rate, mbps), in_unit(rate.night.rate, mbps),
                          rate.day.measured && rate.night.measured ? "measured"
                          : rate.assumed                           ? "forecast, no stream stated"
                                                                   : "its stream"});
  blocks.emplace_back(Heading{3, "What the cameras send"});
  blocks.emplace_back(table);
  if (!network.first_to_fail.empty()) blocks.emplace_back(Paragraph{network.first_to_fail + "."});
}

void add_storage_table(const loads::StorageLoads& storage, std::vector<Block>& blocks) {
  const DataSize terabyte = 1e12 * byte;
  Table table{{{"recorder", 3},
               {"disks, TB", 3, true},
               {"of it recordings", 3, true},
               {"a day, GB", 4},
               {"kept, days", 4},
               {"with twice the pixels, days", 4}},
              {}};
  for (const loads::RecorderStorage& one : storage.recorders) {
    if (!one.lacks.empty()) continue;
    table.rows.push_back({one.recorder, number(one.raw.in(terabyte), 2), number(one.usable.in(terabyte), 2),
                          in_unit(one.a_day, 1e9 * byte), in_unit(one.told, 1.0 * day),
                          in_unit(one.told_doubled, 1.0 * day)});
  }
  if (!table.rows.empty()) blocks.emplace_back(table);
  draw::Points disks;
  for (const loads::RecorderStorage& one : storage.recorders)
    if (const std::string words = disks_in_words(one); !words.empty())
      disks.items.push_back(one.recorder + ": " + words);
  if (!disks.items.empty()) blocks.emplace_back(disks);
}

void add_energy(const loads::PowerLoads& power, std::vector<Block>& blocks) {
  if (power.a_year.nominal > Energy{})
    blocks.emplace_back(Paragraph{fmt::format("Energy: {} kWh a year.", in_unit(power.a_year, 1.0 * kWh, 0))});
}

}  // namespace

void add_loads(const Job& job, std::vector<Block>& blocks) {
  const loads::Loads& loads = job.here.loads;
  const std::vector<loads::Ask>& asks = job.here.asks;
  blocks.emplace_back(Heading{1, "Loads: what carries the cameras"});
  blocks.emplace_back(Paragraph{"A load is a 90 % range; it is met when even its high end is carried."});
  add_part("Power", "power", asks, loads.power.cautions, blocks);
  add_energy(loads.power, blocks);
  std::vector<need::Caution> of_ways = loads.cable.cautions;
  std::erase_if(of_ways, [&](const need::Caution& one) {  // those of a camera stand with it
    return need::find_named(job.project().cameras, one.about) != nullptr;
  });
  add_part("Cables", "cable", asks, of_ways, blocks);
  add_ways(job, blocks);
  add_part("Network", "network", asks, loads.network.cautions, blocks);
  add_rates(loads.network, blocks);
  add_part("Storage", "storage", asks, loads.storage.cautions, blocks);
  add_storage_table(loads.storage, blocks);
  add_part("Mounts", "mount", asks, loads.mount.cautions, blocks);
}

}  // namespace sightfall::papers
