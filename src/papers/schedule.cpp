// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/schedule.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "papers/fixing_words.h"

namespace sightfall::papers {
namespace {

using namespace units;

/// So many digits after the point, as the answers have them.
Cell rounded(double value, int digits) {
  const double parts = std::pow(10, digits);
  return std::round(value * parts) / parts;
}

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

/// Runs of a kind of cable that should not be bought before they are settled.
std::string doubts_of(const Job& job, const std::string& cable) {
  std::string doubts;
  for (const loads::LaidRun& laid : job.here.loads.cable.runs)
    if (laid.run->cable == cable && laid.held != loads::Held::kMet)
      doubts += (doubts.empty() ? "settle before buying: " : ", ") + laid.run->name + " is " +
                std::string(loads::in_words(laid.held));
  return doubts;
}

/// What runs ask for at their ends.
void add_ends(const Job& job, Schedule& all) {
  for (const loads::LaidRun& laid : job.here.loads.cable.runs) {
    const bool fibre = laid.cable->medium == site::CableMedium::kFibre;
    if (!fibre && !laid.run->surge_protected && !laid.outdoors) continue;
    constexpr int kEnds = 2;
    const bool advised = !fibre && !laid.run->surge_protected;
    count(all, fibre ? "fibre module" : "surge protector", (advised ? "advised, for " : "for ") + laid.run->cable, {},
          laid.run->name, kEnds);
  }
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

const site::Run* run_on_port(const need::Project& project, const std::string& feed, int port) {
  for (const site::Run& run : project.site.runs)
    if (run.from == feed && run.port == port) return &run;
  return nullptr;
}

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
               {"label", "from", "port", "to", "cable", "length, m", "at least, m", "at most, m", "along", "outdoors",
                "in the sun", "surge protection", "held", "remarks"},
               {}};
  for (const loads::LaidRun& laid : job.here.loads.cable.runs) {
    const site::Run& run = *laid.run;
    all.rows.push_back({run.name, run.from, run.port ? Cell{double(*run.port)} : Cell{}, run.to, run.cable,
                        rounded(laid.length.nominal.si(), 1), rounded(laid.length.low.si(), 1),
                        rounded(laid.length.high.si(), 1), fmt::format("{}", fmt::join(laid.along, "; ")),
                        laid.outdoors ? "yes" : "no", laid.in_sun ? "yes" : "no", run.surge_protected ? "yes" : "no",
                        std::string(loads::in_words(laid.held)), fmt::format("{}", fmt::join(laid.flags, "; "))});
  }
  return all;
}

Schedule ports_of(const Job& job) {
  Schedule all{"ports", {"feed", "port", "power class", "cable", "to", "address", "draws at most, W", "held"}, {}};
  for (const site::Feed& feed : job.project().site.feeds) {
    if (feed.kind == site::FeedKind::kSupply || feed.kind == site::FeedKind::kBattery) continue;
    for (int port = 1; port <= feed.ports.count; ++port) {
      const Cell power = port <= feed.ports.powered ? Cell{double(feed.ports.power_class)} : Cell{};
      const site::Run* run = run_on_port(job.project(), feed.name, port);
      if (run == nullptr) {
        all.rows.push_back({feed.name, double(port), power, Cell{}, "free", Cell{}, Cell{}, Cell{}});
        continue;
      }
      const loads::PortLoad* load = load_on(job, run->name);
      all.rows.push_back({feed.name, double(port), power, run->name, run->to, address_of(job, run->to),
                          load != nullptr ? rounded(load->at_port.load.high.in(W), 2) : Cell{},
                          load != nullptr ? Cell{std::string(loads::in_words(load->held))} : Cell{}});
    }
    for (const site::Run& run : job.project().site.runs)
      if (run.to == feed.name)
        all.rows.push_back({feed.name, "any free", Cell{}, run.name, "from " + run.from, Cell{}, Cell{}, Cell{}});
  }
  return all;
}

Schedule materials_of(const Job& job) {
  const char* kinds[] = {"switch", "injector", "recorder", "router", "supply", "battery"};
  Schedule all{"materials", {"kind", "what", "quantity", "unit", "price each", "price", "remarks"}, {}};
  for (const CameraPart& part : job.cameras)
    count(all, "camera", part.sheet->name, part.sheet->price, part.camera->name);
  for (const site::Feed& feed : job.project().site.feeds) {
    count(all, kinds[static_cast<int>(feed.kind)], feed.name, feed.price);
    if (feed.disks)
      count(all, "disk", fmt::format("{:g} TB, for {}", feed.disks->each.in(1e12 * byte), feed.name), feed.disks->price,
            {}, feed.disks->count);
  }
  // Cable is bought by its longest likely length: what is too short is thrown away.
  for (const loads::CableNeed& need : job.here.loads.cable.to_buy)
    all.rows.push_back({"cable", need.cable, rounded(need.length.high.si(), 1), "m", price_of(need.metre_price),
                        need.price() ? rounded(*need.price(), 2) : Cell{}, doubts_of(job, need.cable)});
  add_ends(job, all);
  add_brackets(job, all);
  add_fixings(job, all);
  for (const CameraPart& part : job.cameras)
    if (part.camera->recording.card)
      count(all, "card", fmt::format("{:g} GB", part.camera->recording.card->in(1e9 * byte)), {});
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
