// SPDX-License-Identifier: GPL-3.0-or-later
// `sightfall card SHEET` and `sightfall card --pixels WxH ...`
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>

#include "card/card.h"
#include "cli/card_text.h"
#include "cli/parse.h"
#include "cli/terminal.h"
#include "cli/verbs.h"
#include "file/answers.h"
#include "file/json.h"
#include "file/project.h"

namespace sightfall::cli {
namespace {

using namespace units;

Errors request_error(std::string_view option, std::string text) {
  return {{ErrorKind::kRequest, std::move(text), {"command line", "", std::string(option)}}};
}

/// A sheet made of options goes through the same reader as one from a file, so that it is held to the same rules.
Checked<camera::Sheet> sheet_of_options(const Given& given) {
  const std::string& pixels = given.text("--pixels");
  int columns = 0, rows = 0, used = 0;
  if (std::sscanf(pixels.c_str(), "%dx%d%n", &columns, &rows, &used) != 2 || used != static_cast<int>(pixels.size()))
    return tl::make_unexpected(request_error(
        "--pixels", fmt::format("found \"{}\"; allowed: pixels across x down, such as 3840x2160", pixels)));
  if (!given.has("--focal"))
    return tl::make_unexpected(request_error("--focal", "missing; without a sheet the focal length is needed"));
  file::Object sheet{{"name", fmt::format("{} px, {:g} mm", pixels, *given.number("--focal"))},
                     {"pixels", file::List{columns, rows}},
                     {"focal_mm", *given.number("--focal")}};
  if (given.has("--view")) sheet.push_back({"view_deg", *given.number("--view")});
  if (given.has("--f-number")) sheet.push_back({"f_number", *given.number("--f-number")});
  if (given.has("--format")) sheet.push_back({"optical_format", given.text("--format")});
  if (given.has("--infrared-reach"))
    sheet.push_back({"infrared", file::Object{{"reach_m", *given.number("--infrared-reach")}}});
  return file::parse_sheet(file::print_json(sheet), "command line");
}

/// Options that only describe a sheet say nothing beside one.
Checked<camera::Sheet> sheet_of(const Given& given) {
  if (!given.has("SHEET")) {
    if (given.has("--pixels")) return sheet_of_options(given);
    return tl::make_unexpected(
        request_error("SHEET", "missing; give a sheet's file, or --pixels WxH --focal MM --view DEG"));
  }
  for (const char* option : {"--pixels", "--view", "--f-number", "--format", "--infrared-reach"})
    if (given.has(option))
      return tl::make_unexpected(request_error(option, "found beside a sheet; it describes a camera without one"));
  return file::load_sheet(given.text("SHEET"));
}

Errors set_camera(const Given& given, const camera::Sheet& sheet, camera::Camera& camera) {
  Errors errors;
  if (const auto focal = given.number("--focal")) {
    camera.focal = *focal * mm;
    const double low = sheet.focal.wide.in(mm), high = sheet.focal.tele.in(mm);
    if (*focal < low * (1 - 1e-9) || *focal > high * (1 + 1e-9))
      errors.push_back(
          {ErrorKind::kRequest,
           fmt::format("found {:g}; allowed: the sheet's {}", *focal,
                       sheet.zoom() ? fmt::format("{:g} to {:g} mm", low, high) : fmt::format("{:g} mm", low)),
           {"command line", "", "--focal"}});
  }
  if (const auto focus = given.number("--focus")) camera.focus = *focus * m;
  if (const auto shutter = given.number("--shutter")) camera.shutter = *shutter * s;
  return errors;
}

/// The level table asked for first, then the other ones.
Checked<std::vector<detail::LevelTable>> tables_of(const Given& given) {
  std::vector<detail::LevelTable> tables = file::standard_level_tables();
  const std::string name = given.text_or("--table", tables.front().name);
  const auto chosen =
      std::find_if(tables.begin(), tables.end(), [&](const detail::LevelTable& t) { return t.name == name; });
  if (chosen == tables.end()) {
    std::string allowed;
    for (const detail::LevelTable& table : tables) allowed += (allowed.empty() ? "" : ", ") + table.name;
    return tl::make_unexpected(request_error("--table", fmt::format("found \"{}\"; allowed: {}", name, allowed)));
  }
  std::rotate(tables.begin(), chosen, chosen + 1);
  return tables;
}

}  // namespace

int run_card(const Given& given) {
  const Checked<camera::Sheet> sheet = sheet_of(given);
  if (!sheet) return report(sheet.error());
  auto tables = tables_of(given);
  if (!tables) return report(tables.error());
  card::CardRequest request;
  request.sheet = *sheet;
  request.tables = std::move(*tables);
  request.typical = file::default_typical();
  if (const Errors errors = set_camera(given, *sheet, request.setting); !errors.empty()) return report(errors);
  if (given.has("--tilt") && !given.has("--height"))
    return report(request_error("--tilt", "found without --height, where the axis is level with the face"));
  if (const auto height = given.number("--height")) request.height = *height * m;
  if (const auto tilt = given.number("--tilt")) request.tilt = *tilt * deg;
  for (const double mark : given.numbers("--marks")) request.marks.push_back(mark * m);
  std::sort(request.marks.begin(), request.marks.end());
  const card::RangeCard card = card::range_card(request);
  const std::string text = given.has("--json") ? file::answer_text(request, card) : card_text(request, card);
  std::fputs(text.c_str(), stdout);
  return 0;
}

}  // namespace sightfall::cli
