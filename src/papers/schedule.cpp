// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/schedule.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>

#include "papers/documents.h"
#include "papers/fixing_words.h"
#include "papers/run_words.h"
#include "papers/told.h"

namespace sightfall::papers {
namespace {

using namespace units;

/// As the other papers write it, so that a half is rounded to one side in all of them.
Cell rounded(double value, int digits) { return std::strtod(number(value, digits).c_str(), nullptr); }

Cell text_or_nothing(const std::string& text) { return text.empty() ? Cell{} : Cell{text}; }

Cell price_of(const std::optional<double>& price) { return price ? Cell{*price} : Cell{}; }

const loads::PortLoad* load_on(const Job& job, const std::string& run) {
  for (const loads::PortLoad& load : job.here.loads.power.ports)
    if (load.run == run) return &load;
  return nullptr;
}

/// Things that are alike are counted together, in the order in which they come first.
void count(Schedule& all, const std::string& kind, const std::string& what, const std::optional<double>& price,
           const std::string& where = {}, int pieces = 1) {
  for (auto& row : all.rows)
    if (row[0] == Cell{kind} && row[1] == Cell{what}) {
      row[2] = std::get<double>(row[2]) + pieces;
      if (price) row[5] = std::get<double>(row[2]) * *price;
      auto& told = std::get<std::string>(row[6]);
      if (!where.empty() && told.find(where) == std::string::npos) told += "; " + where;
      return;
    }
  all.rows.push_back(
      {kind, what, double(pieces), "pieces", price_of(price), price ? Cell{pieces * *price} : Cell{}, where});
}

std::string in_surface(const site::Mount& mount) {
  return mount.surface.empty() ? ", in what is there: look" : ", in " + mount.surface;
}

void add_fixings(const Job& job, Schedule& all) {
  for (const loads::HeldMount& held : job.here.loads.mount.mounts) {
    const site::Mount& mount = need::the_named(job.project().site.mounts, held.mount);
    const std::string where =
        held.pull.held == loads::Held::kMet
            ? held.mount
            : fmt::format("{} (settle before buying: {})", held.mount, loads::in_words(held.pull.held));
    if (mount.fixing)
      count(all, "fixing", fixing_words(*mount.fixing) + in_surface(mount), {}, where, mount.fixing->count);
    else
      all.rows.push_back({"fixing", held_by_words(job, mount), Cell{}, "pieces", Cell{}, Cell{}, where});
  }
}

void add_brackets(const Job& job, Schedule& all) {
  for (const CameraPart& part : job.cameras)
    count(all, "bracket",
          fmt::format("for {}{}", part.sheet->name,
                      part.mount->surface.empty() ? "" : ", to hang on " + part.mount->surface),
          {}, part.mount->name);
  for (const CameraPart& part : job.cameras) {
    const auto& cautions = job.here.loads.cable.cautions;
    const bool advised = std::any_of(cautions.begin(), cautions.end(), [&](const need::Caution& one) {
      return one.about == part.camera->name && one.text == loads::kTailOutdoors;
    });
    if (advised || part.mount->back_box)
      count(all, "back box", advised ? "advised, for tail and plug" : "for tail and plug", {}, part.mount->name);
  }
}

std::optional<double> metre_price_of(const Job& job, const std::string& cable) {
  for (const loads::CableNeed& need : job.here.loads.cable.to_buy)
    if (need.cable == cable) return need.metre_price;
  return std::nullopt;
}

std::vector<Cell> cable_row(const Job& job, const char* kind, const std::string& what, const std::string& cable,
                            double metres, const std::string& remarks) {
  const std::optional<double> each = metre_price_of(job, cable);
  return {kind, what, metres, "m at most", price_of(each), each ? rounded(metres * *each, 2) : Cell{}, remarks};
}

/// Cable is bought by its longest likely length: what is too short is thrown away.
double metres_of(const loads::LaidRun& laid) { return std::get<double>(rounded(laid.length.high.si(), 1)); }

/// A row for each run, then what is sound to buy of each kind, then what is to be settled first.
void add_cable(const Job& job, Schedule& all) {
  std::vector<std::vector<Cell>> unsettled;
  for (const loads::LaidRun& laid : job.here.loads.cable.runs) {
    const site::Run& run = *laid.run;
    const bool sound = laid.held == loads::Held::kMet;
    const std::string what = run.name + ": " + run.cable, ends = fmt::format("{} to {}", run.from, run.to);
    if (sound)
      all.rows.push_back(cable_row(job, "cable", what, run.cable, metres_of(laid), ends));
    else
      unsettled.push_back({"settle before buying", what, metres_of(laid), "m at most", Cell{}, Cell{},
                           fmt::format("{}; {}: {}", ends, loads::in_words(laid.held), remarks_of(laid))});
  }
  for (const loads::CableNeed& need : job.here.loads.cable.to_buy) {
    double metres = 0;
    std::string runs;
    for (const loads::LaidRun& laid : job.here.loads.cable.runs)
      if (laid.run->cable == need.cable && laid.held == loads::Held::kMet) {
        metres += metres_of(laid);
        runs += (runs.empty() ? "" : ", ") + laid.run->name;
      }
    if (!runs.empty())
      all.rows.push_back({"cable in all", need.cable, rounded(metres, 1), "m at most", Cell{}, Cell{},
                          "sound to buy: " + runs + "; the most that may be needed; its price stands with the runs"});
  }
  for (auto& row : unsettled) all.rows.push_back(std::move(row));
}

/// What runs ask for at their ends, by the cable that is to be used.
void add_ends(const Job& job, Schedule& all) {
  for (const loads::LaidRun& laid : job.here.loads.cable.runs) {
    const site::Cable& cable = cable_to_use(job, laid);
    const bool fibre = cable.medium == site::CableMedium::kFibre;
    if (!fibre && !laid.run->surge_protected && !laid.outdoors) continue;
    constexpr int kEnds = 2;
    const bool advised = !fibre && !laid.run->surge_protected;
    const std::string where = laid.held == loads::Held::kMet ? laid.run->name
                                                             : fmt::format("{} (settle before buying: {})",
                                                                           laid.run->name, loads::in_words(laid.held));
    count(all, fibre ? "fibre module" : "surge protector", (advised ? "advised, for " : "for ") + cable.name, {}, where,
          kEnds);
  }
}

std::string lamp_in_words(const site::Lamp& lamp) {
  const char* kinds[] = {"LED", "halogen", "sodium", "infrared, 850 nm", "infrared, 940 nm"};
  std::string words = fmt::format("{}: {}", lamp.name, kinds[static_cast<int>(lamp.light)]);
  if (lamp.lumens) words += fmt::format(", {:g} lm", lamp.lumens->in(lm));
  if (lamp.draw) words += fmt::format(", {:g} W", lamp.draw->in(W));
  return words;
}

/// Lamps are part of the site: they are looked at, not bought.
void add_lamps(const Job& job, Schedule& all) {
  for (const site::Lamp& lamp : job.project().site.lamps)
    if (const std::string needs = relying_on(job, lamp.name); !needs.empty())
      all.rows.push_back({"lamp, there already", lamp_in_words(lamp), 1.0, "pieces", Cell{}, Cell{},
                          fmt::format("as the document has it: {}, {} m high, heading {}, {} below the horizon; "
                                      "relied on by: {}",
                                      place_on_plan(lamp.at, need::Units::kMetres), number(lamp.height.si()),
                                      angle(lamp.heading), angle(lamp.tilt), needs)});
}

std::string quoted(const std::string& text) {
  std::string cell = text;
  const bool formula = !text.empty() && std::string_view{"=+-@\t\r"}.find(text.front()) != std::string_view::npos;
  if (formula) cell.insert(cell.begin(), '\'');
  if (cell.find_first_of(",\"\r\n") == std::string::npos) return cell;
  std::string result = "\"";
  for (const char c : cell) result += c == '"' ? std::string{"\"\""} : std::string{c};
  return result + "\"";
}

std::string written(const Cell& cell) {
  if (const auto* text = std::get_if<std::string>(&cell)) return quoted(*text);
  if (const auto* number = std::get_if<double>(&cell)) return fmt::format("{:.12g}", *number);
  return {};
}

}  // namespace

Schedule cameras_of(const Job& job) {
  Schedule all{
      "cameras",
      {"number", "camera", "sheet", "mount", "surface", "access", "east, m", "north, m", "height of the lens, m",
       "heading, deg", "tilt, deg", "focal length, mm", "focus, m", "address", "price"},
      {}};
  for (const CameraPart& part : job.cameras)
    all.rows.push_back({double(part.number), part.camera->name, part.sheet->name, part.mount->name, part.mount->surface,
                        part.mount->access, rounded(part.mount->at.x, 2), rounded(part.mount->at.y, 2),
                        rounded(part.aim.height.si(), 2), rounded(part.aim.heading.in(deg), 1),
                        rounded(part.aim.tilt.in(deg), 1), rounded(part.aim.focal.in(mm), 2),
                        std::isfinite(part.card.focus.si()) ? rounded(part.card.focus.si(), 1) : Cell{"infinity"},
                        address_of(job, part.camera->name), price_of(part.sheet->price)});
  return all;
}

Schedule cables_of(const Job& job) {
  Schedule all{"cables",
               {"label", "from", "port", "to", "port there", "cable", "length, m", "at least, m", "at most, m", "along",
                "outdoors", "in the sun", "surge protection", "held", "remarks"},
               {}};
  for (const loads::LaidRun& laid : job.here.loads.cable.runs) {
    const site::Run& run = *laid.run;
    all.rows.push_back({run.name, run.from, run.port ? Cell{double(*run.port)} : Cell{}, run.to,
                        text_or_nothing(port_there(job.project(), run)), run.cable,
                        rounded(laid.length.nominal.si(), 1), rounded(laid.length.low.si(), 1),
                        rounded(laid.length.high.si(), 1), fmt::format("{}", fmt::join(laid.along, "; ")),
                        laid.outdoors ? "yes" : "no", laid.in_sun ? "yes" : "no", surge_words(laid),
                        std::string(loads::in_words(laid.held)), remarks_of(laid)});
  }
  return all;
}

Schedule ports_of(const Job& job) {
  Schedule all{
      "ports", {"feed", "port", "power class", "cable", "to", "address", "draws at most, W", "held", "remarks"}, {}};
  for (const site::Feed& feed : job.project().site.feeds) {
    if (feed.kind == site::FeedKind::kSupply || feed.kind == site::FeedKind::kBattery) continue;
    std::vector<PortTaken> taken = ports_taken(job.project(), feed);
    for (int port = 1; port <= feed.ports.count; ++port)
      if (std::none_of(taken.begin(), taken.end(), [&](const PortTaken& one) { return one.port == port; }))
        taken.push_back({nullptr, port});
    // What found no port stands last.
    std::stable_sort(taken.begin(), taken.end(), [](const PortTaken& a, const PortTaken& b) {
      return a.port != b.port && a.port != 0 && (b.port == 0 || a.port < b.port);
    });
    for (const PortTaken& one : taken) {
      const Cell number = one.proposed ? Cell{port_words(feed, one)} : Cell{double(one.port)};
      const Cell power = one.port > 0 && one.port <= feed.ports.powered ? Cell{double(feed.ports.power_class)} : Cell{};
      if (one.run == nullptr) {
        all.rows.push_back({feed.name, number, power, Cell{}, "free", Cell{}, Cell{}, Cell{}, Cell{}});
        continue;
      }
      const loads::PortLoad* load = one.incoming ? nullptr : load_on(job, one.run->name);
      const RunVerdict verdict = verdict_of(job, *one.run);
      all.rows.push_back({feed.name, number, power, one.run->name, one.incoming ? "from " + one.run->from : one.run->to,
                          text_or_nothing(one.incoming ? std::string{} : address_of(job, one.run->to)),
                          load != nullptr ? rounded(load->at_port.load.high.in(W), 2) : Cell{},
                          std::string(loads::in_words(verdict.held)), text_or_nothing(verdict.remarks)});
    }
  }
  return all;
}

Schedule materials_of(const Job& job) {
  const char* kinds[] = {"switch", "injector", "recorder", "router", "supply", "battery"};
  Schedule all{"materials", {"kind", "what", "quantity", "unit", "price each", "price", "remarks"}, {}};
  for (const CameraPart& part : job.cameras)
    count(all, "camera", part.sheet->name, part.sheet->price, part.camera->name);
  for (const site::Feed& feed : job.project().site.feeds) {
    count(all, kinds[static_cast<int>(feed.kind)], feed.name, feed.price, power_remark(job, feed));
    if (feed.disks)
      count(all, "disk", fmt::format("{:g} TB, for {}", feed.disks->each.in(1e12 * byte), feed.name), feed.disks->price,
            {}, feed.disks->count);
  }
  add_cable(job, all);
  add_ends(job, all);
  add_brackets(job, all);
  add_fixings(job, all);
  for (const CameraPart& part : job.cameras)
    if (part.camera->recording.card)
      count(all, "card", fmt::format("{:g} GB", part.camera->recording.card->in(1e9 * byte)), {});
  add_lamps(job, all);
  return all;
}

std::vector<Schedule> schedules(const Job& job) {
  return {cameras_of(job), cables_of(job), ports_of(job), materials_of(job)};
}

std::string csv_of(const Schedule& schedule) {
  std::string text;
  const auto line = [&](const auto& cells, const auto& write) {
    for (size_t i = 0; i < cells.size(); ++i) text += (i > 0 ? "," : "") + write(cells[i]);
    text += "\r\n";
  };
  line(schedule.columns, quoted);
  for (const auto& row : schedule.rows) line(row, written);
  return text;
}

}  // namespace sightfall::papers
