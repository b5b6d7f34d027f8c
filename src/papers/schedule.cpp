// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/schedule.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <utility>

#include "papers/money.h"
#include "papers/run_words.h"
#include "papers/told.h"

namespace sightfall::papers {
namespace {

using namespace units;

Cell text_or_nothing(const std::string& text) { return text.empty() ? Cell{} : Cell{text}; }

Cell price_of(const std::optional<double>& price) { return price ? Cell{*price} : Cell{}; }

/// The one place where what would do as well is told.
std::string remarks_and_more(const Job& job, const loads::LaidRun& laid) {
  std::string all = cable_verdict(job, laid).remarks;
  if (laid.powered && !fed_as_laid(laid)) all += std::string("; ") + loads::kNoPowerByFibre;
  return laid.otherwise.empty() ? all : all + "; otherwise: " + laid.otherwise;
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

Cell rounded(double value, int digits) { return std::strtod(number(value, digits).c_str(), nullptr); }

Schedule cameras_of(const Job& job) {
  const LengthsIn lengths{job.project().settings.units};
  Schedule all{"cameras",
               {"number", "camera", "sheet", "mount", "surface", "access", lengths.column("east"),
                lengths.column("north"), lengths.column("height of the lens"), "heading, deg", "tilt, deg",
                "focal length, mm", lengths.column("focus"), "address", "price, " + currency_of(job.project())},
               {}};
  for (const CameraPart& part : job.cameras)
    all.rows.push_back({double(part.number), part.camera->name, part.sheet->name, part.mount->name, part.mount->surface,
                        part.mount->access, lengths.cell(Length{part.mount->at.x}, 2),
                        lengths.cell(Length{part.mount->at.y}, 2), lengths.cell(part.aim.height, 2),
                        rounded(part.aim.heading.in(deg), 1), rounded(part.aim.tilt.in(deg), 1),
                        rounded(part.aim.focal.in(mm), 2),
                        std::isfinite(part.card.focus.si()) ? lengths.cell(part.card.focus, 1) : Cell{"infinity"},
                        address_of(job, part.camera->name), price_of(part.sheet->price)});
  return all;
}

Schedule cables_of(const Job& job) {
  const LengthsIn lengths{job.project().settings.units};
  Schedule all{"cables",
               {"label", "from", "port", "to", "port there", "cable", "in place of",
                lengths.column("length with slack and loops"), lengths.column("at least"), lengths.column("at most"),
                "along", "outdoors", "in the sun", "surge protection", "as planned", "remarks"},
               {}};
  for (const loads::LaidRun& laid : job.here.loads.cable.runs) {
    const site::Run& run = *laid.run;
    all.rows.push_back({run.name, run.from, run.port ? Cell{double(*run.port)} : Cell{}, run.to,
                        text_or_nothing(port_there(job.project(), run)), laid.to_lay().name,
                        text_or_nothing(laid.instead != nullptr ? laid.cable->name : std::string{}),
                        lengths.cell(laid.length.nominal, 1), lengths.cell(laid.length.low, 1),
                        lengths.cell(laid.length.high, 1), fmt::format("{}", fmt::join(laid.along, "; ")),
                        laid.outdoors ? "yes" : "no", laid.in_sun ? "yes" : "no", surge_words(laid),
                        std::string(loads::in_words(cable_verdict(job, laid).held)), remarks_and_more(job, laid)});
  }
  return all;
}

Schedule ports_of(const Job& job) {
  Schedule all{"ports",
               {"feed", "port", "power class", "cable", "to", "address", "draws at most, W", "as planned", "remarks"},
               {}};
  const House house = house_of(job.project());
  for (const site::Feed& feed : job.project().site.feeds) {
    if (feed.kind == site::FeedKind::kSupply || feed.kind == site::FeedKind::kBattery) continue;
    const bool of_house = house.devices.contains(feed.name);
    std::vector<PortTaken> taken = ports_taken(job.project(), feed);
    for (int port = 1; port <= feed.ports.count; ++port)
      if (std::none_of(taken.begin(), taken.end(), [&](const PortTaken& one) { return one.port == port; }))
        taken.push_back({nullptr, port});
    put_in_port_order(taken);
    for (const PortTaken& one : taken) {
      const Cell number = one.proposed ? Cell{port_words(feed, one)} : Cell{double(one.port)};
      const Cell power = one.port > 0 && one.port <= feed.ports.powered ? Cell{double(feed.ports.power_class)} : Cell{};
      if (one.run == nullptr) {
        all.rows.push_back({feed.name, number, power, Cell{}, "free", Cell{}, Cell{}, Cell{}, Cell{}});
        continue;
      }
      const bool fed = !one.incoming && fed_as_laid(laid_of(job, one.run->name));
      const loads::PortLoad* load = fed ? port_load(job, one.run->name) : nullptr;
      const RunVerdict verdict = verdict_of(job, *one.run);
      std::string remarks = network_of_run(job, feed, *one.run);
      if (!verdict.remarks.empty()) remarks += (remarks.empty() ? "" : "; ") + verdict.remarks;
      all.rows.push_back({feed.name, number, power, one.run->name, one.incoming ? "from " + one.run->from : one.run->to,
                          text_or_nothing(one.incoming || of_house ? std::string{} : address_of(job, one.run->to)),
                          load != nullptr ? rounded(load->at_port.load.high.in(W), 2) : Cell{},
                          std::string(loads::in_words(verdict.held)), text_or_nothing(remarks)});
    }
  }
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
