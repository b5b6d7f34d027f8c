// SPDX-License-Identifier: GPL-3.0-or-later
// `sightfall card SHEET` and `sightfall card --pixels WxH ...`
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <limits>

#include "card/card.h"
#include "cli/calibrate.h"
#include "cli/card_text.h"
#include "cli/check_maps.h"
#include "cli/parse.h"
#include "cli/terminal.h"
#include "cli/verbs.h"
#include "draw/card_picture.h"
#include "file/answers.h"
#include "file/json.h"
#include "file/project.h"
#include "file/words.h"

namespace sightfall::cli {
namespace {

using namespace units;

tl::unexpected<Errors> refused(std::string_view option, std::string text) {
  return tl::make_unexpected(Errors{request_error(option, std::move(text))});
}

/// What a sheet's field is called on the command line.
struct SheetOption {
  std::string_view option, field;
};
constexpr std::array<SheetOption, 6> kSheetOptions{{{"--pixels", "pixels"},
                                                    {"--focal", "focal_mm"},
                                                    {"--view", "view_deg"},
                                                    {"--f-number", "f_number"},
                                                    {"--format", "optical_format"},
                                                    {"--infrared-reach", "reach_m"}}};

/// `3840x2160` as two whole numbers.
std::optional<file::List> pixels_of(const std::string& text) {
  const size_t cross = std::min(text.find('x'), text.size() - 1);
  file::List pixels;
  for (const std::string_view part :
       {std::string_view(text).substr(0, cross), std::string_view(text).substr(cross + 1)}) {
    int count = 0;
    const auto [end, error] = std::from_chars(part.data(), part.data() + part.size(), count);
    if (error != std::errc{} || end != part.data() + part.size()) return std::nullopt;
    pixels.emplace_back(count);
  }
  return pixels;
}

/// Errors of a sheet made of options, told by the options; both numbers of --pixels are one.
Errors by_option(Errors errors) {
  Errors told;
  for (Error& error : errors) {
    for (const SheetOption& one : kSheetOptions)
      if (error.where.field.substr(0, one.field.size()) == one.field)
        error.where = {"command line", "", std::string(one.option)};
    const bool twice =
        std::any_of(told.begin(), told.end(), [&](const Error& one) { return to_line(one) == to_line(error); });
    if (!twice) told.push_back(std::move(error));
  }
  return told;
}

/// A sheet made of options goes through the same reader as one from a file, so that it is held to the same rules.
Checked<camera::Sheet> sheet_of_options(const Given& given) {
  const std::string& text = given.text("--pixels");
  const auto pixels = pixels_of(text);
  Errors errors;
  if (!pixels)
    errors.push_back(request_error(
        "--pixels", "found " + file::in_quotes(text) + "; allowed: pixels across x down, such as 3840x2160"));
  if (!given.has("--focal"))
    errors.push_back(request_error("--focal", "missing; without a sheet the focal length is needed"));
  if (!given.has("--view") && !given.has("--format"))
    errors.push_back(request_error("--view", "missing; without a sheet --view or --format is needed"));
  if (!errors.empty()) return tl::make_unexpected(std::move(errors));
  const double focal = *given.number("--focal");
  file::Object sheet{{"name", fmt::format("{} px, {:g} mm", text, focal)}, {"pixels", *pixels}, {"focal_mm", focal}};
  if (given.has("--view")) sheet.push_back({"view_deg", *given.number("--view")});
  if (given.has("--f-number")) sheet.push_back({"f_number", *given.number("--f-number")});
  if (given.has("--format")) sheet.push_back({"optical_format", given.text("--format")});
  if (given.has("--infrared-reach"))
    sheet.push_back({"infrared", file::Object{{"reach_m", *given.number("--infrared-reach")}}});
  auto read = file::parse_sheet(file::print_json(sheet), "command line");
  if (read) return read;
  return tl::make_unexpected(by_option(std::move(read.error())));
}

/// Options that only describe a sheet say nothing beside one.
Checked<camera::Sheet> sheet_of(const Given& given) {
  if (!given.has("SHEET") && !given.has("--pixels"))
    return refused("SHEET", "missing; needed is a sheet's file, or --pixels WxH --focal MM --view DEG");
  if (!given.has("SHEET")) return sheet_of_options(given);
  Errors errors;
  for (const SheetOption& one : kSheetOptions)
    if (one.option != "--focal" && given.has(one.option))
      errors.push_back(request_error(one.option, "found beside a sheet; it describes a camera without one"));
  if (!errors.empty()) return tl::make_unexpected(std::move(errors));
  return file::load_sheet(given.text("SHEET"));
}

/// An error when the sheet does not allow the value: allowed is from `low` to `high`.
void hold(const char* option, double value, double low, double high, const char* unit, Errors& errors) {
  constexpr double kSlack = 1e-9;  // relative: a value that is the bound but for rounding is within it
  if (value >= low * (1 - kSlack) && value <= high * (1 + kSlack)) return;
  const std::string from = file::print_number(low);
  const std::string allowed = low == high        ? fmt::format("{} {}", from, unit)
                              : std::isinf(high) ? fmt::format("{} {} or more", from, unit)
                                                 : fmt::format("{} to {} {}", from, file::print_number(high), unit);
  errors.push_back(
      request_error(option, fmt::format("found {}; the sheet allows {}", file::print_number(value), allowed)));
}

Errors set_camera(const Given& given, const camera::Sheet& sheet, camera::Camera& camera) {
  Errors errors;
  constexpr double kNoEnd = std::numeric_limits<double>::infinity();
  if (const auto focal = given.number("--focal")) {
    camera.focal = *focal * mm;
    hold("--focal", *focal, sheet.focal.wide.in(mm), sheet.focal.tele.in(mm), "mm", errors);
  }
  if (const auto focus = given.number("--focus")) {
    camera.focus = *focus * m;
    if (sheet.closest_focus) hold("--focus", *focus, sheet.closest_focus->in(m), kNoEnd, "m", errors);
  }
  if (const auto shutter = given.number("--shutter")) {
    camera.shutter = *shutter * s;
    if (sheet.shutter) hold("--shutter", *shutter, sheet.shutter->wide.in(s), sheet.shutter->tele.in(s), "s", errors);
  }
  return errors;
}

/// The level table asked for first, then the other ones.
Checked<std::vector<detail::LevelTable>> tables_of(const Given& given) {
  std::vector<detail::LevelTable> tables = file::standard_level_tables();
  const std::string name = given.text_or("--table", tables.front().name);
  const auto chosen =
      std::find_if(tables.begin(), tables.end(), [&](const detail::LevelTable& t) { return t.name == name; });
  if (chosen == tables.end()) {
    std::vector<std::string_view> names;
    names.reserve(tables.size());
    for (const detail::LevelTable& table : tables) names.push_back(table.name);
    return refused("--table", fmt::format("found {}; allowed: {}", file::in_quotes(name), file::listed(names)));
  }
  std::rotate(tables.begin(), chosen, chosen + 1);
  return tables;
}

Result<void> draw_picture(const card::CardRequest& request, const card::RangeCard& card, PictureFolder& folder) {
  const std::vector<card::Mark> curve = card::curve(request);
  const auto pictures = draw::draw_card({&request, &card, &curve});
  if (!pictures) return tl::make_unexpected(pictures.error());
  const std::string name = picture_name(1, card.camera);
  for (const auto& [ending, bytes] : {std::pair{".svg", &pictures->svg}, std::pair{".png", &pictures->png}})
    if (auto written = folder.write(name + ending, *bytes); !written) return written;
  return {};
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
  request.materials = file::default_materials();
  if (const Errors errors = set_camera(given, *sheet, request.setting); !errors.empty()) return report(errors);
  if (given.has("--tilt") && !given.has("--height"))
    return report(request_error("--tilt", "found without --height, where the axis is level with the face"));
  if (const auto height = given.number("--height")) request.height = *height * m;
  if (const auto tilt = given.number("--tilt")) request.tilt = *tilt * deg;
  for (const double mark : given.numbers("--marks")) request.marks.push_back(mark * m);
  std::sort(request.marks.begin(), request.marks.end());
  const auto calibrated = calibrate(given, request);
  if (!calibrated) return report(calibrated.error());
  if (*calibrated && !given.has("--json")) std::fputs(calibration_text(**calibrated).c_str(), stdout);
  PictureFolder folder(given.text_or("--picture", ""));
  if (given.has("--picture"))
    if (auto opened = folder.open(); !opened) return report(opened.error());
  const card::RangeCard card = card::range_card(request);
  if (given.has("--picture"))
    if (auto drawn = draw_picture(request, card, folder); !drawn) return report(drawn.error());
  folder.keep();
  const std::string text =
      given.has("--json") ? file::answer_text(request, card, *calibrated) : card_text(request, card);
  std::fputs(text.c_str(), stdout);
  return 0;
}

}  // namespace sightfall::cli
